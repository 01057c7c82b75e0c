/**
 * Whether a CAS number's check digit is right: the sum of each digit times its position from the right, modulo 10.
 * A right check digit does not prove that the number belongs to the substance.
 * Source: CAS Registry, "Check Digit Verification of CAS Registry Numbers".
 */
export function hasRightCheckDigit(cas: string): boolean {
  const found = /^(\d{2,7})-(\d{2})-(\d)$/.exec(cas);
  if (!found) return false;
  const digits = [...`${found[1]}${found[2]}`].map(Number).reverse();
  return digits.reduce((sum, digit, index) => sum + digit * (index + 1), 0) % 10 === Number(found[3]);
}
