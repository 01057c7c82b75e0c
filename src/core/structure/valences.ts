/**
 * Bonds an atom may have, by element and charge. Elements that are not here (transition metals, noble gases, …) are not
 * judged; a charge that is not here belongs to an atom without bonds. Common practice, no source: the octet, and the
 * expanded shells of phosphorus, sulfur and the heavier halogens.
 */
const BONDS: Readonly<Record<string, Readonly<Record<number, readonly number[]>>>> = {
  H: { 0: [1] },
  Li: { 0: [1] },
  Na: { 0: [1] },
  K: { 0: [1] },
  Rb: { 0: [1] },
  Cs: { 0: [1] },
  Mg: { 0: [2], 1: [1] },
  Ca: { 0: [2], 1: [1] },
  Sr: { 0: [2], 1: [1] },
  Ba: { 0: [2], 1: [1] },
  B: { 0: [3], [-1]: [4] },
  Al: { 0: [3, 4], [-1]: [4], 1: [2], 2: [1], [-3]: [6] },
  C: { 0: [4], 1: [3], [-1]: [3] },
  N: { 0: [3], 1: [4], [-1]: [2], [-2]: [1] },
  O: { 0: [2], 1: [3], [-1]: [1] },
  F: { 0: [1] },
  Si: { 0: [4], 1: [3], [-1]: [3, 5], [-2]: [6] },
  P: { 0: [3, 5], 1: [4], [-1]: [2, 4, 6], [-2]: [1] },
  S: { 0: [2, 4, 6], 1: [3, 5], 2: [4], [-1]: [1, 3, 5] },
  Cl: { 0: [1, 3, 5, 7], 1: [2, 4, 6], 2: [3], 3: [4] },
  Br: { 0: [1, 3, 5, 7], 1: [2, 4, 6], 2: [3], 3: [4], [-1]: [2] },
  I: { 0: [1, 3, 5, 7], 1: [2, 4, 6], 2: [3], 3: [4], [-1]: [2, 4] },
};

const HALOGENS = new Set(['F', 'Cl', 'Br', 'I']);
const NON_METALS = new Set(['H', 'B', 'C', 'N', 'O', 'Si', 'P', 'S', 'Ge', 'As', 'Se', 'Te', ...HALOGENS]);

interface Bonded {
  /** Bonds and hydrogens together. */
  readonly bonds: number;
  /** Elements bound to it, hydrogens that are not drawn among them. */
  readonly neighbours: readonly string[];
  /** Its hydrogens were written out (in brackets): it may then have fewer bonds than usual, as radicals and metals do. */
  readonly stated: boolean;
  /** It was filled up with hydrogens to one of its usual valences, as a SMILES asks outside brackets. */
  readonly filled: boolean;
}

/**
 * Whether an atom of this element and charge can have these bonds; true where nobody knows. A bond to a metal may be
 * one more than the octet asks for: ligands give both electrons.
 */
export function isPossibleValence(element: string, charge: number, { bonds, neighbours, stated, filled }: Bonded): boolean {
  const known = BONDS[element];
  if (!known || bonds === 0) return true;
  const allowed = known[charge];
  if (!allowed) return false;
  const given = filled ? 0 : neighbours.filter((one) => !NON_METALS.has(one)).length;
  for (let own = bonds; own >= bonds - given; own -= 1) {
    if (own === 0 || (allowed.includes(own) && !overfullHalogen(element, own, neighbours))) return true;
  }
  return stated && !HALOGENS.has(element) && bonds < Math.max(...allowed);
}

/** Chlorine and bromine hold more than one atom only where those are oxygen or halogens. */
function overfullHalogen(element: string, bonds: number, neighbours: readonly string[]): boolean {
  return (element === 'Cl' || element === 'Br') && bonds > 1 && !neighbours.every((one) => one === 'O' || HALOGENS.has(one));
}
