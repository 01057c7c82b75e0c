import { makeUpLabel } from '../paper/charge-sources.ts';
import type { Printable } from '../paper/amounts.ts';
import { share } from '../paper/amounts.ts';
import type { Session, Uncounted } from '../paper/session.ts';
import type { PlanResult } from '../plan/result.ts';
import type { Bottle } from '../shelf/shelf.ts';

/** Something to be done before the day of a session. */
export type BeforeTheDay =
  | {
      readonly do: 'make up';
      readonly id: string;
      readonly label: string;
      readonly what: string;
      readonly amount: Printable | null;
    }
  /** Past its date on the day. */
  | { readonly do: 'test'; readonly what: string; readonly bottle: string; readonly lot: string; readonly useBy: string }
  | { readonly do: 'titrate'; readonly what: string }
  /** How much of it is needed is not known; step by number. */
  | { readonly do: 'count'; readonly what: string; readonly step: number }
  | { readonly do: 'get'; readonly what: string; readonly amount: Printable | null }
  /** Earlier steps, by number, that make it. */
  | { readonly do: 'steps'; readonly what: string; readonly steps: readonly number[] };

/**
 * What must be done before the day: make-ups (usable the day before), bottles that are past their date on that day,
 * strengths that are not known, what is short, and steps that come first.
 * @param date day of the session, ISO; bottles that expire before it count as out of date even if they are not yet.
 */
export function dayBefore(
  result: PlanResult,
  session: Session,
  bottles: ReadonlyMap<string, Bottle>,
  date: string,
): readonly BeforeTheDay[] {
  const list: BeforeTheDay[] = [];
  for (const { line, status, part, first, bottles: taken } of session.lines) {
    const what = [line.name, line.formWords === 'neat' ? '' : line.formWords].filter(Boolean).join(' ');
    if (status === 'not made yet') list.push({ do: 'steps', what: line.name, steps: first });
    if (status === 'unknown strength') list.push({ do: 'titrate', what: line.name });
    if (status === 'short') list.push({ do: 'get', what, amount: line.short ? share(line.short, part) : null });
    const passed = status === 'out of date' ? line.passedOver.filter((one) => one.why === 'out of date') : [];
    for (const one of [...taken, ...passed]) {
      const useBy = bottles.get(one.bottle)?.useBy;
      if (useBy !== undefined && useBy < date) list.push({ do: 'test', what, bottle: one.bottle, lot: one.lot, useBy });
    }
  }
  for (const one of session.uncounted) list.push({ do: 'count', what: withForm(one), step: one.step });
  for (const makeUp of result.makeUps) {
    const factor = session.makeUp.get(makeUp.id) ?? 0;
    if (factor <= 0) continue;
    const what = `${result.materials[makeUp.material]?.name ?? makeUp.material} ${makeUp.formWords}`;
    const amount = share(makeUp.millilitres ?? makeUp.grams, factor);
    list.push({ do: 'make up', id: makeUp.id, label: makeUpLabel(result, makeUp.id), what, amount });
  }
  const rank = ORDER.indexOf.bind(ORDER);
  return list.toSorted((a, b) => rank(a.do) - rank(b.do));
}

/** "butyllithium, strength unknown". */
export function withForm({ material, form }: Uncounted): string {
  return form === '' || form === 'neat' ? material : `${material}, ${form}`;
}

/** What takes longest to come by first. */
const ORDER: readonly BeforeTheDay['do'][] = ['get', 'steps', 'count', 'titrate', 'test', 'make up'];
