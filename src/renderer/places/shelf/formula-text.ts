const SMALL = '₀₁₂₃₄₅₆₇₈₉';

/** A formula with its counts set small: "C14H10O2" is C₁₄H₁₀O₂; the factor of a hydrate stays as it is. */
export function smallDigits(formula: string): string {
  return formula.replace(/([A-Za-z)\]}])(\d+)/g, (_, before: string, digits: string) => {
    return before + [...digits].map((digit) => SMALL[Number(digit)] ?? digit).join('');
  });
}
