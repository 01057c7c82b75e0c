import type { Facts } from '../matter/facts.ts';
import { computed, entered, type Figure } from '../quantity/figure.ts';

/**
 * Mass a yield of 100 % would give, contained, g.
 * @param basis moles of contained basis, mol. @param ratio ν(product) ÷ ν(basis), > 0.
 * @returns null where the product has no molar mass.
 */
export function theoryGrams(basis: Figure<'mol'>, ratio: number, product: Facts): Figure<'g'> | null {
  if (!product.molarMass) return null;
  const times = entered('product per basis, by the equation', ratio, '', 'the equation');
  const how = 'moles of basis × ratio of coefficients × molar mass';
  return computed(`${product.name} in theory`, basis.value * ratio * product.molarMass.value, 'g', how, [
    basis,
    times,
    product.molarMass,
  ]);
}

export interface Obtained {
  /** Product as weighed, g, ≥ 0. */
  readonly grams: Figure<'g'>;
  /** % w/w of product in it; null where it was not determined: then taken as 100 %, and the yield is uncorrected. */
  readonly assayPercent: number | null;
}

/**
 * Percent yield against the declared basis: 100 · n(product)·assay ÷ (n(basis) · ν product ÷ ν basis), as the same
 * ratio of masses. Source: definition; IUPAC Green Book, 3rd ed., amount-of-substance yield.
 * @param theory contained product at 100 %, g, > 0.
 * @throws RangeError for a mass below zero or a theory that is not above zero.
 */
export function percentYield(obtained: Obtained, theory: Figure<'g'>): Figure<'%'> {
  const { grams, assayPercent } = obtained;
  if (!(grams.value >= 0)) throw new RangeError(`the product needs a mass of at least 0 g (got ${grams.value} g)`);
  if (!(theory.value > 0)) throw new RangeError(`a yield needs a theory above 0 g (got ${theory.value} g)`);
  const assay =
    assayPercent === null
      ? entered('assay of the product', 1, 'g/g', 'not determined: taken as 100 %')
      : entered('assay of the product', assayPercent / 100, 'g/g', 'the assay');
  const word = assayPercent === null ? 'yield, uncorrected' : 'yield';
  return computed(word, (100 * grams.value * assay.value) / theory.value, '%', 'mass × assay ÷ theory', [grams, assay, theory]);
}

/**
 * Overall yield between two weighed materials over any number of steps: moles of product over the moles the start
 * could give. @param ratio mol of product per mol of start by the equations, > 0. Null where a molar mass is missing.
 */
export function yieldBetween(
  start: { readonly facts: Facts; readonly grams: Figure<'g'> },
  product: { readonly facts: Facts } & Obtained,
  ratio = 1,
): Figure<'%'> | null {
  const mass = start.facts.molarMass;
  if (!mass) return null;
  const moles = computed(`${start.facts.name} at the start`, start.grams.value / mass.value, 'mol', 'mass ÷ molar mass', [
    start.grams,
    mass,
  ]);
  const theory = theoryGrams(moles, ratio, product.facts);
  return theory && percentYield(product, theory);
}
