/**
 * Valences an atom may have, by element and charge; elements that are not here (metals, noble gases) are not judged.
 * Common practice, no source: the octet, and the expanded shells of phosphorus, sulfur and the heavier halogens.
 */
const VALENCES: Readonly<Record<string, Readonly<Record<number, readonly number[]>>>> = {
  H: { 0: [1], 1: [0], [-1]: [0] },
  B: { 0: [3], [-1]: [4] },
  C: { 0: [4], 1: [3], [-1]: [3] },
  N: { 0: [3, 5], 1: [4], [-1]: [2] },
  O: { 0: [2], 1: [3], [-1]: [1], [-2]: [0] },
  F: { 0: [1], [-1]: [0] },
  Si: { 0: [4], [-1]: [5], [-2]: [6] },
  P: { 0: [3, 5], 1: [4], [-1]: [2, 4, 6] },
  S: { 0: [2, 4, 6], 1: [3, 5], [-1]: [1, 3, 5], [-2]: [0] },
  Cl: { 0: [1, 3, 5, 7], 1: [2, 4, 6], [-1]: [0] },
  Br: { 0: [1, 3, 5, 7], 1: [2, 4, 6], [-1]: [0] },
  I: { 0: [1, 3, 5, 7], 1: [2, 4, 6], [-1]: [0, 2] },
};

interface Bonds {
  /** Bonds and hydrogens together. */
  readonly valence: number;
  /** Hydrogens that were not drawn. */
  readonly hydrogens: number;
  /** The valence was written out (in brackets): a radical may then have fewer bonds than usual. */
  readonly stated: boolean;
}

const HALOGENS = new Set(['Cl', 'Br', 'I']);

/** Whether an atom of this element and charge can have these bonds; true where nobody knows. */
export function isPossibleValence(element: string, charge: number, { valence, hydrogens, stated }: Bonds): boolean {
  const allowed = VALENCES[element]?.[charge];
  if (allowed === undefined) return true;
  // The expanded halogens hold oxygen or halogens, never a hydrogen that is only filled in.
  if (HALOGENS.has(element) && hydrogens > 0 && valence > 1) return false;
  return allowed.includes(valence) || (stated && valence < Math.max(...allowed));
}
