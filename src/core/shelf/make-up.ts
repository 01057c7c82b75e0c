import { hazardsOf } from '../bench/hazards.ts';
import { solutionCautions } from '../bench/solution-order.ts';
import { makeSolution } from '../matter/make-solution.ts';
import { dilute } from '../matter/mixing.ts';
import { massFraction } from '../matter/solution.ts';
import type { MakeUp } from '../plan/result.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import { formWords } from '../words/form-words.ts';
import type { Notice } from '../words/notice.ts';
import type { Remaining } from './allocate.ts';
import { type Demand, inUnit } from './demand.ts';
import type { Bottle } from './shelf.ts';

/** Taken for everything before a solution is made; common practice, no source. */
const ROOM_CELSIUS = 20;
/** Made up over what is charged, since some stays in the glass it is made and measured in; common practice, no source. */
const EXCESS_PERCENT = 5;

/**
 * Makes up what is missing of a solution from one stronger bottle that holds enough, and takes it from `remaining`: a
 * little more than is charged, as far as the bottle goes.
 * @returns null where no stronger bottle does.
 */
export function makeUp(
  demands: readonly Demand[],
  missing: readonly number[],
  bottles: readonly Bottle[],
  remaining: Remaining,
  reference: Reference,
): MakeUp | null {
  const first = demands[0];
  if (!first) return null;
  const charged = wantedFigure(demands, missing, 'g', reference);
  const to = massFraction(first.facts, first.form, reference);
  if (!charged || !to.ok) return null;
  for (const bottle of bottles) {
    const from = massFraction(first.facts, bottle.form, reference);
    if (!from.ok || from.figure.value <= to.figure.value) continue;
    const density = bottleDensity(first, bottle, reference);
    const perUnit = bottle.unit === 'g' ? 1 : (density ?? 0);
    const left = remaining.get(bottle.id) ?? 0;
    const exact = dilute(charged.value, from.figure.value, to.figure.value).strong / perUnit;
    if (exact > left) continue;
    const excessPercent = Math.min(EXCESS_PERCENT, (left / exact - 1) * 100);
    const grams = withExcess(charged, excessPercent);
    const { strong, solvent } = dilute(grams.value, from.figure.value, to.figure.value);
    const takeGrams = computed(
      `${first.facts.name} ${formWords(bottle.form)} to take`,
      strong,
      'g',
      'wanted mass × wanted fraction ÷ fraction in the bottle',
      [grams, to.figure, from.figure],
    ) as Figure<'g'>;
    const takeMillilitres =
      density === null ? null : computed('volume to take', strong / density, 'mL', 'mass ÷ density', [takeGrams]);
    const amount = Math.min(left, strong / perUnit);
    remaining.set(bottle.id, left - amount);
    const volume = wantedFigure(demands, missing, 'mL', reference);
    return {
      id: `${first.material}: ${formWords(first.form)}`,
      material: first.material,
      form: first.form,
      formWords: formWords(first.form),
      grams,
      millilitres: volume && withExcess(volume, excessPercent),
      excessPercent,
      from: { bottle: bottle.id, lot: bottle.lot ?? '', place: bottle.place ?? '', amount, unit: bottle.unit },
      fromWords: formWords(bottle.form),
      takeGrams,
      takeMillilitres,
      waterGrams: computed('solvent to add', solvent, 'g', 'wanted mass − mass taken', [grams, takeGrams]),
      hazards: hazardsOf(first.facts, bottle.form, reference)?.statements ?? null,
      before: cautions(first, bottle, grams, reference),
    };
  }
  return null;
}

function withExcess<U extends 'g' | 'mL'>(charged: Figure<U>, percent: number): Figure<U> {
  const value = charged.value * (1 + percent / 100);
  return computed(
    charged.label,
    value,
    charged.unit,
    `what is charged, and ${shownPercent(percent)} % more for what stays in glass`,
    [charged],
  );
}

function shownPercent(percent: number): number {
  return Number(percent.toPrecision(2));
}

/** How warm it gets and what else to know, at the temperature of the room. */
function cautions(demand: Demand, bottle: Bottle, grams: Figure<'g'>, reference: Reference): readonly Notice[] {
  const { facts, form } = demand;
  if (form.kind !== 'solution') return [];
  const ask = { solute: facts, form, amount: { by: 'g', figure: grams }, weaker: null, celsius: ROOM_CELSIUS } as const;
  const plan = makeSolution({ ...ask, source: { facts, form: bottle.form } }, reference);
  const at = { material: demand.material };
  return plan.problem ? [] : solutionCautions(plan, reference).map((notice) => ({ ...notice, at }));
}

function wantedFigure<U extends 'g' | 'mL'>(
  demands: readonly Demand[],
  missing: readonly number[],
  unit: U,
  reference: Reference,
): Figure<U> | null {
  let sum = 0;
  for (const [index, demand] of demands.entries()) {
    const one = inUnit(demand, demand.form, unit, reference);
    if (one === null) return null;
    sum += one * (missing[index] ?? 0);
  }
  return computed(
    `${demands[0]?.facts.name ?? ''} to make up`,
    sum,
    unit,
    'sum of what is not on the shelf',
    demands.map((demand) => demand.governed.figure),
  );
}

/** g/mL of what is in the bottle, through a demand that can be expressed both ways. */
function bottleDensity(demand: Demand, bottle: Bottle, reference: Reference): number | null {
  const grams = inUnit(demand, bottle.form, 'g', reference);
  const millilitres = inUnit(demand, bottle.form, 'mL', reference);
  return grams === null || millilitres === null || millilitres === 0 ? null : grams / millilitres;
}
