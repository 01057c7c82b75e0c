import { grouped } from '../grouped.ts';
import { likeliest } from '../plan/solve/requirements.ts';
import type { Step } from '../route/route.ts';
import type { CascadeFlow, CascadeInput } from './input.ts';

/** A recovered material has no amount in a route without a plan: its loop is drawn as a thin line. */
const LOOP = 0.02;

/**
 * What the cascade draws of a route before anything is planned: one part of each last product, and backward from it what
 * the likeliest yields ask for, in moles over path stoichiometry. Where two steps make one material each makes half.
 * @param steps in working order (`stepsInOrder`), so that makers stand before users.
 * @param asked what it is for, one part each; every product that no step uses where it is not given.
 * @returns sizes in parts of one draw; a step with a yield of 0 % is drawn as if it lost nothing.
 */
export function routeCascade(steps: readonly Step[], asked?: CascadeInput['draws']): CascadeInput {
  const number = new Map(steps.map((step, index) => [step.id, index + 1]));
  const makers = grouped(steps, (step) => step.product);
  const makersBefore = (user: Step, material: string): readonly Step[] =>
    (makers.get(material) ?? []).filter((maker) => (number.get(maker.id) ?? 0) < (number.get(user.id) ?? 0));
  const wanted = new Set(steps.flatMap((step) => usedBy(step).filter((material) => makersBefore(step, material).length > 0)));
  const ends = [...makers.keys()].filter((material) => !wanted.has(material));
  const draws = asked ?? ends.map((material) => ({ id: material, material }));
  const need = new Map<string, number>();
  for (const { material } of draws) need.set(material, (need.get(material) ?? 0) + 1);
  const flows: CascadeFlow[] = [];
  for (const step of steps.toReversed()) {
    const made = (need.get(step.product) ?? 0) / (makers.get(step.product)?.length ?? 1);
    const size = made / (likeliest(step.yieldPercent) / 100 || 1);
    for (const material of usedBy(step)) {
      const from = makersBefore(step, material);
      if (from.length === 0 && material !== step.basis) continue;
      need.set(material, (need.get(material) ?? 0) + size);
      flows.push(...flowsInto(step, material, from, size));
    }
  }
  for (const { id, material } of draws) {
    const from = makers.get(material) ?? [];
    for (const maker of from) flows.push(flow(maker, { kind: 'draw', draw: id }, material, 1 / from.length));
  }
  return {
    steps: steps.map((step, index) => ({
      id: step.id,
      number: index + 1,
      basis: step.basis,
      product: step.product,
      also: usedBy(step).filter((material) => material !== step.basis && makersBefore(step, material).length > 0),
      theory: null,
    })),
    draws,
    flows: [...flows, ...recycles(steps)],
  };
}

/** Basis, what else the equation uses, and what else is charged. */
function usedBy(step: Step): readonly string[] {
  const charged = step.operations.flatMap((one) => (one.do === 'charge' ? [one.material] : []));
  return [...new Set([step.basis, ...step.equation.uses.map((term) => term.material), ...charged])];
}

const flow = (from: Step, to: CascadeFlow['to'], material: string, size: number): CascadeFlow => ({
  from: { kind: 'step', step: from.id },
  to,
  material,
  size,
  recycle: false,
  apart: false,
});

function flowsInto(step: Step, material: string, from: readonly Step[], size: number): readonly CascadeFlow[] {
  const to = { kind: 'step', step: step.id } as const;
  if (from.length > 0) return from.map((maker) => flow(maker, to, material, size / from.length));
  return [{ from: { kind: 'bought', material }, to, material, size, recycle: false, apart: false }];
}

/** What a step gives back goes to the first step that charges it. */
function recycles(steps: readonly Step[]): readonly CascadeFlow[] {
  return steps.flatMap((step) =>
    (step.recovers ?? []).flatMap(({ material }) => {
      const user = steps.find((one) => usedBy(one).includes(material));
      if (!user) return [];
      const to = { kind: 'step', step: user.id } as const;
      return [{ from: { kind: 'step', step: step.id } as const, to, material, size: LOOP, recycle: true, apart: true }];
    }),
  );
}
