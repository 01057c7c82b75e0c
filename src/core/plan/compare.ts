import { entered, type Figure } from '../quantity/figure.ts';
import { formWords } from '../words/form-words.ts';
import type { Merit } from '../outcome/merit.ts';
import type { ChargePlan, PlanResult, StepPlan } from './result.ts';

export type Section = 'draws' | 'yields' | 'starts' | 'charges' | 'batches' | 'to buy' | 'use of material';

/** One thing of two plans, side by side; null on the side that does not have it. */
export interface Difference {
  readonly section: Section;
  /** Names, from the general to the particular: step title, material, form. */
  readonly of: readonly string[];
  readonly one: Figure | null;
  readonly other: Figure | null;
  /** (other − one) ÷ one, %; null where one side lacks it, is zero, or counts in another unit. */
  readonly change: number | null;
  readonly differs: boolean;
  /** A charge that changes just as the start of its step does: it says nothing of its own. */
  readonly follows: boolean;
}

/** A plan to be put beside another, with how it uses its material where that is known. */
export interface Compared {
  readonly result: PlanResult;
  readonly merit?: Merit | null;
}

/** What two computations of the same amount may differ by, relative: rounding noise of the computer. */
const NOISE = 1e-9;

/**
 * Two plans of a route side by side: draws, yields, starts, charges, batches and what has to be bought, each line marked
 * where the two differ; and how they use their material, where both say. Pure; the plans may be of any two revisions.
 * Lines stand in the order of the first plan.
 */
export function comparePlans(one: Compared, other: Compared): readonly Difference[] {
  const [first, second] = [linesOf(one), linesOf(other)];
  const keys = [...new Set([...first.keys(), ...second.keys()])];
  const order: readonly Section[] = ['draws', 'yields', 'starts', 'charges', 'batches', 'to buy', 'use of material'];
  const changes = startChanges(one.result, other.result);
  return keys
    .map((key): Difference => {
      const [a, b] = [first.get(key), second.get(key)];
      const line = a ?? b;
      const [left, right] = [a?.figure ?? null, b?.figure ?? null];
      const alike = left !== null && right !== null && left.unit === right.unit;
      return {
        section: line?.section ?? 'draws',
        of: line?.of ?? [],
        one: left,
        other: right,
        change: alike && left.value !== 0 ? (100 * (right.value - left.value)) / left.value : null,
        differs: !alike ? left !== right : Math.abs(left.value - right.value) > NOISE * Math.max(left.value, right.value),
        follows: alike && line?.step !== undefined && follows(left.value, right.value, changes.get(line.step)),
      };
    })
    .sort((a, b) => order.indexOf(a.section) - order.indexOf(b.section));
}

interface Line {
  readonly section: Section;
  readonly of: readonly string[];
  readonly figure: Figure;
  /** Of a charge: its step. */
  readonly step?: string;
}

/** Start of the other plan over that of the one, by step; steps that do not run in both are left out. */
function startChanges(one: PlanResult, other: PlanResult): ReadonlyMap<string, number> {
  const starts = new Map(one.steps.map((step) => [step.id, step.basis.moles.value]));
  return new Map(
    other.steps.flatMap(({ id, basis }): [string, number][] => {
      const before = starts.get(id) ?? 0;
      return before > 0 && basis.moles.value > 0 ? [[id, basis.moles.value / before]] : [];
    }),
  );
}

function follows(left: number, right: number, change: number | undefined): boolean {
  return change !== undefined && Math.abs(right - left * change) <= NOISE * Math.max(right, left * change);
}

function linesOf({ result: plan, merit }: Compared): ReadonlyMap<string, Line> {
  const lines = new Map<string, Line>();
  const name = (key: string): string => plan.materials[key]?.name ?? key;
  const add = (section: Section, id: string, of: readonly string[], figure: Figure | null, step?: string): void => {
    if (figure) lines.set(`${section} ${id}`, { section, of, figure, ...(step === undefined ? {} : { step }) });
  };
  for (const draw of plan.draws)
    add('draws', draw.id, [name(draw.material), draw.purpose].filter(Boolean), draw.grams ?? draw.moles);
  add('starts', 'chosen', ['chosen start, times what has to be made'], plan.start.multiplier);
  for (const step of plan.steps) {
    add('yields', step.id, [step.title], step.yield);
    for (const end of ['lowest', 'highest'] as const) {
      const value = step.yieldRange?.[end];
      const label = `${end} yield of ${step.title}`;
      if (value !== undefined) add('yields', `${step.id} ${end}`, [step.title, end], entered(label, value, '%', 'as entered'));
    }
    add('starts', step.id, [step.title, name(step.basis.material)], step.basis.grams);
    if (!step.active) continue;
    add('batches', step.id, [step.title], counted(step.batches.count, step.batches.basisGrams));
    for (const { charge, called } of toldApart(step, name))
      add('charges', `${step.id} ${charge.id}`, [step.title, called], charge.total.exact, step.id);
  }
  for (const line of plan.fetch)
    if (line.short && line.short.value > 0)
      add('to buy', `${line.material} ${formWords(line.form)} ${line.unit}`, [line.name, line.formWords], line.short);
  for (const [material, { longest }] of Object.entries(merit?.overall ?? {}))
    add('use of material', `overall ${material}`, [name(material), longest.percent.label], longest.percent);
  for (const figure of [merit?.whole?.intensity, merit?.whole?.waste, merit?.whole?.costPerGram])
    if (figure) add('use of material', figure.label, [figure.label], figure);
  return lines;
}

/** Charges of a step but its basis; from the second of one material on with a number. */
function toldApart(
  step: StepPlan,
  name: (key: string) => string,
): readonly { readonly charge: ChargePlan; readonly called: string }[] {
  const met = new Map<string, number>();
  return step.operations.flatMap((charge) => {
    if (charge.kind !== 'charge' || charge.isBasis) return [];
    const count = (met.get(charge.material) ?? 0) + 1;
    met.set(charge.material, count);
    return [{ charge, called: count > 1 ? `${name(charge.material)} (${count})` : name(charge.material) }];
  });
}

function counted(count: number, of: Figure): Figure<''> {
  return {
    label: 'batches',
    value: count,
    unit: '',
    // Batches are whole.
    digits: String(count).length,
    from: { kind: 'computed', how: 'batches of this step', of: [of] },
  };
}
