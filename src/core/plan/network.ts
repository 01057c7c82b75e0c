import type { Facts } from '../matter/facts.ts';
import { entered } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import type { Route, Step } from '../route/route.ts';
import type { Notice } from '../words/notice.ts';
import { workingOrder } from './order.ts';
import { runStep } from './run-step.ts';

/** A route as a network: which step makes what, and what each uses per mole of its basis. */
export interface Network {
  readonly steps: readonly Step[];
  /** Material → index of the one step that makes it. */
  readonly makerOf: ReadonlyMap<string, number>;
  /** Stoichiometric product per mol of basis (ν product ÷ ν basis), by step. */
  readonly stoichiometry: readonly number[];
  /** By step: mol charged per mol of basis, for every material made in the route; recoveries not yet taken off. */
  readonly charged: readonly ReadonlyMap<string, number>[];
  /** By step: mol of a material that comes back per mol of basis. */
  readonly recovered: readonly ReadonlyMap<string, number>[];
  /** By step: mol of a made material charged once in every batch. */
  readonly fixed: readonly ReadonlyMap<string, number>[];
  /** By step: mol of product that stays behind in every batch. */
  readonly lost: readonly number[];
  /** Indexes of steps in working order, loops together. */
  readonly groups: readonly (readonly number[])[];
}

export type NetworkReading =
  | { readonly ok: true; readonly network: Network }
  | { readonly ok: false; readonly notices: readonly Notice[] };

/**
 * Builds the network of a route. Refused in words: two steps that make one material, a step with two wanted
 * products, an amount of an intermediate that cannot be turned into moles.
 */
export function readNetwork(
  route: Route,
  wanted: ReadonlySet<string>,
  facts: ReadonlyMap<string, Facts>,
  reference: Reference,
): NetworkReading {
  const steps = route.steps;
  const makerOf = new Map<string, number>();
  const refusals: Notice[] = [];
  steps.forEach((step, index) => {
    const earlier = makerOf.get(step.product);
    if (earlier === undefined) makerOf.set(step.product, index);
    else
      refusals.push(
        refusal(
          'two makers',
          { material: nameOf(route, step.product), first: steps[earlier]?.title ?? '', second: step.title },
          step,
        ),
      );
  });
  const charged = steps.map((step) => chargedPerMole(step, 0, facts, reference, makerOf));
  charged.forEach((one, index) => {
    for (const material of one.unknown)
      refusals.push(refusal('use not in moles', { material: nameOf(route, material) }, steps[index]));
  });
  const recovered = steps.map((step, index) => recoveredPerMole(step, charged[index]?.all ?? new Map()));
  refusals.push(...secondProducts(route, makerOf, wanted, charged, recovered));
  if (refusals.length > 0) return { ok: false, notices: refusals };
  const made = charged.map((one) => one.moles);
  const fixed = steps.map((step) => fixedPerBatch(step, facts, reference, makerOf));
  const users = (i: number): readonly number[] => {
    const product = steps[i]?.product ?? '';
    return steps.flatMap((_, j) => ((made[j]?.get(product) ?? 0) + (fixed[j]?.get(product) ?? 0) > 0 ? [j] : []));
  };
  const network: Network = {
    steps,
    makerOf,
    stoichiometry: steps.map(stoichiometryOf),
    charged: made,
    recovered,
    fixed,
    lost: steps.map(
      (step) => (step.lossPerBatch?.grams ?? 0) / (facts.get(step.product)?.molarMass?.value ?? Number.POSITIVE_INFINITY),
    ),
    groups: workingOrder(steps.length, users),
  };
  return { ok: true, network };
}

/**
 * The steps of a route in working order, as a plan of it numbers them: 1 is what is made first.
 * @returns the file's own order where no plan of the route can be worked out.
 */
export function stepsInOrder(route: Route, facts: ReadonlyMap<string, Facts>, reference: Reference): readonly Step[] {
  const read = readNetwork(route, new Set(), facts, reference);
  if (!read.ok) return route.steps;
  return read.network.groups.flat().flatMap((index) => route.steps[index] ?? []);
}

