import { outOfBottle } from '../bench/dissolved.ts';
import type { BottleShare, ChargePlan, PlanResult, StepPlan, Supply } from '../plan/result.ts';
import type { DecimalMark } from '../quantity/format.ts';
import { paperWords as words } from '../words/paper-words.ts';
import { amountText, readingText } from './amounts.ts';
import type { PaperContext } from './context.ts';
import type { ChargeEntry } from './sheet.ts';
import type { Session } from './session.ts';

/** A charge with its place in the sheet, and the session the sheet belongs to. */
export interface ChargePlace {
  readonly step: StepPlan;
  readonly number: number;
  readonly batch: number;
  readonly batches: number;
  readonly session: Session;
}

/** Bottles and dishes this batch takes from, with how much from each wherever it is not simply the target. */
export function sourcesOf(charge: ChargePlan, place: ChargePlace, context: PaperContext): ChargeEntry['sources'] {
  if (charge.supply.kind === 'utility') return [{ words: words.tap, amount: '' }];
  const { mark } = context;
  const { bottles, whole } = place.session.taken(charge, place.step, place.batch);
  const back = backFromBefore(charge, place.batch);
  const { shares, rest } = amountsOf(charge, bottles, whole, back, mark);
  const partly = back > 0 || bottles.length > (whole ? 1 : 0);
  const from = bottles.map((bottle, at) => ({ words: bottleWords(bottle), amount: partly ? (shares[at] ?? '') : '' }));
  const taken = whole ? from : [...from, restOf(charge, partly, rest, place, context)];
  return back > 0 ? [cameBack(charge, place.batch - 1, back, mark), ...taken] : taken;
}

/** What the batch before gave back: how much it really was shows at the bench, and the bottles fill up to the target. */
function cameBack({ perBatch }: ChargePlan, before: number, back: number, mark: DecimalMark): ChargeEntry['sources'][number] {
  const amount = perBatch.by === 'unknown' ? '' : readingText(back, perBatch.unit, perBatch.decimals, mark);
  return { words: words.cameBack(before), amount: words.about(amount) };
}

/** Whether a charge is simply all that an earlier step made: then it is taken as it is, and not weighed out. */
export function takesWholeDish({ supply }: ChargePlan, batches: number): boolean {
  return supply.kind === 'step' && supply.wholeDish && supply.bottles.length === 0 && batches === 1;
}

/** What covers what no bottle does. */
function restOf(
  { supply, perBatch }: ChargePlan,
  partly: boolean,
  amount: string,
  place: ChargePlace,
  { result, mark }: PaperContext,
): ChargeEntry['sources'][number] {
  switch (supply.kind) {
    case 'make up':
      return { words: words.makeUp(makeUpLabel(result, supply.makeUp)), amount: partly ? amount : '' };
    case 'step':
      return dishOf(supply, perBatch.target, amount, place, result, mark);
    case 'short':
      return partly
        ? { words: words.rest(words.missing[supply.status]), amount }
        : { words: words.missing[supply.status], amount: '' };
    default:
      return { words: '', amount: '' };
  }
}

/** The dish of an earlier step: taken as it is where all of it goes in, else how much of how much. */
function dishOf(
  supply: Extract<Supply, { kind: 'step' }>,
  target: number,
  amount: string,
  { step: own, batch, batches }: ChargePlace,
  result: PlanResult,
  mark: DecimalMark,
): ChargeEntry['sources'][number] {
  const step = result.steps.find((one) => one.id === supply.step);
  // What a step makes is not there before its first batch: a seed comes from elsewhere.
  if (supply.step === own.id) return { words: batch > 1 ? words.fromBatch(1) : words.ownNotYet, amount: '' };
  const dish = step ? words.fromStep(step.number) : words.fromStepUnknown;
  if (supply.wholeDish && batches === 1) return { words: dish, amount: supply.bottles.length === 0 ? '' : amount };
  // Where a second step makes of it too, what is taken may be more than this one makes.
  const whole = step && step.product.grams.value > target ? amountText(step.product.grams, mark) : '';
  return { words: dish, amount: amount === '' || whole === '' ? amount : words.ofDish(amount, whole) };
}

/** A bottle's share in the unit the charge is taken in; null where only a density could tell and none is known. */
function inChargeUnit(bottle: BottleShare, { perBatch, density }: ChargePlan): number | null {
  if (perBatch.by === 'unknown') return null;
  if (bottle.unit === perBatch.unit) return bottle.amount;
  if (!density) return null;
  return bottle.unit === 'mL' ? bottle.amount * density.value : bottle.amount / density.value;
}

/** What a sheet takes of each bottle for one charge of one batch, and what is left for the rest, in the charge's unit. */
export interface SheetShares {
  readonly shares: readonly number[];
  /** 0 where the bottles give all of it. */
  readonly rest: number;
}

/**
 * Each bottle's amount as the device shows it, and what is left for the rest; the last one takes the rounding, so that
 * they add up to the target, less what came `back` of the batch before; of a stock solution, to what is dissolved for it.
 * @param whole whether the bottles give all of it. @returns null where a bottle's share cannot be told in the charge's unit.
 */
export function sheetShares(
  charge: ChargePlan,
  bottles: readonly BottleShare[],
  whole: boolean,
  back: number,
): SheetShares | null {
  const take = charge.perBatch;
  const known = bottles.flatMap((bottle) => inChargeUnit(bottle, charge) ?? []);
  if (take.by === 'unknown' || known.length < bottles.length) return null;
  const out = outOfBottle(take);
  const rounded = (whole ? known.slice(0, -1) : known).map((one) => Number(one.toFixed(out.decimals)));
  const last = Math.max(0, out.amount - back - rounded.reduce((sum, one) => sum + one, 0));
  return whole ? { shares: [...rounded, last], rest: 0 } : { shares: rounded, rest: last };
}

/** What a batch gets of the batch before, as its device shows it; 0 for the first. */
export function backFromBefore({ perBatch, returns }: ChargePlan, batch: number): number {
  return batch > 1 ? Number((perBatch.target * returns).toFixed(perBatch.decimals)) : 0;
}

/** The shares in words. In the bottles' own units where the charge's cannot be told, and then without a rest. */
function amountsOf(
  charge: ChargePlan,
  bottles: readonly BottleShare[],
  whole: boolean,
  back: number,
  mark: DecimalMark,
): { readonly shares: readonly string[]; readonly rest: string } {
  const take = charge.perBatch;
  const found = sheetShares(charge, bottles, whole, back);
  if (!found) {
    return { shares: bottles.map(({ amount, unit }) => amountText({ value: amount, unit, digits: 4 }, mark)), rest: '' };
  }
  const shown = (value: number): string => readingText(Math.max(0, value), take.unit, outOfBottle(take).decimals, mark);
  return { shares: found.shares.map(shown), rest: whole ? '' : shown(found.rest) };
}

/** "M1", "M2" … in the plan's order, the same on the fetch list and on every sheet. */
export function makeUpLabel(result: PlanResult, id: string): string {
  return `M${result.makeUps.findIndex((makeUp) => makeUp.id === id) + 1}`;
}

/** Lot and place in words. */
export function bottleWords(bottle: Pick<BottleShare, 'lot' | 'place'>): string {
  const lot = bottle.lot === '' ? words.noLot : words.lot(bottle.lot);
  return bottle.place === '' ? lot : `${lot} · ${bottle.place}`;
}
