/**
 * Rounds to a device's readability without the binary noise of value/step·step.
 * @param value finite, any unit; @param step > 0 in the same unit.
 */
export function roundTo(value: number, step: number): number {
  const decimals = decimalsOf(step);
  return Number((Math.round(value / step) * step).toFixed(decimals));
}

/**
 * Rounds up to a device's readability; what binary arithmetic leaves above a multiple does not count.
 * @param value finite, any unit; @param step > 0 in the same unit.
 */
export function roundUpTo(value: number, step: number): number {
  return Number((Math.ceil(value / step - 1e-9) * step).toFixed(decimalsOf(step)));
}

/**
 * The smallest of 1, 2, 5 × 10ⁿ that is not finer than what a device shows: the lines an amount is set to. A cylinder
 * read to 0.25 mL is filled to a line of 0.5 mL; "24.50" would claim hundredths of it.
 * @param readability > 0, any unit. @returns in the same unit.
 */
export function lineOf(readability: number): number {
  const decade = 10 ** Math.floor(Math.log10(readability) + 1e-9);
  const lines = [1, 2, 5, 10].map((part) => Number((part * decade).toPrecision(12)));
  return lines.find((line) => line >= readability * (1 - 1e-9)) ?? readability;
}

/** Decimals needed to write multiples of a step: 0.01 → 2, 0.5 → 1, 5 → 0. */
export function decimalsOf(step: number): number {
  for (let decimals = 0; decimals < 12; decimals += 1) {
    const shift = 10 ** decimals;
    if (Math.abs(Math.round(step * shift) / shift - step) < step * 1e-9) return decimals;
  }
  return 12;
}
