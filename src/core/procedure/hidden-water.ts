import type { Facts } from '../matter/facts.ts';
import { hydrateOf } from '../matter/hydrate.ts';
import { molarMass } from '../matter/molar-mass.ts';
import { parseFormula } from '../matter/formula.ts';
import type { Reference } from '../reference.ts';
import { agreementOf, type PrintedNumber, type Span } from './printed-number.ts';

/** Water of crystallisation tried, mol per mol: whole numbers first, halves where none of them fits. */
const WHOLE = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 18];
const HALVES = [0.5, 1.5, 2.5];

/** The same salt with another count of water. */
export interface OtherWater {
  /** e.g. "Na2Cr2O7·2H2O"; the plain formula for 0. */
  readonly formula: string;
  readonly water: number;
  /** Moles the printed mass would be, mol. */
  readonly moles: number;
}

/**
 * Which hydrate a name hides: the count of water with which the printed mass gives the printed moles, where the
 * formula as it stands does not. A hydrate of the built-in table goes before one that only fits the numbers.
 * @param activeGrams what the printed mass holds of the material, g. @param printed moles, mol.
 * @returns null where no count of water explains the print, or the formula is not known.
 */
export function hiddenWater(facts: Facts, activeGrams: Span, printed: PrintedNumber, reference: Reference): OtherWater | null {
  if (facts.formula === null) return null;
  const own = hydrateOf(facts, reference);
  const plain = own ? (own.anhydrous.formula ?? '') : facts.formula;
  const as = (water: number): OtherWater | null => {
    const formula = water === 0 ? plain : `${plain}·${water === 1 ? '' : water}H2O`;
    const mass = molarMass(formula, reference);
    if (!mass.ok) return null;
    const moles = (grams: number): number => grams / mass.figure.value;
    const span = { value: moles(activeGrams.value), low: moles(activeGrams.low), high: moles(activeGrams.high) };
    const agreement = agreementOf(printed, span);
    return agreement === 'agrees' || agreement === 'cut off' ? { formula, water, moles: span.value } : null;
  };
  const fitting = (waters: readonly number[]): readonly OtherWater[] =>
    waters.filter((water) => water !== (own?.water ?? 0)).flatMap((water) => as(water) ?? []);
  const whole = fitting([...(own ? [0] : []), ...WHOLE]);
  const known = whole.find((one) => one.water > 0 && inTable(one.formula, reference));
  return known ?? whole[0] ?? fitting(HALVES)[0] ?? null;
}

/** The formula counts water that the name does not say: "sodium dichromate" for Na2Cr2O7·2H2O. */
export function waterUnsaid(facts: Facts, reference: Reference): number | null {
  const own = hydrateOf(facts, reference);
  return own && !/hydrat/i.test(facts.name) && !/[·*]\s*\d*\s*H2O/.test(facts.name) ? own.water : null;
}

function inTable(formula: string, reference: Reference): boolean {
  const wanted = atomsText(formula, reference);
  return (
    wanted !== null &&
    reference.rows.materials.some((row) => /[·*•.]\s*\d*H2O/.test(row.formula) && atomsText(row.formula, reference) === wanted)
  );
}

/** Atoms in a fixed order, so that Na2Cr2O7·2H2O and Cr2Na2O7·2H2O are the same. */
function atomsText(formula: string, reference: Reference): string | null {
  const parsed = parseFormula(formula, reference);
  return parsed.ok
    ? [...parsed.atoms]
        .map(([symbol, count]) => `${symbol}${count}`)
        .sort()
        .join()
    : null;
}
