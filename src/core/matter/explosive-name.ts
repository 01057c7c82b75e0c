import type { Reference } from '../reference.ts';
import { foldForSearch, foldSpellings } from './fold-name.ts';

/** What is written behind a name of how the material comes: wetted, damped, thinned, as a hydrate. */
const BEHIND =
  /\s+(?:wet|wetted|moist|moistened|damp|damped|dry|dried|crystals?|powder|pure|with|in|solutions?|soln|saturated|desensiti[sz]ed|phlegmati[sz]ed|(?:mono)?hydrate|hydrated|containing|not less|[≥>~]?\s*\d+(?:[.,]\d+)?\s*%).*$/iu;
const BEFORE = /^(?:aqueous|saturated|wet|wetted|moist|dry|damp|[≥>~]?\s*\d+(?:[.,]\d+)?\s*%(?:\s*w\/[wv])?)\s+/iu;
/** Written before a name in the table: it stands for every name that ends so. */
const ENDING = '* ';

interface Names {
  readonly whole: ReadonlyMap<string, string>;
  readonly endings: readonly { readonly letters: string; readonly key: string }[];
}
const indexes = new WeakMap<Reference, Names>();
const fold = (name: string): string => foldSpellings(foldForSearch(name));

function indexOf(reference: Reference): Names {
  const known = indexes.get(reference);
  if (known) return known;
  const all = reference.rows.explosives.flatMap(({ cas, names }) => names.map((name) => ({ name, key: cas })));
  const made: Names = {
    whole: new Map(all.filter((one) => !one.name.startsWith(ENDING)).map(({ name, key }) => [fold(name), key])),
    endings: all
      .filter((one) => one.name.startsWith(ENDING))
      .map(({ name, key }) => ({ letters: fold(name.slice(ENDING.length)), key })),
  };
  indexes.set(reference, made);
  return made;
}

/**
 * The key (a CAS number, or the name of a group) under which the table of explosives lists a name; null where it does
 * not, which does not mean that it is none. What stands behind a name or in brackets (wetted, with 20 % water, a
 * hydrate, another name) is set aside, since a wetted explosive is still that material.
 * Source: names of the entries of CLP Annex VI; others as in resources/tables/SOURCES.md.
 */
export function explosiveKey(names: readonly string[], reference: Reference): string | null {
  const { whole, endings } = indexOf(reference);
  if (whole.size === 0) return null;
  const all = names.flatMap(spellings).map(fold);
  const exact = all.map((one) => whole.get(one)).find((key) => key !== undefined);
  if (exact !== undefined) return exact;
  return endings.find(({ letters }) => all.some((one) => one.endsWith(letters)))?.key ?? null;
}

/** A name as it stands, without what is said behind it, and each name in brackets behind it. */
function spellings(name: string): readonly string[] {
  const plain = name.trim();
  const brackets = [...plain.matchAll(/\s[([]([^()[\]]+)[)\]]/g)].flatMap((found) => found[1] ?? []);
  const bare = plain
    .replace(/\s[([].*$/u, '')
    .replace(/[,;]\s.*$/u, '')
    .replace(BEFORE, '')
    .replace(BEHIND, '');
  return [plain, bare, ...brackets];
}
