import type { Balance, Measure, Settings } from '../plan/settings.ts';
import type { Figure } from '../quantity/figure.ts';
import { roundTo } from '../quantity/round.ts';
import type { MeasureKind, MeasureToleranceRow } from '../reference-rows.ts';
import { remember, rememberLast } from '../remember.ts';
import { type Graded, type Listed, listedFor, readStandard, toleranceOf } from './measure-tolerance.ts';
import { smallestNetMass } from './smallest-mass.ts';

/**
 * What an amount is weighed or measured with.
 *
 *     balance   the coarsest that shows a tenth of the accepted range and weighs so little within it;
 *               else the one that weighs least, flagged where even that is too much
 *     measure   the smallest that holds the volume and whose tolerance is inside the accepted range, filled once;
 *               else one filled twice; else none, and the mass is given
 */

/** A balance is wanted whose readability is at most this part of the accepted range. Common practice, no source. */
const READABILITY_PER_TOLERANCE = 0.1;
/** A burette delivers at least this part of its nominal volume. Source: USP ⟨31⟩ Volumetric Apparatus. */
const LEAST_PART_OF_BURETTE = 0.3;
/** A piston pipette is used from this part of its nominal volume on. Source: ISO 8655-2 tests it from there; from memory. */
const LEAST_PART_OF_PISTON = 0.1;
/** So often a measure is filled before another way is looked for; the largest as often as it takes. Common practice, no source. */
const MOST_FILLS = 2;
const SAME = 1e-9;

/** The balance for a net mass, g, and whether it weighs it within a relative tolerance > 0. */
export function balanceFor(grams: number, tolerance: number, settings: Settings): { balance: Balance; meets: boolean } {
  const able = coarsestFirst(settings.balances).filter((one) => one.largest >= grams);
  const fits = (one: Balance): boolean => smallestNetMass(one, tolerance) <= grams * (1 + SAME);
  const wanted = able.find((one) => fits(one) && one.readability <= grams * tolerance * READABILITY_PER_TOLERANCE);
  const balance = wanted ?? finest(able, tolerance) ?? largestOf(settings.balances);
  // More than the largest balance carries is weighed in parts, each of them large.
  return { balance, meets: fits(balance) };
}

const coarsestFirst = rememberLast((balances: Settings['balances']) =>
  balances.toSorted((a, b) => b.readability - a.readability),
);

function finest(balances: readonly Balance[], tolerance: number): Balance | undefined {
  return balances.toSorted((a, b) => smallestNetMass(a, tolerance) - smallestNetMass(b, tolerance))[0];
}

function largestOf(balances: readonly Balance[]): Balance {
  return balances.reduce((most, one) => (one.largest > most.largest ? one : most));
}

/** A measure as it is used for one volume. */
export interface Delivery {
  readonly measure: Measure;
  /** Null where neither the person nor its standard says what it is. */
  readonly kind: MeasureKind | null;
  /** How often it is filled. */
  readonly fills: number;
  /** What the target is rounded to, mL. */
  readonly readability: number;
  /** Tolerance of its standard over all fills; null where that is not known. */
  readonly tolerance: Figure<'mL'> | null;
  /** Largest error it is taken to have, mL: its tolerance, and never less than one reading. */
  readonly error: number;
  readonly meets: boolean;
}

/**
 * The measure for a volume > 0, mL, at a relative tolerance > 0; `meets` is false where no measure of the list will do,
 * null where none delivers such a volume at all.
 */
export function measureFor(
  millilitres: number,
  tolerance: number,
  settings: Settings,
  rows: readonly MeasureToleranceRow[],
): Delivery | null {
  const largest = settings.measures.reduce((most, one) => Math.max(most, one.nominal), 0);
  let best: Delivery | null = null;
  for (const known of knownMeasures(settings.measures, rows)) {
    const { nominal } = known.measure;
    const fills = Math.max(1, Math.ceil((millilitres / nominal) * (1 - SAME)));
    if ((fills > MOST_FILLS && nominal < largest) || !delivers(known.kind, millilitres / fills, nominal)) continue;
    // Nothing that is filled more often, or is larger, is better than one that meets it.
    if (best?.meets && (fills > best.fills || (fills === best.fills && nominal > best.measure.nominal))) continue;
    const way = delivery(known, fills, millilitres, tolerance);
    if (!best || isBetter(way, best)) best = way;
  }
  return best;
}

/** What meets the tolerance goes first, then what is filled less often, is smaller, is plainer to read; else the finer. */
function isBetter(one: Delivery, other: Delivery): boolean {
  if (one.meets !== other.meets) return one.meets;
  if (!one.meets) return one.error < other.error;
  if (one.fills !== other.fills) return one.fills < other.fills;
  if (one.measure.nominal !== other.measure.nominal) return one.measure.nominal < other.measure.nominal;
  return one.readability > other.readability;
}

interface KnownMeasure {
  readonly measure: Measure;
  readonly kind: MeasureKind | undefined;
  readonly grade: Pick<Graded, 'standard' | 'grade'>;
  readonly listed: Listed;
}

/** The laboratory's measures with the rows of their standards, looked up once. */
const knownMeasures = remember((measures: Settings['measures'], rows: readonly MeasureToleranceRow[]): readonly KnownMeasure[] =>
  measures.map((measure) => {
    const grade = readStandard(measure.standard);
    const kind = measure.kind ?? rows.find((row) => row.standard === grade.standard)?.kind;
    return { measure, kind, grade, listed: listedFor({ kind, ...grade, nominal: measure.nominal }, rows) };
  }),
);

/** Whether a burette of a nominal volume suits a volume, both mL. Source: USP ⟨31⟩: not less than 30 % of nominal. */
export function buretteSuits(millilitres: number, nominal: number): boolean {
  return millilitres <= nominal * (1 + SAME) && millilitres >= LEAST_PART_OF_BURETTE * nominal * (1 - SAME);
}

function delivers(kind: MeasureKind | undefined, millilitres: number, nominal: number): boolean {
  if (kind === 'volumetric flask') return false;
  if (kind === 'burette') return buretteSuits(millilitres, nominal);
  return kind !== 'piston pipette' || millilitres >= LEAST_PART_OF_PISTON * nominal * (1 - SAME);
}

function delivery(one: KnownMeasure, fills: number, millilitres: number, tolerance: number): Delivery {
  const { measure, kind, grade, listed } = one;
  // A transfer pipette has one mark: it delivers its nominal volume or nothing.
  const marked = kind === 'transfer pipette';
  const readability = marked ? measure.nominal : measure.readability;
  const once = marked ? measure.nominal : millilitres / fills;
  const allowed = toleranceOf({ kind, ...grade, nominal: measure.nominal }, listed, once);
  const device = allowed ? allowed.value * fills : 0;
  const error = marked
    ? Math.abs(roundTo(millilitres, readability) - millilitres) + device
    : Math.max(device, measure.readability);
  return {
    measure,
    kind: kind ?? null,
    fills,
    readability,
    tolerance: allowed,
    error,
    meets: error <= millilitres * tolerance * (1 + SAME),
  };
}
