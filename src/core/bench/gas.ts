/** Molar gas constant, J/(mol·K). Source: CODATA 2018. */
const GAS_CONSTANT = 8.314462618;
const ZERO_CELSIUS = 273.15;

/**
 * Volume of an ideal gas, L.
 * @param moles ≥ 0, mol. @param celsius > −273.15, °C. @param kilopascal > 0, kPa.
 */
export function gasLitres(moles: number, celsius = 25, kilopascal = 101.325): number {
  if (!(celsius > -ZERO_CELSIUS)) throw new RangeError(`gasLitres needs a temperature above absolute zero (got ${celsius} °C)`);
  if (!(kilopascal > 0)) throw new RangeError(`gasLitres needs a pressure above 0 (got ${kilopascal} kPa)`);
  return (moles * GAS_CONSTANT * (celsius + ZERO_CELSIUS)) / kilopascal;
}
