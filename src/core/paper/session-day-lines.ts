import { keepsText } from '../route/keeps.ts';
import type { BeforeTheDay } from '../session/day-before.ts';
import type { BatchDay, SessionDay } from '../session/session-day.ts';
import { hoursText, sessionWords as words, timeOfDay } from '../words/session-words.ts';
import type { Printable } from './amounts.ts';
import type { SessionDayPaper } from './paper.ts';

/** What the known times come to against the hours of the day; never that the work fits into it. */
export function dayNotes(day: SessionDay, hours: number, starts: string): string[] {
  if (day.batches.length === 0) return [];
  const over = day.ends - hours * 60;
  const all = day.known - hours * 60;
  const notes = [over > 0 ? words.day.past(hoursText(hours * 60), hoursText(over)) : words.day.inDay(hoursText(-over))];
  if (day.batches.length > 1) {
    notes.push(all > 0 ? words.day.oneAfterPast(hoursText(day.known), hoursText(all)) : words.day.oneAfter(hoursText(day.known)));
  }
  const open = words.day.open(day.openHolds, day.openOperations);
  return [...notes, ...atTheEnd(day, hours * 60, starts), ...(open === '' ? [] : [`${open}.`])];
}

/** What runs over the end of the day, e.g. a hold overnight, and what cannot begin before it. */
function atTheEnd({ batches }: SessionDay, end: number, starts: string): string[] {
  const late = batches.filter((one) => one.begins >= end);
  const over = batches.filter((one) => one.begins < end && one.ends > end);
  const sheet = (one: BatchDay): string => `${one.number}-${one.batch}`;
  const alike = new Map<string, string[]>();
  for (const one of over) {
    const what = one.timed.find((timed) => timed.ends > end)?.what ?? '';
    const how = words.day.overBy(what, timeOfDay(starts, one.ends));
    alike.set(how, [...(alike.get(how) ?? []), sheet(one)]);
  }
  const running = [...alike].map(([how, sheets]) => `${sheets.join(', ')}: ${how}`);
  return [
    ...(over.length === 0 ? [] : [words.day.over(timeOfDay(starts, end), running.join('; '))]),
    ...(late.length === 0 ? [] : [words.day.notBegun(timeOfDay(starts, end), late.map(sheet).join(', '))]),
    ...(over.length + late.length === 0 ? [] : [whereToStop(batches, end, starts)]),
  ];
}

/** Minutes from the beginning of a day to that of the next. */
const TO_NEXT_DAY = 24 * 60;

/**
 * After which batches a day that is too short can end, and which are for another: by the known times alone; and whether
 * what was made for those keeps until the next day begins. What the route does not say is not known, never long enough.
 */
function whereToStop(batches: readonly BatchDay[], end: number, starts: string): string {
  const list = (some: readonly BatchDay[]): string => some.map((one) => `${one.number}-${one.batch}`).join(', ');
  const inDay = batches.filter((one) => one.ends <= end && one.known > 0);
  const rest = batches.filter((one) => one.ends > end || one.begins >= end);
  const awaited = new Set(rest.flatMap((one) => one.makers));
  // Equal batches that end together say it once; of batches one after the other the first has to keep longest.
  const made = new Map(
    inDay
      .filter((one) => awaited.has(one.step))
      .toReversed()
      .map((one) => [one.product, one]),
  );
  const stand = standsOvernight(batches, end, starts);
  return [
    words.day.stop(list(inDay), list(rest)),
    ...[...made.values()].reverse().map((one) => keepsOvernight(one, starts)),
    ...(stand.length > 0 ? stand : [words.day.standHint]),
  ].join(' ');
}

/**
 * Where a batch that is not over by the end of the day may stand: after the last of its holds, that is over by then and
 * for which the route says so; equal batches together.
 */
function standsOvernight(batches: readonly BatchDay[], end: number, starts: string): string[] {
  const said = new Map<string, { readonly sheets: string[]; readonly say: (sheets: string) => string }>();
  for (const one of batches.filter(({ begins, ends }) => begins < end && ends > end)) {
    const hold = one.stands.findLast(({ ends }) => ends <= end);
    if (!hold) continue;
    const lasts = hold.keeps.hours * 60 >= TO_NEXT_DAY - hold.ends;
    const say = (sheets: string): string =>
      lasts
        ? words.day.stands(sheets, hold.what, keepsText(hold.keeps))
        : words.day.standsNot(sheets, hold.what, keepsText(hold.keeps), starts);
    const known = said.get(say(''));
    if (known) known.sheets.push(`${one.number}-${one.batch}`);
    else said.set(say(''), { sheets: [`${one.number}-${one.batch}`], say });
  }
  return [...said.values()].map(({ sheets, say }) => say(sheets.join(', ')));
}

/** Whether what a batch made keeps until the day after begins; it ends at the earliest when its known times are over. */
function keepsOvernight({ product, keeps, ends }: BatchDay, starts: string): string {
  if (!keeps) return words.day.keepsUnknown(product);
  const lasts = keeps.hours * 60 >= TO_NEXT_DAY - ends;
  return lasts ? words.day.keeps(product, keepsText(keeps)) : words.day.keepsNot(product, keepsText(keeps), starts);
}

/** A batch in words: its known times with when each ends at the earliest, and what has none. */
export function batchLines(batch: BatchDay, starts: string): Omit<SessionDayPaper['batches'][number], 'number'> {
  const { day } = words;
  return {
    title: day.batch(`${batch.number}-${batch.batch}`, batch.title),
    begins: batch.begins > 0 ? day.afterMakers(timeOfDay(starts, batch.begins)) : '',
    times: batch.timed.map((one) => {
      const say = one.kind === 'hold' ? day.hold : day.addition;
      return say(timeOfDay(starts, one.ends), one.what, hoursText(one.minutes));
    }),
    open: [...batch.openHolds.map(day.openHold), ...(batch.openOperations > 0 ? [day.open(0, batch.openOperations)] : [])],
    ends: batch.known === 0 ? day.nothingKnown : timeOfDay(starts, batch.ends),
  };
}

/** Something to be done before the day, as a sentence. */
export function beforeLine(one: BeforeTheDay, amount: (value: Printable | null) => string, day: (iso: string) => string): string {
  switch (one.do) {
    case 'make up':
      return words.before['make up'](one, amount(one.amount));
    case 'test':
      return words.before.test(one, day(one.useBy));
    case 'titrate':
      return words.before.titrate(one);
    case 'count':
      return words.before.count(one);
    case 'get':
      return words.before.get(one, amount(one.amount));
    case 'steps':
      return words.before.steps(one);
  }
}
