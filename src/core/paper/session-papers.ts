import { factsOf } from '../matter/facts.ts';
import { makeSolution } from '../matter/make-solution.ts';
import type { PlanInput } from '../plan/input.ts';
import type { MakeUp } from '../plan/result.ts';
import { entered } from '../quantity/figure.ts';
import type { BenchSession } from '../session/bench-session.ts';
import { dayBefore } from '../session/day-before.ts';
import { sessionDay } from '../session/session-day.ts';
import type { Bottle } from '../shelf/shelf.ts';
import { sessionWords as words, hoursText } from '../words/session-words.ts';
import { amountText } from './amounts.ts';
import { bottleWords, makeUpLabel } from './charge-sources.ts';
import { type ChosenBatch, type PaperContext, nameOf } from './context.ts';
import { fetchPaper } from './fetch-list.ts';
import { makeUpPaper } from './make-up-paper.ts';
import type { MakeUpPaper, SessionDayPaper, SessionPapers } from './paper.ts';
import { sessionOf, type Session } from './session.ts';
import { batchLines, beforeLine, dayNotes } from './session-day-lines.ts';
import { weighingPaper } from './weighing-sheet.ts';

/** What the papers of a session are built from. */
export interface SessionContext extends PaperContext {
  readonly input: PlanInput;
  /** A date as it is written. */
  readonly day: (iso: string) => string;
}

/**
 * Every paper of a session in the order it is used: the day, the fetch list by place, the make-ups that one bottle
 * serves (the others stand in the fetch list), a weighing sheet for each batch.
 * @throws RangeError where no batch is chosen, or one is not in the plan.
 */
export function sessionPapers(about: BenchSession, chosen: readonly ChosenBatch[], context: SessionContext): SessionPapers {
  if (chosen.length === 0) throw new RangeError('a session needs a batch (got none)');
  const session = sessionOf(context.result, chosen);
  const name = sessionName(about, context.day);
  return {
    ...headOf(context),
    kind: 'session papers',
    title: words.papers.title(name),
    parts: [
      sessionDayPaper(about, chosen, context, session),
      fetchPaper(chosen, context),
      ...makeUpPapers(session, context),
      weighingPaper(chosen, context),
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
    title: words.papers.dayTitle(sessionName(about, day)),
    when: words.papers.date(day(about.date), about.starts, hoursText(about.hours * 60)),
    notes: dayNotes(times, about.hours),
    before: dayBefore(result, session, bottles, about.date).map((one) =>
      beforeLine(one, (amount) => amountText(amount, mark), day),
    ),
    batches: times.batches.map((batch, at) => ({ number: at + 1, ...batchLines(batch, about.starts) })),
  };
}

/** Make-ups from one bottle and water, each on a paper of its own with its label. */
function makeUpPapers(session: Session, context: SessionContext): readonly MakeUpPaper[] {
  return context.result.makeUps.flatMap((makeUp) => {
    const factor = session.makeUp.get(makeUp.id) ?? 0;
    const paper = factor > 0 ? makeUpPaperOf(makeUp, factor, context) : null;
    return paper ? [paper] : [];
  });
}

function makeUpPaperOf(makeUp: MakeUp, factor: number, context: SessionContext): MakeUpPaper | null {
  const { result, input, mark, settings } = context;
  const [part] = makeUp.parts;
  const material = input.route.materials[makeUp.material];
  const bottle = input.shelf.bottles.find((one) => one.id === part?.from.bottle);
  if (makeUp.parts.length !== 1 || !part || !material || !bottle || makeUp.form.kind !== 'solution') return null;
  const facts = factsOf(material, input.reference);
  const amount = {
    by: 'g',
    figure: entered('made up', makeUp.grams.value * factor, 'g', 'the plan', makeUp.grams.digits),
  } as const;
  const source = { facts, form: bottle.form };
  const plan = makeSolution({ solute: facts, form: makeUp.form, amount, source, weaker: null, celsius: ROOM }, input.reference);
  if (plan.problem) return null;
  const purpose = `${makeUpLabel(result, makeUp.id)} · ${nameOf(result, makeUp.material)}`;
  const sources = { source: bottleWords(part.from), weaker: '' };
  return makeUpPaper({
    plan,
    reference: input.reference,
    settings,
    mark,
    asOf: result.asOf,
    sources,
    purpose,
    planName: result.name,
  });
}

/** °C; what tables of solutions are for. */
const ROOM = 20;
