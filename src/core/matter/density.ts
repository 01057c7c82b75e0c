import { type Figure, type Mark, sourced } from '../quantity/figure.ts';
import { densityKey, type DensityTable, type Reference } from '../reference.ts';
import { type Maybe, known, unknown } from '../words/why.ts';
import { ETHANOL, ethanolWaterDensity } from './ethanol-water.ts';
import type { Facts } from './facts.ts';
import { type Form, solventOf } from './form.ts';
import { interpolateMonotone } from './interpolate.ts';
import { modelDensity } from './laliberte.ts';

const DIGITS = 4;
/** Tables hold for 20 °C; this near to it they are taken as they are. */
const TABLE_CELSIUS = 20;
const TABLE_MARGIN = 0.5;

/** One source of densities of a solution, over the mass percents it reaches. */
interface Piece {
  readonly from: number;
  readonly to: number;
  readonly at: (massPercent: number) => { readonly value: number; readonly source: string; readonly mark?: Mark } | null;
}

/** Densities of a solute in a solvent at a temperature, best source first; together they reach `from` … `to`, % w/w. */
export interface DensityCurve {
  readonly from: number;
  readonly to: number;
  readonly pieces: readonly Piece[];
}

/**
 * The sources of density for a solute in a solvent: the table at 20 °C, for ethanol the alcoholometric formula, and
 * beyond them the model of Laliberté inside its fitted range. Null where there is none.
 */
export function densityCurve(facts: Facts, solvent: string, celsius: number, reference: Reference): DensityCurve | null {
  const { cas } = facts;
  if (cas === null) return null;
  const table = reference.densities.get(densityKey(cas, solvent));
  const pieces = [
    ...(cas === ETHANOL && solvent === 'water' ? ethanolPiece(celsius, reference) : []),
    ...(table && Math.abs(celsius - TABLE_CELSIUS) <= TABLE_MARGIN ? [tablePiece(table)] : []),
    ...(solvent === 'water' ? modelPiece(cas, celsius, reference) : []),
  ];
  if (pieces.length === 0) return null;
  return { from: Math.min(...pieces.map((piece) => piece.from)), to: Math.max(...pieces.map((piece) => piece.to)), pieces };
}

/** g/mL at a mass percent, from the first source that reaches it; null outside all of them. */
export function densityOn(curve: DensityCurve, massPercent: number): ReturnType<Piece['at']> {
  const piece = curve.pieces.find((one) => massPercent >= one.from && massPercent <= one.to);
  return piece ? piece.at(massPercent) : null;
}

function tablePiece(table: DensityTable): Piece {
  const { percents, densities, rows } = table;
  return {
    from: percents[0] ?? 0,
    to: percents.at(-1) ?? 0,
    at: (percent) => {
      const value = interpolateMonotone(percents, densities, percent);
      if (value === null) return null;
      const near = rows.reduce((best, row) =>
        Math.abs(row.massPercent - percent) < Math.abs(best.massPercent - percent) ? row : best,
      );
      return { value, source: `table at 20 °C, ${near.source}`, ...(near.mark ? { mark: near.mark } : {}) };
    },
  };
}

function ethanolPiece(celsius: number, reference: Reference): readonly Piece[] {
  const { ethanolWater } = reference.rows;
  if (ethanolWaterDensity(0, celsius, ethanolWater) === null) return [];
  const source = `${celsius} °C, ${ethanolWater.source}`;
  return [
    {
      from: 0,
      to: 100,
      at: (percent) => {
        const value = ethanolWaterDensity(percent / 100, celsius, ethanolWater);
        return value === null ? null : { value, source, mark: 'formula' };
      },
    },
  ];
}

function modelPiece(cas: string, celsius: number, reference: Reference): readonly Piece[] {
  const row = reference.laliberte.get(cas);
  if (!row || modelDensity(row, 0, celsius, reference.rows.water) === null) return [];
  const source = `model at ${celsius} °C, Laliberté 2009`;
  return [
    {
      from: 0,
      to: row.density.toFraction * 100,
      at: (percent) => {
        const value = modelDensity(row, Math.min(percent / 100, row.density.toFraction), celsius, reference.rows.water);
        return value === null ? null : { value, source, mark: 'model' };
      },
    },
  ];
}

/**
 * Density of a solution, g/mL: measured on the bottle, else the best source that reaches its strength and temperature.
 * @param massPercent % w/w of solute. @param celsius °C.
 * @returns why not, where no source reaches it. Nothing is extrapolated.
 */
export function solutionDensity(
  facts: Facts,
  form: Form & { kind: 'solution' },
  massPercent: number,
  reference: Reference,
  celsius = TABLE_CELSIUS,
): Maybe<'g/mL'> {
  const measured = measuredDensity(facts.name, form);
  if (measured) return known(measured);
  const curve = densityCurve(facts, solventOf(form), celsius, reference);
  if (!curve) return unknown('no density table', { material: facts.name });
  const found = densityOn(curve, massPercent);
  if (!found) return unknown('outside density table', { material: facts.name, from: curve.from, to: curve.to });
  const label = `density of ${facts.name} ${Number(massPercent.toPrecision(4))} % w/w`;
  return known(sourced(label, found.value, 'g/mL', found.source, DIGITS, found.mark));
}

/** Furthest from 20 °C that a pure liquid's density is corrected with its expansion near 20–25 °C. */
const EXPANSION_REACH = 15;

/**
 * Density of a neat liquid at a temperature, g/mL: its value at 20 °C, corrected where its expansion is known and the
 * temperature is near; null where that cannot be said.
 */
export function liquidDensityAt(facts: Facts, celsius: number): Figure<'g/mL'> | null {
  const at20 = facts.liquidDensity;
  const warmer = celsius - TABLE_CELSIUS;
  if (!at20 || Math.abs(warmer) <= TABLE_MARGIN) return at20;
  if (facts.expansion === null || Math.abs(warmer) > EXPANSION_REACH) return null;
  const value = at20.value / (1 + facts.expansion * warmer);
  return {
    label: at20.label,
    value,
    unit: 'g/mL',
    digits: DIGITS,
    from: { kind: 'computed', how: `corrected to ${celsius} °C with the expansion ${facts.expansion} per K`, of: [at20] },
  };
}

/** The density measured on the bottle, g/mL, where the form carries one. */
export function measuredDensity(name: string, form: Form): Figure<'g/mL'> | null {
  if (form.kind === 'unknown' || !form.density) return null;
  const { gramsPerMillilitre, celsius, source } = form.density;
  return sourced(`density of ${name}`, gramsPerMillilitre, 'g/mL', `${source ?? 'measured'}, ${celsius} °C`, DIGITS);
}
