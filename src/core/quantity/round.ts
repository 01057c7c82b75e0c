/**
 * Rounds to a device's readability without the binary noise of value/step·step.
 * @param value finite, any unit; @param step > 0 in the same unit.
 */
export function roundTo(value: number, step: number): number {
  const decimals = decimalsOf(step);
  return Number((Math.round(value / step) * step).toFixed(decimals));
}

/** Decimals needed to write multiples of a step: 0.01 → 2, 0.5 → 1, 5 → 0. */
export function decimalsOf(step: number): number {
  for (let decimals = 0; decimals < 12; decimals += 1) {
    if (Math.abs(Number(step.toFixed(decimals)) - step) < step * 1e-9) return decimals;
  }
  return 12;
}
