import type { FetchLine } from '../plan/result.ts';
import { withForm } from '../session/day-before.ts';
import { paperWords as words } from '../words/paper-words.ts';
import { uncounted } from '../words/session-words.ts';
import { onHandText } from './on-hand-text.ts';
import { makeUpLabel } from './charge-sources.ts';
import { type ChosenBatch, type PaperContext, startOf, stepOf, warningsOf } from './context.ts';
import { makeUpEntry } from './make-up-entry.ts';
import { weighed } from './make-up-lines.ts';
import { passedOverText } from './passed-over-text.ts';
import type { FetchLineEntry, FetchPaper } from './paper.ts';
import type { Warning } from './sheet.ts';
import { type Session, type SessionLine, sessionOf, type SessionStatus } from './session.ts';
import { bottleTakeText, takeWords } from './sheet-take.ts';

/**
 * What to carry to the bench for the chosen batches, grouped by place, and what to make up first.
 * @throws RangeError where a chosen step is not in the plan.
 */
export function fetchPaper(chosen: readonly ChosenBatch[], context: PaperContext): FetchPaper {
  const { result, say } = context;
  const session = sessionOf(result, chosen);
  let number = 0;
  const places = byPlace(session.lines).map(([place, group]) => ({
    place,
    lines: group.map((line) => {
      number += 1;
      return fetchEntry(line, number, session, chosen, context);
    }),
  }));
  const mine = (material: string | undefined) =>
    session.lines.some(({ line, status }) => line.material === material && status === line.status);
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
    ...startOf(context),
    before: [
      ...warningsOf(
        // What is made up first stands right below.
        result.notices.filter(
          ({ at, level, code }) => at.step === undefined && level !== 'note' && code !== 'make up' && mine(at.material),
        ),
        say,
      ),
      ...session.uncounted.map((one): Warning => ({ kind: 'short', words: `${uncounted(withForm(one), one.step)}.` })),
    ],
    makeUps: result.makeUps.flatMap((makeUp) => {
      const factor = session.makeUp.get(makeUp.id) ?? 0;
      return factor > 0 ? [makeUpEntry(makeUp, factor, '', context)] : [];
    }),
    places,
    lines: number,
  };
}

/** Places in alphabetical order; what comes from a step, the tap or nowhere last. */
function byPlace(lines: readonly SessionLine[]): [string, SessionLine[]][] {
  const groups = new Map<string, SessionLine[]>();
  for (const line of lines) {
    const place = placeOf(line.line);
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
  'not made yet': 'act',
} as const satisfies Record<SessionStatus, FetchLineEntry['mark']>;

function fetchEntry(
  mine: SessionLine,
  number: number,
  session: Session,
  chosen: readonly ChosenBatch[],
  context: PaperContext,
): FetchLineEntry {
  const { mark, result } = context;
  const { line, status } = mine;
  // Fetched is all that the sheets take, at the largest amounts; what comes back or is not needed lowers the use only.
  const { take, beside } = takeWords(mine, mark);
  const steps = new Set(
    line.uses.filter((use) => chosen.some((one) => one.step === use.step)).map((use) => stepOf(result, use.step).number),
  );
  return {
    number,
    material: line.name,
    form: line.formWords,
    lots: [...lotsOf(mine, mark), ...forMakeUp(mine, session, context)],
    need: take,
    peak: beside,
    onHand: line.status === 'tap' || line.status === 'from a step' ? '' : onHandText(line, mark, '\n'),
    status: statusText(mine, result),
    mark: MARKS[status],
    uses: words.fetch.uses([...steps].sort((a, b) => a - b)),
  };
}

function statusText({ line, status, first, lacks }: SessionLine, result: PaperContext['result']): string {
  if (status === 'make up' && line.makeUp !== null) return words.makeUpFirst(makeUpLabel(result, line.makeUp));
  if (status === line.status) return words.statuses[status];
  if (status === 'not made yet')
    return words.notMadeYet(
      first,
      lacks.map((one) => words.lacking(one.name, one.status)),
    );
  return words.fetch.hereOnly(words.statuses[status], words.statuses[line.status]);
}

function lotsOf({ line, bottles, take }: SessionLine, mark: PaperContext['mark']): string[] {
  const taken = bottles.map((bottle) => {
    const elsewhere = bottle.place !== '' && bottle.place !== placeOf(line) ? ` · ${bottle.place}` : '';
    const lot = `${lotWords(bottle.lot)}${elsewhere}`;
    return bottles.length > 1 ? words.fetch.lot(lot, bottleTakeText(bottle, take, mark)) : lot;
  });
  const passed = line.passedOver.map((bottle) => words.fetch.passedOver(lotWords(bottle.lot), passedOverText(bottle, mark)));
  return [...taken, ...passed];
}

/** What a make-up is made from has no line of its own: it is carried to the bench too. */
function forMakeUp({ line, status }: SessionLine, session: Session, context: PaperContext): string[] {
  const makeUp = context.result.makeUps.find((one) => one.id === line.makeUp);
  const factor = makeUp ? (session.makeUp.get(makeUp.id) ?? 0) : 0;
  if (!makeUp || status !== 'make up' || factor <= 0) return [];
  return makeUp.parts.map(({ from, fromWords, takeGrams }) => {
    const elsewhere = from.place !== '' && from.place !== placeOf(line) ? ` · ${from.place}` : '';
    const { target } = weighed({ ...takeGrams, value: takeGrams.value * factor }, context);
    return words.fetch.forMakeUp(`${lotWords(from.lot)}${elsewhere}`, fromWords, target);
  });
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
