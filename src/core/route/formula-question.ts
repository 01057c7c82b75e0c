import { materialsCalled, materialsOfFormula, sameAtoms } from '../matter/find-material.ts';
import { foldName } from '../matter/facts.ts';
import { parseFormula } from '../matter/formula.ts';
import type { Reference } from '../reference.ts';
import { routeEditWords as words } from '../words/route-edit-words.ts';
import type { Route } from './route.ts';

/**
 * Names of the materials a bare formula may mean, the route's own first: one where only one has these atoms, none where
 * the text is a name, a CAS number or no formula. Isomers share a formula, so several of them are a question to the
 * chemist and never the first of a table.
 */
export function meantByFormula(typed: string, route: Route | null, reference: Reference): readonly string[] {
  const text = typed.trim();
  if (!parseFormula(text, reference).ok || isName(text, route, reference)) return [];
  const own = Object.values(route?.materials ?? {}).filter(
    (one) => one.formula !== undefined && sameAtoms(one.formula, text, reference),
  );
  const known = new Set(own.flatMap((one) => [one.cas ?? '', foldName(one.name)]));
  const others = materialsOfFormula(text, reference).filter((row) => !known.has(row.cas) && !known.has(foldName(row.name)));
  return [...own, ...others].map((one) => one.name);
}

/** What is asked where several materials share a typed formula; null where nothing is to be asked. */
export function formulaQuestion(typed: string, route: Route | null, reference: Reference): string | null {
  const meant = meantByFormula(typed, route, reference);
  return meant.length > 1 ? words.whichOfFormula(typed.trim(), meant) : null;
}

/** The same beside a list that it can be chosen from. */
export function formulaChoice(typed: string, route: Route | null, reference: Reference): string | null {
  const meant = meantByFormula(typed, route, reference);
  return meant.length > 1 ? words.chooseOfFormula(typed.trim(), meant) : null;
}

/** What is said where a typed formula was taken as the one material that is known with it; null for a name. */
export function formulaTaken(typed: string, name: string, route: Route | null, reference: Reference): string | null {
  const meant = meantByFormula(typed, route, reference);
  const own = foldName(typed) === foldName(name);
  return meant.length === 1 && !own ? words.takenByFormula(typed.trim(), name) : null;
}

function isName(text: string, route: Route | null, reference: Reference): boolean {
  const folded = foldName(text);
  const own = Object.values(route?.materials ?? {}).flatMap((one) => [one.name, ...(one.synonyms ?? [])]);
  return own.some((name) => foldName(name) === folded) || materialsCalled(text, reference).length > 0;
}
