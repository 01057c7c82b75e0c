import { factsOf } from '../matter/facts.ts';
import { makeSolution } from '../matter/make-solution.ts';
import type { MakeUp } from '../plan/make-up-result.ts';
import { entered } from '../quantity/figure.ts';
import type { Bottle } from '../shelf/shelf.ts';
import { bottleWords, makeUpLabel } from './charge-sources.ts';
import { nameOf } from './context.ts';
import { makeUpPaper } from './make-up-paper.ts';
import { type SeveralParts, severalPaper } from './make-up-several.ts';
import type { MakeUpPaper } from './paper.ts';
import type { Session } from './session.ts';
import type { SessionContext } from './session-papers.ts';

/** °C; what tables of solutions are for. */
const ROOM = 20;

/** A make-up of a session with its page. */
export interface MakeUpPage {
  readonly id: string;
  readonly paper: MakeUpPaper;
}

/** Every make-up of a session, each on a page of its own with its label; those that no page can tell are left out. */
export function makeUpPages(session: Session, context: SessionContext): readonly MakeUpPage[] {
  return context.result.makeUps.flatMap((makeUp) => {
    const factor = session.makeUp.get(makeUp.id) ?? 0;
    const paper = factor > 0 ? pageOf(makeUp, factor, context) : null;
    return paper ? [{ id: makeUp.id, paper }] : [];
  });
}

function pageOf(makeUp: MakeUp, factor: number, context: SessionContext): MakeUpPaper | null {
  const { result, input, mark, settings } = context;
  const parts = partsOf(makeUp, factor, context);
  if (parts.length < makeUp.parts.length) return null;
  const about = {
    reference: input.reference,
    settings,
    mark,
    asOf: result.asOf,
    purpose: `${makeUpLabel(result, makeUp.id)} · ${nameOf(result, makeUp.material)}`,
    planName: result.name,
    sources: { source: makeUp.parts.map(({ from }) => bottleWords(from)).join('; '), weaker: '' },
  };
  const [only] = parts;
  if (!only) return null;
  return parts.length === 1 ? makeUpPaper({ ...about, plan: only.plan }) : severalPaper(makeUp, factor, parts, about, context);
}

/** The make-up as if all of it were made of one of its bottles, for each of them; bottles without such an answer left out. */
function partsOf(makeUp: MakeUp, factor: number, { input }: SessionContext): SeveralParts {
  const material = input.route.materials[makeUp.material];
  const { form } = makeUp;
  if (!material || form.kind !== 'solution') return [];
  const facts = factsOf(material, input.reference);
  const figure = entered('made up', makeUp.grams.value * factor, 'g', 'the plan', makeUp.grams.digits);
  const wanted = {
    solute: facts,
    form,
    amount: { by: 'g', figure },
    weaker: null,
    celsius: ROOM,
    saturated: makeUp.saturated ?? null,
  } as const;
  const bottles = new Map(input.shelf.bottles.map((one): [string, Bottle] => [one.id, one]));
  return makeUp.parts.flatMap((part) => {
    const bottle = bottles.get(part.from.bottle);
    if (!bottle) return [];
    const plan = makeSolution({ ...wanted, source: { facts, form: bottle.form } }, input.reference);
    return plan.problem ? [] : [{ part, plan }];
  });
}
