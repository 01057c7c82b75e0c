/** Most labels: nothing to fold but capitals. */
const PLAIN = /^[!-~]*$/;

/** A label as eyes and scanners tell it apart: capitals, blanks and the way an accent is put together aside. @param label any text. */
export function foldLabel(label: string): string {
  if (PLAIN.test(label)) return label.toUpperCase();
  return label.normalize('NFKC').trim().replaceAll(/\s+/g, ' ').toUpperCase();
}

/** Which bottle a label that was typed or scanned means. */
export type LabelMeant =
  | { readonly kind: 'one'; readonly label: string }
  | { readonly kind: 'several'; readonly labels: readonly string[] }
  | { readonly kind: 'none' };

const SMALL = /\p{Ll}/u;
const CAPITAL = /\p{Lu}/u;

/**
 * Tells which of the shelf's labels is meant. A scanner may type capitals only, so where labels differ in nothing but
 * capitals, what was typed tells them apart only if it has small letters itself, or no letters at all.
 * @param typed as scanned or typed. @param labels those that may be meant. @returns the one, the several that it could be, or none.
 */
export function labelMeant(typed: string, labels: readonly string[]): LabelMeant {
  const folded = foldLabel(typed);
  const alike = labels.filter((label) => foldLabel(label) === folded);
  const [first] = alike;
  if (first === undefined) return { kind: 'none' };
  if (alike.length === 1) return { kind: 'one', label: first };
  const exact = alike.includes(typed) ? typed : undefined;
  const tells = SMALL.test(typed) || !CAPITAL.test(typed);
  return exact !== undefined && tells ? { kind: 'one', label: exact } : { kind: 'several', labels: alike };
}
