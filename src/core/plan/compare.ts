import type { Figure } from '../quantity/figure.ts';
import { formWords } from '../words/form-words.ts';
import type { PlanResult } from './result.ts';

export type Section = 'draws' | 'yields' | 'starts' | 'charges' | 'batches' | 'to buy';

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
}

/** What two computations of the same amount may differ by, relative: rounding noise of the computer. */
const NOISE = 1e-9;

/**
 * Two plans of a route side by side: draws, yields, starts, charges, batches and what has to be bought, each line marked
 * where the two differ. Pure; the plans may be of any two revisions. Lines stand in the order of the first plan.
 */
export function comparePlans(one: PlanResult, other: PlanResult): readonly Difference[] {
  const [first, second] = [linesOf(one), linesOf(other)];
  const keys = [...new Set([...first.keys(), ...second.keys()])];
  const order: readonly Section[] = ['draws', 'yields', 'starts', 'charges', 'batches', 'to buy'];
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
      };
    })
    .sort((a, b) => order.indexOf(a.section) - order.indexOf(b.section));
}

interface Line {
  readonly section: Section;
  readonly of: readonly string[];
  readonly figure: Figure;
}

function linesOf(plan: PlanResult): ReadonlyMap<string, Line> {
  const lines = new Map<string, Line>();
  const name = (key: string): string => plan.materials[key]?.name ?? key;
  const add = (section: Section, id: string, of: readonly string[], figure: Figure | null): void => {
    if (figure) lines.set(`${section} ${id}`, { section, of, figure });
  };
  for (const draw of plan.draws)
    add('draws', draw.id, [name(draw.material), draw.purpose].filter(Boolean), draw.grams ?? draw.moles);
  for (const step of plan.steps) {
    add('yields', step.id, [step.title], step.yield);
    add('starts', step.id, [step.title, name(step.basis.material)], step.basis.grams);
    if (!step.active) continue;
    add('batches', step.id, [step.title], counted(step.batches.count, step.batches.basisGrams));
    for (const charge of step.operations)
      if (charge.kind === 'charge' && !charge.isBasis)
        add('charges', `${step.id} ${charge.id}`, [step.title, name(charge.material)], charge.total.exact);
  }
  for (const line of plan.fetch)
    if (line.short && line.short.value > 0)
      add('to buy', `${line.material} ${formWords(line.form)} ${line.unit}`, [line.name, line.formWords], line.short);
  return lines;
}

function counted(count: number, of: Figure): Figure<''> {
  return {
    label: 'batches',
    value: count,
    unit: '',
    digits: 3,
    from: { kind: 'computed', how: 'batches of this step', of: [of] },
  };
}
