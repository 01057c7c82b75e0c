/**
 * How the shelf is searched: everything is folded the same way on its way into the index and in the search field.
 * Migrations call these functions, so their results may only ever widen what is found.
 */

/** Most labels and lots: nothing to fold but capitals. */
const PLAIN = /^[!-~]*$/;

/** What a web page or a sheet puts into a text without showing it: soft hyphens, blanks of no width, marks of the order of bytes. */
export const UNSEEN = /[\u00ad\u200b\u2060\ufeff]/g;

/** Lower case, no accents, sub- and superscript digits as plain ones, one kind of dash and prime, single spaces. */
export function foldText(text: string): string {
  if (PLAIN.test(text)) return text.toLowerCase();
  return text
    .normalize('NFKD')
    .replace(UNSEEN, '')
    .replace(/\p{Mn}/gu, '')
    .toLowerCase()
    .replace(/[‐-―−]/g, '-')
    .replace(/[′’ʹ]/g, "'")
    .replace(/\s+/g, ' ')
    .trim();
}

/** Text whose plain order is the order a person expects: "Shelf C2" before "Shelf C10". */
export function orderKey(text: string): string {
  return foldText(text).replace(/\d+/g, (digits) => digits.padStart(8, '0'));
}

/** The searchable text of a bottle, one line per part so that no hit runs from one part into the next. */
export function searchWords(parts: readonly (string | null | undefined)[]): string {
  return parts
    .flatMap((part) => (part ? [foldText(part)] : []))
    .filter((part) => part !== '')
    .join('\n');
}

/** What was typed into the search field, as words that must all be found; still as typed, since a formula has capitals. */
export function searchTerms(typed: string): readonly string[] {
  return typed.split(/\s+/).filter((word) => foldText(word) !== '');
}
