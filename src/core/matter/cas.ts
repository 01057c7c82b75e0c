import type { Reference } from '../reference.ts';
import type { MaterialRow } from '../reference-rows.ts';
import { materialsCalled } from './find-material.ts';
import { type Formula, parseFormula } from './formula.ts';

/**
 * Whether a CAS number's check digit is right: the sum of each digit times its position from the right, modulo 10.
 * A right check digit does not prove that the number belongs to the substance.
 * Source: CAS Registry, "Check Digit Verification of CAS Registry Numbers".
 */
export function hasRightCheckDigit(cas: string): boolean {
  const found = /^(\d{2,7})-(\d{2})-(\d)$/.exec(cas);
  if (!found) return false;
  return checkSum(`${found[1]}${found[2]}`) % 10 === Number(found[3]);
}

/** The sum a check digit is taken from: each digit before it times its position from the right. */
export function checkSum(digits: string): number {
  return [...digits].reverse().reduce((sum, digit, index) => sum + Number(digit) * (index + 1), 0);
}

/** Digits typed without hyphens, or with other dashes and spaces, as a CAS number; text that is none stays as it is. */
export function tidyCas(typed: string): string {
  const digits = typed.replace(/[\s\-‐-―−]/g, '');
  return /^\d{5,10}$/.test(digits) ? `${digits.slice(0, -3)}-${digits.slice(-3, -1)}-${digits.slice(-1)}` : typed.trim();
}

export interface CasDoubt {
  /** Whose number it is. */
  readonly owner: MaterialRow;
  /** What speaks against it: the material of that name, or the formula. */
  readonly against: { readonly named: MaterialRow } | { readonly formula: string };
}

/**
 * Whether a CAS number belongs to another material than the name or the formula beside it, as far as the built-in table
 * knows: the number of an isomer, of a hydrate, of the line below. Null where nothing speaks against it. A name that
 * means another material is let pass where the formula sides with the number.
 */
export function casDoubt(
  material: { readonly cas?: string | undefined; readonly name: string; readonly formula?: string | undefined },
  reference: Reference,
): CasDoubt | null {
  const owner = material.cas === undefined ? undefined : reference.material.get(material.cas);
  if (!owner) return null;
  const called = materialsCalled(material.name, reference);
  const [named] = called.includes(owner) ? [] : called;
  const { formula } = material;
  const made = formula === undefined ? null : parseFormula(formula, reference);
  if (formula === undefined || !made?.ok) return named ? { owner, against: { named } } : null;
  const fits = (row: MaterialRow): boolean => sameMake(made, parseFormula(row.formula, reference));
  if (fits(owner)) return named && fits(named) ? { owner, against: { named } } : null;
  return { owner, against: named ? { named } : { formula } };
}

/** The same elements in the same proportions: P2O5 and P4O10 are the same make. */
function sameMake(one: Formula, other: ReturnType<typeof parseFormula>): boolean {
  if (!other.ok || one.atoms.size !== other.atoms.size) return false;
  const share = (atoms: ReadonlyMap<string, number>, symbol: string): number =>
    (atoms.get(symbol) ?? 0) / [...atoms.values()].reduce((sum, count) => sum + count, 0);
  return [...one.atoms.keys()].every((symbol) => Math.abs(share(one.atoms, symbol) - share(other.atoms, symbol)) < 1e-9);
}
