import { type Figure, sourced } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import { type Maybe, known, unknown } from '../words/why.ts';
import { type DensityCurve, densityCurve, type Piece, pieceAt, STANDARD_CELSIUS, TEMPERATURE_MARGIN } from './density-curve.ts';
import { ethanolWaterDensity } from './ethanol-water.ts';
import type { Facts } from './facts.ts';
import { type Form, solventOf } from './form.ts';
import { waterDensity } from './water.ts';

const DIGITS = 4;
/** The expansion of a pure liquid, known near 20–25 °C, is used between these temperatures, °C. */
const EXPANSION_FROM = 10;
const EXPANSION_TO = 35;

/** The density measured on the bottle, g/mL, where the form carries one; it holds for the temperature it was measured at. */
export function measuredDensity(name: string, form: Form): Figure<'g/mL'> | null {
  if (form.kind === 'unknown' || !form.density) return null;
  const { gramsPerMillilitre, celsius, source } = form.density;
  return sourced(`density of ${name}`, gramsPerMillilitre, 'g/mL', `${source ?? 'measured'}, ${celsius} °C`, DIGITS);
}

/**
 * Density of a solution, g/mL: the best source that reaches its strength and temperature.
 * @param massPercent % w/w of solute. @param celsius °C.
 * @returns why not, where no source reaches it. Nothing is extrapolated.
 */
export function solutionDensity(
  facts: Facts,
  form: Form & { kind: 'solution' },
  massPercent: number,
  reference: Reference,
  celsius = STANDARD_CELSIUS,
): Maybe<'g/mL'> {
  const curve = densityCurve(facts, solventOf(form), celsius, reference);
  if (!curve) return unknown('no density table', { material: facts.name });
  const piece = pieceAt(curve, massPercent);
  if (!piece) {
    const { from, to } = reachNear(curve, massPercent);
    return unknown('outside density table', { material: facts.name, from: rounded(from), to: rounded(to) });
  }
  const label = `density of ${facts.name} ${rounded(massPercent)} % w/w`;
  const { source, mark } = piece.source(massPercent);
  return known(sourced(label, piece.density(massPercent), 'g/mL', source, DIGITS, mark));
}

/** What the sources reach, % w/w; for a strength in a gap between two of them, the nearer one. */
function reachNear(curve: DensityCurve, massPercent: number): { readonly from: number; readonly to: number } {
  if (massPercent < curve.from || massPercent > curve.to) return curve;
  const away = (piece: Piece): number => Math.max(piece.from - massPercent, massPercent - piece.to);
  return curve.pieces.reduce<DensityCurve | Piece>(
    (best, piece) => ('pieces' in best || away(piece) < away(best) ? piece : best),
    curve,
  );
}

function rounded(percent: number): number {
  return Number(percent.toPrecision(4));
}

/**
 * Density of a neat liquid, g/mL. Where a temperature is asked for that its value does not hold for: for water and
 * ethanol their formulas, for others the value corrected with the liquid's expansion from 10 to 35 °C.
 * @param celsius °C; left out, the value stands as it was given, at its own temperature.
 * @returns null where there is none for that temperature.
 */
export function neatDensity(facts: Facts, reference: Reference, celsius?: number): Figure<'g/mL'> | null {
  const stated = facts.liquidDensity;
  if (!stated || celsius === undefined || Math.abs(celsius - facts.liquidCelsius) <= TEMPERATURE_MARGIN) return stated;
  return byFormula(facts, celsius, reference) ?? byExpansion(stated, facts, celsius);
}

function byFormula(facts: Facts, celsius: number, reference: Reference): Figure<'g/mL'> | null {
  const { water, ethanolWater } = reference.rows;
  const said = (value: number | null, source: string): Figure<'g/mL'> | null =>
    value === null ? null : sourced(`density of ${facts.name}`, value, 'g/mL', `${celsius} °C, ${source}`, DIGITS, 'formula');
  if (facts.cas === water.cas) return said(waterDensity(celsius, water), water.source);
  if (facts.cas === ethanolWater.cas) return said(ethanolWaterDensity(1, celsius, ethanolWater), ethanolWater.source);
  return null;
}

function byExpansion(stated: Figure<'g/mL'>, facts: Facts, celsius: number): Figure<'g/mL'> | null {
  const { expansion, liquidCelsius } = facts;
  const inReach = (one: number): boolean => one >= EXPANSION_FROM && one <= EXPANSION_TO;
  if (expansion === null || !inReach(celsius) || !inReach(liquidCelsius)) return null;
  const how = `corrected from ${liquidCelsius} to ${celsius} °C with its expansion, ${expansion} per K`;
  const value = stated.value / (1 + expansion * (celsius - liquidCelsius));
  return { label: stated.label, value, unit: 'g/mL', digits: DIGITS, from: { kind: 'computed', how, of: [stated] } };
}
