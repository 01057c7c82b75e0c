/**
 * Mixing on plain numbers. What is conserved is mass: a strength here is a mass fraction and an amount a mass, g.
 * The same arithmetic holds for any amounts that add up, which volumes of strong solutions do not.
 */

export interface Dilution {
  /** g of the stronger form, and g of solvent to bring it to the wanted mass. */
  readonly strong: number;
  readonly solvent: number;
}

/**
 * Dilution by mass: how much of a stronger form makes `grams` of a weaker one. Mass balances; volumes do not.
 * @param grams wanted mass, g. @param from mass fraction of the stronger form. @param to that wanted, 0 < to < from ≤ 1.
 * @throws RangeError outside that. Source: mass balance.
 */
export function dilute(grams: number, from: number, to: number): Dilution {
  if (!(to > 0 && to < from && from <= 1)) throw new RangeError(`dilute needs 0 < to < from ≤ 1 (got ${to} from ${from})`);
  const strong = (grams * to) / from;
  return { strong, solvent: grams - strong };
}

export interface Blend {
  readonly strong: number;
  readonly weak: number;
}

/**
 * Two strengths mixed to a third (the mixing cross, or Pearson square): strong : weak = (to − weak) : (strong − to).
 * @param total wanted mass, g, ≥ 0. @param strengths on one basis: weak ≤ to ≤ strong, weak < strong.
 * @throws RangeError outside that. Source: mass balance of solute and whole.
 */
export function blend(
  total: number,
  { strong, weak, to }: { readonly strong: number; readonly weak: number; readonly to: number },
): Blend {
  if (!(total >= 0)) throw new RangeError(`blend needs a total of 0 or more (got ${total} g)`);
  if (!(weak >= 0 && weak < strong && to >= weak && to <= strong)) {
    throw new RangeError(`blend needs 0 ≤ weak ≤ to ≤ strong (got ${weak}, ${to}, ${strong})`);
  }
  const part = (total * (to - weak)) / (strong - weak);
  return { strong: part, weak: total - part };
}

/**
 * Strength of a mixture, on the basis its parts are given on.
 * @param parts amounts (g) ≥ 0, not all 0, with their mass fractions.
 * @returns total amount, g, and mass fraction of the whole. @throws RangeError where nothing is mixed.
 */
export function mix(parts: readonly { readonly amount: number; readonly strength: number }[]): {
  readonly amount: number;
  readonly strength: number;
} {
  const amount = parts.reduce((sum, part) => sum + part.amount, 0);
  if (!(amount > 0)) throw new RangeError(`mix needs something to mix (got ${amount} g)`);
  return { amount, strength: parts.reduce((sum, part) => sum + part.amount * part.strength, 0) / amount };
}

/**
 * How far a stock goes: the volume a solution fills when it is brought to a lower strength, c₁V₁ = c₂V₂. True for
 * strengths per volume of solution (mol/L, g/L, % w/v), whatever the volumes of the parts do.
 * @param volume of the stock, any unit, ≥ 0. @param from strength of the stock. @param to wanted, 0 < to ≤ from, same basis.
 * @returns the final volume, in the unit of `volume`. @throws RangeError outside that.
 */
export function volumeWhenDiluted(volume: number, from: number, to: number): number {
  if (!(volume >= 0 && to > 0 && to <= from)) {
    throw new RangeError(`volumeWhenDiluted needs a volume ≥ 0 and 0 < to ≤ from (got ${volume}, ${from}, ${to})`);
  }
  return (volume * from) / to;
}

/**
 * Volume of stock that holds what a volume of weaker solution needs, c₁V₁ = c₂V₂ solved for V₁.
 * @param volume wanted, any unit, ≥ 0. @param to its strength. @param from strength of the stock, ≥ to > 0, same basis.
 * @returns the volume of stock, in the unit of `volume`. @throws RangeError outside that.
 */
export function stockFor(volume: number, to: number, from: number): number {
  if (!(volume >= 0 && to > 0 && to <= from)) {
    throw new RangeError(`stockFor needs a volume ≥ 0 and 0 < to ≤ from (got ${volume}, ${to}, ${from})`);
  }
  return (volume * to) / from;
}
