import type { BottleShare, FetchLine, PlanResult } from '../plan/result.ts';
import { paperWords as words } from '../words/paper-words.ts';
import { amountText, share } from './amounts.ts';
import { sharesOfBatch } from './charge-sources.ts';
import { type ChosenBatch, type PaperContext, stepOf, warningsOf } from './context.ts';
import { makeUpEntry } from './make-up-entry.ts';
import type { FetchLineEntry, FetchPaper } from './paper.ts';
import { sessionLines, sessionShares, sessionStatus } from './session.ts';

/**
 * What to carry to the bench for the chosen batches, grouped by place, and what to make up first.
 * @throws RangeError where a chosen step is not in the plan.
 */
export function fetchPaper(chosen: readonly ChosenBatch[], context: PaperContext): FetchPaper {
  const { result, say } = context;
  const shares = sessionShares(result, chosen);
  const lines = sessionLines(result).filter((line) => (shares.line.get(line.id) ?? 0) > 0);
  let number = 0;
  const places = byPlace(lines).map(([place, group]) => ({
    place,
    lines: group.map((line) => {
      number += 1;
      return fetchEntry(line, number, shares.line.get(line.id) ?? 0, chosen, context);
    }),
  }));
  const mine = (material: string | undefined) =>
    lines.some((line) => line.material === material && sessionStatus(result, line, chosen) === line.status);
  return {
    backweigh: 'paper',
    version: 1,
    kind: 'fetch list',
    size: context.size,
    title: words.fetch.title(result.name),
    plan: result.name,
    route: result.route,
    asOf: result.asOf,
    session: sessionText(chosen, context),
    before: warningsOf(
      result.notices.filter((notice) => notice.at.step === undefined && notice.level !== 'note' && mine(notice.at.material)),
      say,
    ),
    makeUps: result.makeUps.flatMap((makeUp) => {
      const factor = shares.makeUp.get(makeUp.id) ?? 0;
      return factor > 0 ? [makeUpEntry(makeUp, factor, '', context)] : [];
    }),
    places,
    lines: number,
  };
}

/** Places in alphabetical order; what comes from a step, the tap or nowhere last. */
function byPlace(lines: readonly FetchLine[]): [string, FetchLine[]][] {
  const groups = new Map<string, FetchLine[]>();
  for (const line of lines) {
    const place = placeOf(line);
    groups.set(place, [...(groups.get(place) ?? []), line]);
  }
  const last: string[] = [words.fetch.noPlace, words.fetch.notOnShelf, words.fetch.fromSteps, words.fetch.tap];
  const rank = (place: string) => last.indexOf(place);
  return [...groups].sort(([a], [b]) => rank(a) - rank(b) || (a < b ? -1 : a > b ? 1 : 0));
}

function placeOf(line: FetchLine): string {
  if (line.status === 'tap') return words.fetch.tap;
  if (line.status === 'from a step' && line.bottles.length === 0) return words.fetch.fromSteps;
  if (line.status === 'short' && line.bottles.length === 0 && line.passedOver.length === 0) return words.fetch.notOnShelf;
  const place = line.bottles[0]?.place ?? line.place;
  return place === '' ? words.fetch.noPlace : place;
}

const MARKS = {
  enough: 'ok',
  tap: 'ok',
  'from a step': 'ok',
  'make up': 'wait',
  short: 'act',
  'out of date': 'act',
  'unknown strength': 'act',
} as const satisfies Record<FetchLine['status'], FetchLineEntry['mark']>;

function fetchEntry(
  line: FetchLine,
  number: number,
  factor: number,
  chosen: readonly ChosenBatch[],
  context: PaperContext,
): FetchLineEntry {
  const { mark, result } = context;
  const status = sessionStatus(result, line, chosen);
  const peak = line.peak.value > line.need.value * (1 + 1e-9) ? words.fetch.peak(amountText(share(line.peak, factor), mark)) : '';
  const steps = new Set(
    line.uses.filter((use) => chosen.some((one) => one.step === use.step)).map((use) => stepOf(result, use.step).number),
  );
  return {
    number,
    material: line.name,
    form: line.formWords,
    lots: lotsOf(line, sharesOf(line, factor, chosen, result), mark),
    need: amountText(share(line.need, factor), mark),
    peak,
    onHand: line.status === 'tap' || line.status === 'from a step' ? '' : amountText(line.onHand, mark),
    status:
      status === line.status ? words.statuses[status] : words.fetch.hereOnly(words.statuses[status], words.statuses[line.status]),
    mark: MARKS[status],
    uses: words.fetch.uses([...steps].sort((a, b) => a - b)),
  };
}

/** What the chosen batches take of each bottle, as their weighing sheets say; the line's own share where they do not. */
function sharesOf(line: FetchLine, factor: number, chosen: readonly ChosenBatch[], result: PlanResult): readonly BottleShare[] {
  const shares = new Map<string, BottleShare>();
  for (const { step, batch } of chosen) {
    const { operations, batches } = stepOf(result, step);
    for (const charge of operations) {
      if (charge.kind !== 'charge' || charge.supply.kind !== 'bottles') continue;
      if (!line.uses.some((use) => use.step === step && use.operation === charge.id)) continue;
      for (const share of sharesOfBatch(charge.supply.bottles, { batch, batches: batches.count })) {
        shares.set(share.bottle, { ...share, amount: share.amount + (shares.get(share.bottle)?.amount ?? 0) });
      }
    }
  }
  if (shares.size > 0) return [...shares.values()];
  return line.bottles.map((bottle) => ({ ...bottle, amount: bottle.amount * factor }));
}

function lotsOf(line: FetchLine, shares: readonly BottleShare[], mark: PaperContext['mark']): string[] {
  const taken = shares.map((bottle) => lotText(bottle, shares.length > 1, line, mark));
  const passed = line.passedOver.map((bottle) => words.fetch.passedOver(lotWords(bottle.lot), bottle.why));
  return [...taken, ...passed];
}

function lotText(bottle: BottleShare, withAmount: boolean, line: FetchLine, mark: PaperContext['mark']): string {
  const elsewhere = bottle.place !== '' && bottle.place !== placeOf(line) ? ` · ${bottle.place}` : '';
  const lot = `${lotWords(bottle.lot)}${elsewhere}`;
  return withAmount ? words.fetch.lot(lot, amountText({ value: bottle.amount, unit: bottle.unit, digits: 3 }, mark)) : lot;
}

function lotWords(lot: string): string {
  return lot === '' ? words.noLot : words.lot(lot);
}

/** "for step 1 batch 1, 2; step 2 batch 1", or "for the whole plan" where every batch is chosen. */
function sessionText(chosen: readonly ChosenBatch[], { result }: PaperContext): string {
  const active = result.steps.filter((step) => step.active);
  const has = (step: string, batch: number) => chosen.some((one) => one.step === step && one.batch === batch);
  const all = active.every((step) =>
    Array.from({ length: step.batches.count }, (_, at) => at + 1).every((batch) => has(step.id, batch)),
  );
  if (all) return words.fetch.whole;
  const parts = result.steps.flatMap((step) => {
    const batches = chosen.filter((one) => one.step === step.id).map((one) => one.batch);
    return batches.length === 0
      ? []
      : [words.fetch.sessionStep(step.number, [...new Set(batches)].sort((a, b) => a - b).join(', '))];
  });
  return words.fetch.session(parts.join('; '));
}
