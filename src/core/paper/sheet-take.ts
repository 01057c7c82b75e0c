import { outOfBottle } from '../bench/dissolved.ts';
import type { BottleShare, ChargePlan, FetchLine, StepPlan } from '../plan/result.ts';
import type { DecimalMark } from '../quantity/format.ts';
import { paperWords as words } from '../words/paper-words.ts';
import { amountText, readingText, share } from './amounts.ts';
import { backFromBefore, sheetShares } from './charge-sources.ts';

/**
 * What is carried to the bench is said as the sheets take it: their rounded targets added up, in their unit and with
 * their decimals, so that the list, the screen and the sheet never name two numbers for the same thing. Of what goes in as a
 * stock solution that is what is dissolved.
 */

/** An amount with the decimals of the devices that take it. */
export interface SheetTake {
  readonly value: number;
  readonly unit: 'g' | 'mL';
  readonly decimals: number;
  /** Of each bottle that is taken from, by its label, in the same unit. */
  readonly bottles: ReadonlyMap<string, number>;
}

/** One charge of a line, in those of its batches that are chosen. */
interface Taking {
  readonly step: StepPlan;
  readonly charge: ChargePlan;
  readonly batches: readonly number[];
  /** What the whole step takes of the line, in the line's unit; null where it is not known. */
  readonly amount: number | null;
}

interface Taken {
  readonly bottles: readonly BottleShare[];
  readonly whole: boolean;
}

/** This close to the whole charge, it is the whole. */
const ALL = 1e-6;

/**
 * What the sheets of some batches take of a line in all, an end point at its largest amount.
 * @param takenBy what a batch takes from bottles for a charge.
 * @returns null where a charge has no target, or the charges are taken in different units.
 */
export function takeOnSheets(
  line: FetchLine,
  takings: readonly Taking[],
  takenBy: (charge: ChargePlan, step: StepPlan, batch: number) => Taken,
): SheetTake | null {
  const units = new Set(takings.map(({ charge }) => charge.perBatch.unit));
  const [unit] = units;
  if (unit === undefined || units.size > 1) return null;
  const bottles = new Map<string, number>();
  let value = 0;
  for (const taking of takings) {
    for (const batch of taking.batches) {
      const taken = takeOfBatch(line, taking, batch, takenBy(taking.charge, taking.step, batch));
      if (!taken) return null;
      value += taken.value;
      for (const [bottle, amount] of taken.bottles) bottles.set(bottle, (bottles.get(bottle) ?? 0) + amount);
    }
  }
  return { value, unit, decimals: Math.max(...takings.map(({ charge }) => outOfBottle(charge.perBatch).decimals)), bottles };
}

/** What one batch takes of a line for one charge, and of each of its bottles. */
function takeOfBatch(
  line: FetchLine,
  { charge, amount }: Taking,
  batch: number,
  { bottles: from, whole }: Taken,
): Pick<SheetTake, 'value' | 'bottles'> | null {
  if (charge.perBatch.by === 'unknown') return null;
  const { amount: out, decimals } = outOfBottle(charge.perBatch);
  const back = backFromBefore(charge, batch);
  const found = sheetShares(charge, from, whole, back);
  const own = new Set(line.bottles.map(({ bottle }) => bottle));
  const bottles = new Map(from.flatMap(({ bottle }, at) => (own.has(bottle) ? [[bottle, found?.shares[at] ?? 0] as const] : [])));
  const most = charge.atMost ?? 1;
  // A dish and a bottle of the same material are two lines: each gives its own share.
  if (charge.supply.kind === 'step') {
    if (!found) return null;
    const share = own.size > 0 ? [...bottles.values()].reduce((sum, one) => sum + one, 0) : found.rest;
    return { value: share * most, bottles };
  }
  const part = partOf(charge, amount, line);
  if (part === null) return null;
  const all = (out - back) * most;
  return { value: Math.abs(part - 1) < ALL ? all : Number((all * part).toFixed(decimals)), bottles };
}

/** Which part of a charge a line counts; its form may be another than the bottle's. */
function partOf(charge: ChargePlan, amount: number | null, line: FetchLine): number | null {
  const whole = line.unit === 'g' ? charge.grams?.value : charge.millilitres?.value;
  return amount === null || whole === undefined || !(whole > 0) ? null : amount / whole;
}

/** What the chosen batches ask of a line. */
interface Asked {
  readonly line: FetchLine;
  readonly part: number;
  readonly peakPart: number;
  readonly take: SheetTake | null;
}

/** The amount to carry to the bench, and beside it what else to know of it; '' where there is nothing. */
export interface TakeWords {
  readonly take: string;
  readonly beside: string;
}

/**
 * How the amount to carry is written on the list and on the screen: as the sheets say it, beside it the same by the unit
 * of the bottle, and what is expected to be used where less is.
 */
export function takeWords({ line, part, peakPart, take }: Asked, mark: DecimalMark): TakeWords {
  const need = share(line.need, part);
  const inHand = share(line.peak, peakPart);
  const beyond = inHand && need && inHand.value > need.value * (1 + 1e-9);
  const say = line.dissolved ? words.fetch.goesIn : words.fetch.expectedUse;
  const used = beyond ? say(inTake(line, need.value, take, mark)) : '';
  const exact = beyond ? inHand : need;
  if (!take || !exact) return { take: amountText(exact, mark), beside: used };
  const other = take.unit === line.unit ? '' : words.orByMass(amountText(exact, mark));
  return { take: readingText(take.value, take.unit, take.decimals, mark), beside: [other, used].filter(Boolean).join(', ') };
}

/** Fewer of the last digit say an amount too coarsely. */
const LEAST_READINGS = 100;

/** An amount of a line, in g or mL as the line has it, with the decimals of what the sheets take. */
function inTake({ unit, need }: FetchLine, value: number, take: SheetTake | null, mark: DecimalMark): string {
  // What goes in of a stock solution is too little for the device that weighs what is dissolved.
  const shown = take?.unit === unit && value >= LEAST_READINGS * 10 ** -take.decimals;
  return shown ? readingText(value, unit, take.decimals, mark) : amountText({ value, unit, digits: need.digits }, mark);
}

/** What is taken of one bottle of a line: as the sheets say it, else the exact share. */
export function bottleTakeText({ bottle, amount, unit }: BottleShare, take: SheetTake | null, mark: DecimalMark): string {
  const taken = take?.bottles.get(bottle);
  return take && taken !== undefined
    ? readingText(taken, take.unit, take.decimals, mark)
    : amountText({ value: amount, unit, digits: 4 }, mark);
}
