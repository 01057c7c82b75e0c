import type { BottleShare, ChargePlan, PlanResult, StepPlan, Supply } from '../plan/result.ts';
import type { DecimalMark } from '../quantity/format.ts';
import { paperWords as words } from '../words/paper-words.ts';
import { amountText } from './amounts.ts';
import type { PaperContext } from './context.ts';
import type { ChargeEntry } from './paper.ts';

/** A charge with its place in the sheet. */
export interface ChargePlace {
  readonly step: StepPlan;
  readonly number: number;
  readonly batch: number;
  readonly batches: number;
}

/** Bottles and dishes this batch takes from: batches empty the plan's bottles one after the other. */
export function sourcesOf(charge: ChargePlan, place: ChargePlace, context: PaperContext): ChargeEntry['sources'] {
  const { supply } = charge;
  const { result, mark } = context;
  switch (supply.kind) {
    case 'utility':
      return [{ words: words.tap, amount: '' }];
    case 'short':
      return shortSources(supply, place, mark);
    case 'make up':
      return [{ words: words.makeUp(makeUpLabel(result, supply.makeUp)), amount: '' }];
    case 'bottles':
      return bottleSources(supply.bottles, place, mark);
    case 'step':
      return [{ words: dishOf(result, supply.step), amount: '' }, ...bottleSources(supply.bottles, null, mark)];
  }
}

/** What there is of it, and that the rest is missing, and why. */
function shortSources(supply: Extract<Supply, { kind: 'short' }>, place: ChargePlace, mark: DecimalMark): ChargeEntry['sources'] {
  const why = words.missing[supply.status];
  if (supply.bottles.length === 0) return [{ words: why, amount: '' }];
  const there = sharesOfBatch(supply.bottles, place).map((bottle) => ({
    words: bottleWords(bottle),
    amount: amountText({ value: bottle.amount, unit: bottle.unit, digits: 3 }, mark),
  }));
  return [...there, { words: words.rest(why), amount: '' }];
}

function dishOf(result: PlanResult, id: string): string {
  const step = result.steps.find((one) => one.id === id);
  return step ? words.fromStep(step.number) : words.fromStepUnknown;
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

function bottleSources(bottles: readonly BottleShare[], place: ChargePlace | null, mark: DecimalMark): ChargeEntry['sources'] {
  const mine = place ? sharesOfBatch(bottles, place) : bottles;
  return mine.map((bottle) => ({
    words: bottleWords(bottle),
    amount: mine.length > 1 || !place ? amountText({ value: bottle.amount, unit: bottle.unit, digits: 3 }, mark) : '',
  }));
}

/** What the batch takes of each bottle, when the batches use the bottles up one after the other. */
export function sharesOfBatch(
  bottles: readonly BottleShare[],
  { batch, batches }: Pick<ChargePlace, 'batch' | 'batches'>,
): BottleShare[] {
  const whole = bottles.reduce((sum, bottle) => sum + bottle.amount, 0);
  const from = (whole * (batch - 1)) / batches;
  const to = (whole * batch) / batches;
  const least = whole * 1e-9;
  const shares: BottleShare[] = [];
  let before = 0;
  for (const bottle of bottles) {
    const amount = Math.min(before + bottle.amount, to) - Math.max(before, from);
    before += bottle.amount;
    if (amount > least) shares.push({ ...bottle, amount });
  }
  return shares;
}
