import type { Reference } from '../reference.ts';
import { type DensityCurve, densityCurve, pieceAt, STANDARD_CELSIUS } from './density-curve.ts';
import { type Facts, factsOf } from './facts.ts';
import { hydrateOf } from './hydrate.ts';
import { type Form, plainStrength, solventOf, type StrengthBasis } from './form.ts';
import type { Material } from './material.ts';

/** A strength that cannot be, or an assay that would take the water of a hydrate off twice. */
export type StrengthDoubt = TooStrong | { readonly hydrate: string };

/** A strength that no solution can have, and the most there can be, on the same basis. */
interface TooStrong {
  readonly value: number;
  readonly most: number;
  readonly basis: StrengthBasis;
  /** g/mL that the most is taken from; null where the basis itself sets it. */
  readonly density: number | null;
}

/** Osmium's: nothing is denser, g/mL. Source: CRC Handbook of Chemistry and Physics, density of the elements. */
const DENSEST = 22.59;
/** Densities are known for one temperature and rounded; a strength may pass the limit by this part of it. */
const MARGIN = 0.01;

/**
 * Whether a solution is stated stronger than the pure material: more than 100 % w/w or % v/v, or more grams in a
 * millilitre than the bottle's own density, or than the densest that is known of the pure material at about 20 °C. Null
 * where nothing speaks against it, and for mol/kg of solvent, which has no end. An assay on the anhydrous basis is doubted
 * where the material is a hydrate: its formula counts the water already.
 */
export function strengthDoubt(material: Material, form: Form, reference: Reference): StrengthDoubt | null {
  if (form.kind === 'neat') {
    const twice = form.assayOn !== undefined && hydrateOf(factsOf(material, reference), reference) !== null;
    return twice ? { hydrate: material.name } : null;
  }
  if (form.kind !== 'solution') return null;
  const { value, basis } = form.strength;
  const over = (most: number, density: number | null, margin: number): TooStrong | null =>
    value > most * (1 + margin) ? { value, most, basis, density } : null;
  if (basis === '% w/w' || basis === '% v/v') return over(100, null, 0);
  const facts = factsOf(material, reference);
  const perUnit = gramsPerUnit(form.strength, facts);
  if (perUnit === null) return null;
  const density = Math.min(form.density?.gramsPerMillilitre ?? DENSEST, pureDensity(facts, form, reference));
  return over(density / perUnit, density, MARGIN);
}

/** g/mL of active material that one unit of a strength by volume stands for; null where it is not known. */
function gramsPerUnit(strength: Extract<Form, { kind: 'solution' }>['strength'], facts: Facts): number | null {
  const { value, basis } = plainStrength(strength);
  const molar = facts.molarMass?.value;
  const grams = { '% w/v': value / 100, 'g/L': value / 1000, 'mol/L': molar && (value * molar) / 1000 }[basis as string];
  return grams === undefined ? null : grams / strength.value;
}

function pureDensity(facts: Facts, form: Form & { kind: 'solution' }, reference: Reference): number {
  const curve = densityCurve(facts, solventOf(form), STANDARD_CELSIUS, reference);
  const known = [facts.liquidDensity?.value, facts.solidDensity?.value, curve ? atHundred(curve) : undefined];
  const densities = known.filter((one) => one !== undefined);
  return densities.length === 0 ? DENSEST : Math.max(...densities);
}

function atHundred(curve: DensityCurve): number | undefined {
  return pieceAt(curve, 100)?.density(100);
}
