import type { Reference } from '../reference.ts';
import { densityCurve, STANDARD_CELSIUS } from './density-curve.ts';
import { type Facts, factsOf } from './facts.ts';
import { type Form, plainStrength, type PlainBasis, solventOf } from './form.ts';
import type { Material } from './material.ts';
import { SATURATED_CELSIUS, saturatedInWater } from './saturated.ts';
import { strengthOn } from './solution.ts';

/** The most that is known of a strength in water, on the basis that was stated. */
export interface StrengthKnown {
  readonly most: number;
  readonly basis: PlainBasis;
  /** All that dissolves at that temperature, °C; or where the densities end. */
  readonly by: 'solubility' | 'densities';
  readonly celsius: number;
  readonly source: string;
}

/** Strengths and solubilities are rounded, and of about one temperature: a strength may pass the limit by this part of it. */
const MARGIN = 0.02;

/**
 * The most that the tables know of a strength in water, where a solution is stated stronger than both what dissolves at 20 °C
 * and the last of its densities. It may be right (a warm solution, a gap in a table): a question, never a refusal. Null where
 * nothing speaks against it, and where the tables know no limit.
 */
export function strengthKnown(material: Material, form: Form, reference: Reference): StrengthKnown | null {
  if (form.kind !== 'solution' || solventOf(form) !== 'water') return null;
  const facts = factsOf(material, reference);
  const { value, basis } = plainStrength(form.strength);
  const above = (percent: number): number | null => {
    const most = onBasis(percent, basis, facts, reference);
    return most !== null && value > most * (1 + MARGIN) ? most : null;
  };
  const curve = densityCurve(facts, 'water', STANDARD_CELSIUS, reference);
  const overDensities = curve && curve.to < 100 ? above(curve.to) : null;
  if (curve && overDensities === null) return null;
  const full = saturatedInWater(facts, reference);
  const overSolubility = full ? above(full.form.strength.value) : null;
  if (full) {
    if (overSolubility === null) return null;
    return { most: overSolubility, basis, by: 'solubility', celsius: SATURATED_CELSIUS, source: full.source };
  }
  if (!curve || overDensities === null) return null;
  const source = curve.pieces.find((piece) => piece.to === curve.to)?.source(curve.to).source ?? '';
  return { most: overDensities, basis, by: 'densities', celsius: STANDARD_CELSIUS, source };
}

/** A strength in % w/w on another basis; null where it cannot be converted. */
function onBasis(percent: number, basis: PlainBasis, facts: Facts, reference: Reference): number | null {
  const same = strengthOn(basis, facts, { kind: 'solution', strength: { value: percent, basis: '% w/w' } }, reference);
  return same.ok ? same.figure.value : null;
}
