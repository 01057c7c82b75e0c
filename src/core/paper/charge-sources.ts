import type { BottleShare, ChargePlan, PlanResult, StepPlan, Supply } from '../plan/result.ts';
import type { DecimalMark } from '../quantity/format.ts';
import { paperWords as words } from '../words/paper-words.ts';
import { amountText } from './amounts.ts';
import type { PaperContext } from './context.ts';
import type { ChargeEntry } from './paper.ts';
import type { Session } from './session.ts';

/** A charge with its place in the sheet, and the session the sheet belongs to. */
export interface ChargePlace {
  readonly step: StepPlan;
  readonly number: number;
  readonly batch: number;
  readonly batches: number;
  readonly session: Session;
}

/** Bottles and dishes this batch takes from: batches empty the plan's bottles one after the other. */
export function sourcesOf(charge: ChargePlan, place: ChargePlace, context: PaperContext): ChargeEntry['sources'] {
  const { supply } = charge;
  const { result, mark } = context;
  const { bottles, whole } = place.session.taken(charge, place.step, place.batch);
  switch (supply.kind) {
    case 'utility':
      return [{ words: words.tap, amount: '' }];
    case 'short':
      return whole ? bottleSources(bottles, bottles.length > 1, mark) : shortSources(supply, bottles, mark);
    case 'make up':
      return [{ words: words.makeUp(makeUpLabel(result, supply.makeUp)), amount: '' }];
    case 'bottles':
      return bottleSources(bottles, bottles.length > 1, mark);
    case 'step':
      return [{ words: dishOf(result, supply.step), amount: '' }, ...bottleSources(bottles, true, mark)];
  }
}

/** What there is of it, and that the rest is missing, and why. */
function shortSources(
  supply: Extract<Supply, { kind: 'short' }>,
  bottles: readonly BottleShare[],
  mark: DecimalMark,
): ChargeEntry['sources'] {
  const why = words.missing[supply.status];
  if (bottles.length === 0) return [{ words: why, amount: '' }];
  return [...bottleSources(bottles, true, mark), { words: words.rest(why), amount: '' }];
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

function bottleSources(bottles: readonly BottleShare[], withAmounts: boolean, mark: DecimalMark): ChargeEntry['sources'] {
  return bottles.map((bottle) => ({
    words: bottleWords(bottle),
    amount: withAmounts ? amountText({ value: bottle.amount, unit: bottle.unit, digits: 3 }, mark) : '',
  }));
}
