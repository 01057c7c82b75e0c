/** What a solubility is counted per. The basis is always named: 60 g per 100 g of solution is 150 g per 100 g of solvent. */
export type SolubilityBasis = '100 mL solvent' | '100 g solvent' | '100 g solution';

/** A measured or tabulated solubility. */
export interface SolubilityPoint {
  readonly celsius: number;
  /** g of solute. */
  readonly grams: number;
}

/**
 * g of solute per 100 of solvent (mL or g), from any basis.
 * @param grams ≥ 0; below 100 where it is counted per 100 g of solution.
 * @throws RangeError where a solution would hold more solute than itself.
 */
export function perSolvent(grams: number, basis: SolubilityBasis): number {
  if (!(grams >= 0) || (basis === '100 g solution' && grams >= 100)) {
    throw new RangeError(`a solubility per ${basis} needs to be 0 or more, and below 100 g of a solution (got ${grams} g)`);
  }
  return basis === '100 g solution' ? (100 * grams) / (100 - grams) : grams;
}

/**
 * What a saturated solution is made of, g.
 * @param solution g of it, ≥ 0. @param solubility g per 100 g of solvent, ≥ 0.
 */
export function inSaturated(solution: number, solubility: number): { readonly solute: number; readonly solvent: number } {
  const solute = (solution * solubility) / (100 + solubility);
  return { solute, solvent: solution - solute };
}

/**
 * Solubility of a hydrate, g of it per 100 g of water poured on, from that of the anhydrous substance: the water it
 * brings along dissolves it too. Null where it dissolves in its own water without end.
 * @param anhydrous g per 100 g of water, ≥ 0. @param ratio molar mass of the hydrate ÷ that of the anhydrous one, ≥ 1.
 */
export function hydrateSolubility(anhydrous: number, ratio: number): number | null {
  const free = 100 - anhydrous * (ratio - 1);
  return free > 0 ? (100 * anhydrous * ratio) / free : null;
}
