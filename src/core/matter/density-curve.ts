import type { Mark } from '../quantity/figure.ts';
import { densityKey, type Reference } from '../reference.ts';
import { type DensityTable } from '../reference-rows.ts';
import { remember } from '../remember.ts';
import { ethanolWaterDensity } from './ethanol-water.ts';
import type { Facts } from './facts.ts';
import { interpolateMonotone } from './interpolate.ts';
import { modelDensity } from './laliberte.ts';
import { molarMass } from './molar-mass.ts';

/** Strengths by volume are stated at this temperature, and most tables hold for it. */
export const STANDARD_CELSIUS = 20;
/** What holds for one temperature is taken as it is this near to it, K. */
export const TEMPERATURE_MARGIN = 0.5;

/** One source of densities of a solution, over the mass percents it reaches. */
export interface Piece {
  readonly from: number;
  readonly to: number;
  /** g/mL at a mass percent from `from` to `to`. */
  readonly density: (massPercent: number) => number;
  readonly source: (massPercent: number) => PieceSource;
}

interface PieceSource {
  readonly source: string;
  readonly mark?: Mark;
}

/** Densities of a solute in a solvent at a temperature; each strength has one source, the best that reaches it. */
export interface DensityCurve {
  readonly from: number;
  readonly to: number;
  readonly pieces: readonly Piece[];
}

const atStandard = remember((_facts: Facts, _reference: Reference) => new Map<string, DensityCurve | null>());

/**
 * The densities of a solute in a solvent: for ethanol in water the alcoholometric formula; else the table of that
 * temperature and, where it ends, the model of Laliberté inside its fitted range. The model is scaled so that it meets
 * the table's end: strength for strength there is one density, without a step, and grams of solute per millilitre grow.
 * Null where there is no source.
 * @param solvent as solventOf gives it. @param celsius °C.
 */
export function densityCurve(facts: Facts, solvent: string, celsius: number, reference: Reference): DensityCurve | null {
  if (celsius !== STANDARD_CELSIUS) return buildCurve(facts, solvent, celsius, reference);
  const known = atStandard(facts, reference);
  let curve = known.get(solvent);
  if (curve === undefined) known.set(solvent, (curve = buildCurve(facts, solvent, celsius, reference)));
  return curve;
}

/** The part of a curve that holds for a mass percent, % w/w; undefined where none does. */
export function pieceAt(curve: DensityCurve, massPercent: number): Piece | undefined {
  return curve.pieces.find((piece) => massPercent >= piece.from && massPercent <= piece.to);
}

function buildCurve(facts: Facts, solvent: string, celsius: number, reference: Reference): DensityCurve | null {
  const solute = soluteOf(facts, reference);
  if (!solute) return null;
  const formula = solvent === 'water' && solute.cas === reference.rows.ethanolWater.cas ? ethanolPieces(celsius, reference) : [];
  const table = reference.densities
    .get(densityKey(solute.cas, solvent))
    ?.find((one) => Math.abs(one.celsius - celsius) <= TEMPERATURE_MARGIN);
  const measured = [...formula, ...(table ? [tablePiece(table)] : [])];
  const model = solvent === 'water' ? modelPieces(solute.cas, celsius, measured[0], reference) : [];
  const pieces = [...measured, ...model].map((piece) => ofPart(piece, solute.part));
  if (pieces.length === 0) return null;
  return { from: Math.min(...pieces.map((piece) => piece.from)), to: Math.max(...pieces.map((piece) => piece.to)), pieces };
}

/** What is dissolved once a solid is: CAS number, and grams of it per gram of solid (a hydrate brings water along). */
function soluteOf(facts: Facts, reference: Reference): { readonly cas: string; readonly part: number } | null {
  if (facts.cas === null) return null;
  const same = reference.sameInSolution.get(facts.cas);
  if (!same) return { cas: facts.cas, part: 1 };
  if (same.water === 0) return { cas: same.countsAs, part: 1 };
  const water = molarMass('H2O', reference);
  if (!facts.molarMass || !water.ok) return null;
  return { cas: same.countsAs, part: 1 - (same.water * water.figure.value) / facts.molarMass.value };
}

/** The same densities against the mass percent of a solid of which only a part is the solute. */
function ofPart(piece: Piece, part: number): Piece {
  if (part === 1) return piece;
  const own = (percent: number): number => Math.min(piece.to, Math.max(piece.from, percent * part));
  return {
    from: piece.from / part,
    to: Math.min(100, piece.to / part),
    density: (percent) => piece.density(own(percent)),
    source: (percent) => piece.source(own(percent)),
  };
}

function ethanolPieces(celsius: number, reference: Reference): readonly Piece[] {
  const { ethanolWater } = reference.rows;
  const density = (percent: number): number => ethanolWaterDensity(percent / 100, celsius, ethanolWater) ?? Number.NaN;
  if (Number.isNaN(density(0))) return [];
  const source: PieceSource = { source: `${celsius} °C, ${ethanolWater.source}`, mark: 'formula' };
  return [{ from: 0, to: 100, density, source: () => source }];
}

function tablePiece(table: DensityTable): Piece {
  const { percents, densities } = table;
  return {
    from: percents[0] ?? 0,
    to: percents.at(-1) ?? 0,
    density: (percent) => interpolateMonotone(percents, densities, percent) ?? Number.NaN,
    source: (percent) => tableSource(table, percent),
  };
}

/** The sources of the two points a strength lies between, or of the one it lies on; the mark of the poorer. */
function tableSource(table: DensityTable, percent: number): PieceSource {
  const { percents, sourceOf, sources } = table;
  const after = percents.findIndex((one) => one >= percent);
  const places = percents[after] === percent ? [after] : [after - 1, after];
  const used = [...new Set(places.map((place) => sourceOf[place]))].flatMap((index) => sources[index ?? -1] ?? []);
  const marks = used.flatMap((one) => one.mark ?? []);
  const mark = marks.find((one) => one === 'from memory') ?? marks[0];
  const source = `table at ${table.celsius} °C, ${used.map((one) => one.source).join(' and ')}`;
  return mark ? { source, mark } : { source };
}

/** The model where the measured piece does not reach, scaled to meet it. */
function modelPieces(cas: string, celsius: number, measured: Piece | undefined, reference: Reference): readonly Piece[] {
  const row = reference.laliberte.get(cas);
  if (!row) return [];
  const { toFraction } = row.density;
  const plain = (percent: number): number =>
    modelDensity(row, Math.min(percent / 100, toFraction), celsius, reference.rows.water) ?? Number.NaN;
  if (Number.isNaN(plain(0))) return [];
  const end = toFraction * 100;
  const source = `model at ${celsius} °C, Laliberté 2009`;
  if (!measured) return [{ from: 0, to: end, density: plain, source: () => ({ source, mark: 'model' }) }];
  const below: Piece[] =
    measured.from > 0
      ? [{ from: 0, to: Math.min(end, measured.from), density: plain, source: () => ({ source, mark: 'model' }) }]
      : [];
  if (end <= measured.to) return below;
  const factor = measured.density(measured.to) / plain(measured.to);
  const times = factor.toFixed(4);
  const met = times === '1.0000' ? source : `${source}, times ${times} to meet the table at ${measured.to} % w/w`;
  const above: Piece = {
    from: measured.to,
    to: end,
    density: (percent) => plain(percent) * factor,
    source: () => ({ source: met, mark: 'model' }),
  };
  return [...below, above];
}