/** ν(product) ÷ ν(basis) of a step's equation. */
export function stoichiometryOf(step: Step): number {
  const of = (terms: Step['equation']['uses'], key: string): number =>
    terms.find((term) => term.material === key)?.coefficient ?? 1;
  return of(step.equation.makes, step.product) / of(step.equation.uses, step.basis);
}

interface Charged {
  /** Moles per mol of basis of materials made in the route. */
  readonly moles: ReadonlyMap<string, number>;
  /** The same for every material whose moles are known. */
  readonly all: ReadonlyMap<string, number>;
  readonly unknown: readonly string[];
}

const ONE_MOLE = entered('one mole of basis', 1, 'mol', 'the step');
const NONE = entered('no basis', 0, 'mol', 'the step');

function chargedPerMole(
  step: Step,
  batches: number,
  facts: ReadonlyMap<string, Facts>,
  reference: Reference,
  makerOf: ReadonlyMap<string, number>,
): Charged {
  const all = new Map<string, number>();
  const unknown = new Set<string>();
  for (const run of runStep({ step, facts, reference, basisMoles: batches > 0 ? NONE : ONE_MOLE, batches }).charges) {
    const fixed = run.rule.kind === 'per batch';
    if (fixed !== batches > 0) continue;
    const key = run.charge.material;
    if (run.amount?.moles.ok) all.set(key, (all.get(key) ?? 0) + run.amount.moles.figure.value);
    else if (makerOf.has(key)) unknown.add(key);
  }
  const moles = new Map([...all].filter(([key]) => makerOf.has(key)));
  return { moles, all, unknown: [...unknown] };
}

function fixedPerBatch(
  step: Step,
  facts: ReadonlyMap<string, Facts>,
  reference: Reference,
  makerOf: ReadonlyMap<string, number>,
): ReadonlyMap<string, number> {
  return chargedPerMole(step, 1, facts, reference, makerOf).moles;
}

function recoveredPerMole(step: Step, charged: ReadonlyMap<string, number>): ReadonlyMap<string, number> {
  const back = new Map<string, number>();
  for (const recovery of step.recovers ?? []) {
    const moles =
      'percentOfCharge' in recovery
        ? ((charged.get(recovery.material) ?? 0) * recovery.percentOfCharge) / 100
        : recovery.molesPerMoleBasis;
    back.set(recovery.material, (back.get(recovery.material) ?? 0) + moles);
  }
  return back;
}

/**
 * Second products a plan would have to share out: a by-product that is drawn, or a made material that comes back
 * in larger amount than the step took of it.
 */
function secondProducts(
  route: Route,
  makerOf: ReadonlyMap<string, number>,
  wanted: ReadonlySet<string>,
  charged: readonly Charged[],
  recovered: readonly ReadonlyMap<string, number>[],
): readonly Notice[] {
  return route.steps.flatMap((step, index) => {
    const byProducts = step.equation.makes.map((term) => term.material).filter((key) => key !== step.product && wanted.has(key));
    const returned = [...(recovered[index] ?? [])]
      .filter(
        ([key, moles]) => (wanted.has(key) || makerOf.has(key)) && moles > (charged[index]?.all.get(key) ?? 0) * (1 + 1e-12),
      )
      .map(([key]) => key);
    const names = (key: string): Notice['values'] => ({ first: nameOf(route, step.product), second: nameOf(route, key) });
    const made = returned.filter((key) => makerOf.has(key) && !byProducts.includes(key));
    const second = [...new Set([...byProducts, ...returned])].filter((key) => !made.includes(key));
    return [
      ...second.map((key) => refusal('two wanted products', names(key), step)),
      ...made.map((key) => refusal('made and given back', names(key), step)),
    ];
  });
}

function refusal(code: string, values: Notice['values'], step: Step | undefined): Notice {
  return { level: 'error', code, values, at: step ? { step: step.id } : {} };
}

function nameOf(route: Route, key: string): string {
  return route.materials[key]?.name ?? key;
}
