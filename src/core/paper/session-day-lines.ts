import type { BeforeTheDay } from '../session/day-before.ts';
import type { BatchDay, SessionDay } from '../session/session-day.ts';
import { hoursText, sessionWords as words, timeOfDay } from '../words/session-words.ts';
import type { Printable } from './amounts.ts';
import type { SessionDayPaper } from './paper.ts';

/** What the known times come to against the hours of the day; never that the work fits into it. */
export function dayNotes(day: SessionDay, hours: number): string[] {
  if (day.batches.length === 0) return [];
  const over = day.ends - hours * 60;
  const all = day.known - hours * 60;
  const notes = [over > 0 ? words.day.past(hoursText(hours * 60), hoursText(over)) : words.day.inDay(hoursText(-over))];
  if (day.batches.length > 1) {
    notes.push(all > 0 ? words.day.oneAfterPast(hoursText(day.known), hoursText(all)) : words.day.oneAfter(hoursText(day.known)));
  }
  const open = words.day.open(day.openHolds, day.openOperations);
  return open === '' ? notes : [...notes, `${open}.`];
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
    case 'get':
      return words.before.get(one, amount(one.amount));
    case 'steps':
      return words.before.steps(one);
  }
}
