import type { PlanInput } from '../plan/input.ts';
import type { BenchSession } from '../session/bench-session.ts';
import { dayBefore } from '../session/day-before.ts';
import { sessionDay } from '../session/session-day.ts';
import type { Bottle } from '../shelf/shelf.ts';
import { sessionWords as words, hoursText } from '../words/session-words.ts';
import { amountText } from './amounts.ts';
import type { ChosenBatch, PaperContext } from './context.ts';
import { fetchPaper } from './fetch-list.ts';
import type { SessionDayPaper, SessionPapers } from './paper.ts';
import { sessionOf, type Session } from './session.ts';
import { makeUpPages } from './session-make-ups.ts';
import type { MakeUpEntry } from './sheet.ts';
import { batchLines, beforeLine, dayNotes } from './session-day-lines.ts';
import { weighingPaper } from './weighing-sheet.ts';

/** What the papers of a session are built from. */
export interface SessionContext extends PaperContext {
  readonly input: PlanInput;
  /** A date as it is written. */
  readonly day: (iso: string) => string;
}

/**
 * Every paper of a session in the order it is used: the day, the fetch list by place, each make-up on a page of its own,
 * a weighing sheet for each batch. What has a page is made there, once: the list and the sheets only point at it.
 * @throws RangeError where no batch is chosen, or one is not in the plan.
 */
export function sessionPapers(about: BenchSession, chosen: readonly ChosenBatch[], context: SessionContext): SessionPapers {
  if (chosen.length === 0) throw new RangeError('a session needs a batch (got none)');
  const session = sessionOf(context.result, chosen);
  const name = sessionName(about, context.day);
  const pages = makeUpPages(session, context);
  const sheets = weighingPaper(chosen, context);
  const amounts = new Map(pages.map(({ id, paper }) => [id, words.papers.makeUpPage(paper.gives[0] ?? '')]));
  const toPages = <T extends { readonly makeUps: readonly MakeUpEntry[] }>(part: T): T => ({
    ...part,
    makeUps: part.makeUps.map((makeUp) => {
      const page = amounts.get(makeUp.id);
      return page === undefined ? makeUp : { ...makeUp, page };
    }),
  });
  return {
    ...headOf(context),
    kind: 'session papers',
    title: words.papers.title(name),
    parts: [
      sessionDayPaper(about, chosen, context, session),
      toPages(fetchPaper(chosen, context)),
      ...pages.map((page) => page.paper),
      { ...sheets, sheets: sheets.sheets.map(toPages) },
    ],
  };
}

/** The name of a session: its own, else that of its day. */
export function sessionName({ name, date }: Pick<BenchSession, 'name' | 'date'>, day: (iso: string) => string): string {
  return name.trim() === '' ? words.noName(day(date)) : name.trim();
}

function headOf({ result, size }: PaperContext) {
  return { backweigh: 'paper', version: 1, size, plan: result.name, route: result.route, asOf: result.asOf } as const;
}

/** The day of a session on one page: what must be done before it, and the times of each batch. */
export function sessionDayPaper(
  about: BenchSession,
  chosen: readonly ChosenBatch[],
  context: SessionContext,
  session: Session = sessionOf(context.result, chosen),
): SessionDayPaper {
  const { result, input, day, mark } = context;
  const times = sessionDay(result, chosen);
  const bottles = new Map(input.shelf.bottles.map((one): [string, Bottle] => [one.id, one]));
  return {
    ...headOf(context),
    kind: 'session day',
    title: about.name.trim() === '' ? words.papers.unnamedDay(day(about.date)) : words.papers.dayTitle(sessionName(about, day)),
    when: words.papers.date(day(about.date), about.starts, hoursText(about.hours * 60)),
    notes: dayNotes(times, about.hours, about.starts),
    before: dayBefore(result, session, bottles, about.date).map((one) =>
      beforeLine(one, (amount) => amountText(amount, mark), day),
    ),
    batches: timesOnce(times.batches.map((batch, at) => ({ number: at + 1, ...batchLines(batch, about.starts) }))),
  };
}

/** Equal batches that run beside each other have the same times: they stand at the first of them. */
function timesOnce(batches: SessionDayPaper['batches']): SessionDayPaper['batches'] {
  const first = new Map<string, string>();
  return batches.map((batch) => {
    const all = JSON.stringify([batch.begins, batch.times, batch.open]);
    const same = first.get(all);
    if (same !== undefined && batch.times.length + batch.open.length > 1) {
      return { ...batch, times: [words.day.timesAs(same)], open: [] };
    }
    first.set(all, batch.title.split(' · ')[0] ?? batch.title);
    return batch;
  });
}
