const GREEK: Readonly<Record<string, string>> = {
  α: 'alpha',
  β: 'beta',
  γ: 'gamma',
  δ: 'delta',
  ε: 'epsilon',
  κ: 'kappa',
  λ: 'lambda',
  μ: 'mu',
  π: 'pi',
  σ: 'sigma',
  ω: 'omega',
};
const JOINED: Readonly<Record<string, string>> = { ß: 'ss', æ: 'ae', œ: 'oe', ø: 'o', ł: 'l', đ: 'd', ı: 'i' };

/**
 * A name as letters and digits alone, for searching: case, accents, spaces, hyphens, brackets, primes, commas and points
 * aside, Greek letters by their names. "1,3-Diphenyl-acetone", "1.3 diphenylacetone" and "1,3‑DIPHENYLACETONE" are one.
 */
export function foldForSearch(name: string): string {
  return name
    .normalize('NFKD')
    .replace(/\p{Mn}/gu, '')
    .toLowerCase()
    .replace(/[αβγδεκλμπσωςßæœøłđı]/g, (letter) => GREEK[letter] ?? JOINED[letter] ?? letter)
    .replace(/[^\p{L}\p{N}]/gu, '');
}

const SPELLINGS: readonly { readonly from: RegExp; readonly to: string }[] = [
  { from: /ph/g, to: 'f' },
  { from: /[ao]e/g, to: 'e' },
  { from: /aluminium/g, to: 'aluminum' },
  { from: /tertiary|tert/g, to: 't' },
  { from: /secondary|sec/g, to: 's' },
  { from: /^ortho/, to: 'o' },
  { from: /^meta/, to: 'm' },
  { from: /^para/, to: 'p' },
];

/** A folded name with its several spellings made one: sulphur and sulfur, caesium and cesium, t-butyl and tert-butyl, para- and p-. */
export function foldSpellings(folded: string): string {
  return SPELLINGS.reduce((text, { from, to }) => text.replace(from, to), folded);
}

/** Mixtures of isomers go by a plural: hexanes, xylenes. */
const PLURAL = /(?<=[a-z]{2}(?:an|en))es$/;

/** The same, and a plural as what it is of: for finding, never for taking one for the other, since hexanes are not hexane. */
export function foldPlural(folded: string): string {
  return foldSpellings(folded).replace(PLURAL, 'e');
}

/**
 * Whether what is typed is nearly the beginning of a name, or all of it: at most `most` letters wrong, missing, too many
 * or swapped with the next. Both are folded.
 */
export function isNearly(typed: string, name: string, most: number): boolean {
  const width = name.length + 1;
  let before = new Uint8Array(width);
  let last = Uint8Array.from({ length: width }, (_, at) => Math.min(at, 255));
  for (let row = 1; row <= typed.length; row += 1) {
    const here = new Uint8Array(width);
    here[0] = row;
    let least = row;
    for (let at = 1; at < width; at += 1) {
      const same = typed[row - 1] === name[at - 1];
      let cost = Math.min((last[at - 1] ?? 0) + (same ? 0 : 1), (last[at] ?? 0) + 1, (here[at - 1] ?? 0) + 1);
      const swapped = row > 1 && at > 1 && typed[row - 1] === name[at - 2] && typed[row - 2] === name[at - 1];
      if (swapped) cost = Math.min(cost, (before[at - 2] ?? 0) + 1);
      here[at] = cost;
      least = Math.min(least, cost);
    }
    if (least > most) return false;
    before = last;
    last = here;
  }
  return last.some((cost) => cost <= most);
}
