import { type Form, solventOf } from '../matter/form.ts';
import { massFraction } from '../matter/solution.ts';
import type { PassedOverBottle, Status } from '../plan/result.ts';
import type { Reference } from '../reference.ts';
import { formWords } from '../words/form-words.ts';
import { coverage } from './allocate.ts';
import { type Demand, fromBottle, inUnit } from './demand.ts';
import { partFromShelf } from './recycled.ts';
import type { Bottle } from './shelf.ts';
import type { PassedBottle } from './stand.ts';
import { assayPercent } from './usable.ts';

/** A remainder below this part of a demand is rounding, not a shortage. */
const ROUNDING = 1e-9;

/**
 * What part of all demands a bottle that was passed over would cover if its reason fell away, 0 … ; one of unknown
 * strength as if it were as strong as asked. 0 where the assay is too low; null where it cannot be converted.
 */
export function wouldCover(passed: PassedBottle, demands: readonly Demand[], reference: Reference): number | null {
  const { bottle, why, service } = passed;
  if (why === 'assay too low') return 0;
  if (bottle.form.kind === 'unknown')
    return ratio(bottle.left, demands, (one) => fromBottle(one, one.form, bottle.unit, reference));
  if (service === 'serves') return coverage(demands, bottle, new Map([[bottle.id, bottle.left]]), reference);
  const first = demands[0] as Demand;
  const [has, wants] = [bottle.form, first.form].map((form) => massFraction(first.facts, form, reference));
  const grams = bottle.unit === 'g' ? bottle.left : gramsOf(passed, first, reference);
  if (!has?.ok || !wants?.ok || grams === null) return null;
  const wanted = wants.figure.value;
  return ratio(grams * has.figure.value, demands, (one) => {
    const whole = fromBottle(one, one.form, 'g', reference);
    return whole === null ? null : whole * wanted;
  });
}

/**
 * Where a line stands that the usable bottles do not cover: only past its date, or of unknown strength, where with
 * those it would be covered; else short.
 * @param missing part of all demands not covered, 0 … 1.
 */
export function statusWithout(
  missing: number,
  passedOver: readonly PassedBottle[],
  demands: readonly Demand[],
  reference: Reference,
): Status {
  const sum = (why: PassedBottle['why']): number =>
    passedOver
      .filter((one) => one.why === why)
      // What cannot be converted may be enough.
      .reduce((total, one) => total + (wouldCover(one, demands, reference) ?? 1), 0);
  const [past, unknown] = [sum('out of date'), sum('unknown strength')];
  if (past >= missing - ROUNDING && past > 0) return 'out of date';
  return unknown > 0 && past + unknown >= missing - ROUNDING ? 'unknown strength' : 'short';
}

/** What a plan's line says of a bottle passed over. @param missing part of all demands not covered, 0 … 1. */
export function passedOverBottle(
  passed: PassedBottle,
  missing: number,
  demands: readonly Demand[],
  reference: Reference,
): PassedOverBottle {
  const { bottle, why } = passed;
  const covers = wouldCover(passed, demands, reference);
  return {
    bottle: bottle.id,
    lot: bottle.lot ?? '',
    why,
    left: bottle.left,
    unit: bottle.unit,
    ...(why === 'out of date' && bottle.useBy !== undefined ? { useBy: bottle.useBy } : {}),
    ...(why === 'assay too low' ? { assayPercent: assayPercent(bottle) } : {}),
    wouldCover: missing <= 0 || covers === null || why === 'assay too low' ? null : covers >= missing - ROUNDING,
  };
}

/** A bottle of something called nearly the same, as a line tells it: another material, so that nothing is said of what it would cover. */
export function namedAlike({ bottle, name }: { readonly bottle: Bottle; readonly name: string }): PassedOverBottle {
  const { id, lot = '', left, unit } = bottle;
  return { bottle: id, lot, why: 'named alike', left, unit, name, wouldCover: null };
}

/** A solution in another solvent, as a line tells it: what the solvent does to the step is not the program's to say. */
export function inSolvent({ id, lot = '', left, unit, form }: Bottle): PassedOverBottle {
  const name = form.kind === 'solution' ? solventOf(form) : '';
  return { bottle: id, lot, why: 'other solvent', left, unit, name, wouldCover: null };
}

/** A bottle of the material in a form that is not what is asked for, as a line tells it; of an unknown strength that cannot be told. */
export function inOtherForm({ id, lot = '', left, unit, form }: Bottle, asked: Form): PassedOverBottle {
  const why = asked.kind === 'unknown' ? 'strength not said' : 'other form';
  return { bottle: id, lot, why, left, unit, name: formWords(form), wouldCover: null };
}

function ratio(has: number, demands: readonly Demand[], of: (demand: Demand) => number | null): number | null {
  let needed = 0;
  for (const demand of demands) {
    const one = of(demand);
    if (one === null) return null;
    needed += one * partFromShelf(demand);
  }
  return needed <= 0 ? 1 : has / needed;
}

/** g in a bottle told in mL, through a demand that can be told both ways; null where it cannot. */
function gramsOf({ bottle }: PassedBottle, demand: Demand, reference: Reference): number | null {
  const [grams, millilitres] = (['g', 'mL'] as const).map((unit) => inUnit(demand, bottle.form, unit, reference) ?? 0);
  return grams && millilitres ? (bottle.left * grams) / millilitres : null;
}
