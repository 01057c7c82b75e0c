import { computed, type Figure, entered, sourced } from '../quantity/figure.ts';
import type { MeasureKind, MeasureToleranceRow } from '../reference-rows.ts';

/** A measure as its standard knows it. */
export interface Graded {
  readonly kind?: MeasureKind | undefined;
  /** E.g. "ISO 4788"; a class alone says nothing. */
  readonly standard: string;
  /** "A", "B", or "" where the standard has none. */
  readonly grade: string;
  /** mL. */
  readonly nominal: number;
}

/** Standards whose class B is within twice class A, where class B is not listed by itself. */
const TWICE: ReadonlySet<string> = new Set(['ASTM E1272', 'ASTM E969', 'ASTM E287', 'ASTM E288']);
/** Standards that give a capacity they do not list the tolerance of the next smaller one. Source: ASTM E1272, 1.1.3. */
const NEXT_SMALLER: ReadonlySet<string> = new Set(['ASTM E1272']);
const SAME = 1e-9;

/**
 * Largest error its standard allows a measure, ± mL, at a volume delivered (by default all of it); null where the
 * standard, the class or the capacity is not in the table.
 * @param volume 0 < volume ≤ nominal, mL.
 */
export function measureTolerance(
  measure: Graded,
  rows: readonly MeasureToleranceRow[],
  volume: number = measure.nominal,
): Figure<'mL'> | null {
  return toleranceOf(measure, listedFor(measure, rows), volume);
}

/** The rows of a table that hold for a measure; looked up once where one measure is asked about often. */
export interface Listed {
  readonly rows: readonly MeasureToleranceRow[];
  /** How often the listed tolerance counts: twice where a class B is known only by its class A. */
  readonly times: number;
}

/** Finds the rows that hold for a measure; none where its standard, class or capacity is not in the table. */
export function listedFor(measure: Graded, rows: readonly MeasureToleranceRow[]): Listed {
  const own = rowsFor(measure, rows);
  if (own.length > 0 || measure.grade !== 'B' || !TWICE.has(measure.standard)) return { rows: own, times: 1 };
  return { rows: rowsFor({ ...measure, grade: 'A' }, rows), times: 2 };
}

/** Tolerance of a measure by its listed rows at a volume delivered, mL; null where none is listed. */
export function toleranceOf(measure: Graded, { rows, times }: Listed, volume: number): Figure<'mL'> | null {
  const row = rows.findLast((one) => volume >= one.fromPart * measure.nominal * (1 - SAME));
  return row ? fromRow(measure, row, volume, times) : null;
}

/** "ISO 4788, class A" → standard and class; a text without a class is a standard that has none. */
export function readStandard(text: string | undefined): Pick<Graded, 'standard' | 'grade'> {
  const [, standard = '', grade = ''] = /^\s*(.*?)\s*(?:,?\s*class\s+(\S+))?\s*$/i.exec(text ?? '') ?? [];
  const upper = grade.toUpperCase();
  return { standard, grade: upper === 'AS' ? 'A' : upper };
}

/** Rows of a measure's capacity, in order of the part of it they hold from. */
function rowsFor(measure: Graded, rows: readonly MeasureToleranceRow[]): readonly MeasureToleranceRow[] {
  const listed = rows.filter(
    (row) =>
      row.standard === measure.standard &&
      row.grade === measure.grade &&
      (measure.kind === undefined || row.kind === measure.kind),
  );
  const capacity = listed.some((row) => row.nominal === measure.nominal)
    ? measure.nominal
    : NEXT_SMALLER.has(measure.standard)
      ? Math.max(...listed.filter((row) => row.nominal < measure.nominal).map((row) => row.nominal))
      : Number.NaN;
  return listed.filter((row) => row.nominal === capacity).sort((a, b) => a.fromPart - b.fromPart);
}

function fromRow(measure: Graded, row: MeasureToleranceRow, volume: number, times: number): Figure<'mL'> {
  const value = times * (row.fixed + row.perMillilitre * volume);
  const grade = measure.grade === '' ? '' : `, class ${measure.grade}`;
  const label = `tolerance of ${row.kind} ${measure.nominal} mL, ${measure.standard}${grade}`;
  if (times === 1 && row.perMillilitre === 0) return sourced(label, value, 'mL', row.source, 3, row.mark ?? undefined);
  const fixed = sourced('fixed part', row.fixed, 'mL', row.source, 3, row.mark ?? undefined);
  const part = sourced('part of the volume', row.perMillilitre * 100, '%', row.source, 3, row.mark ?? undefined);
  const how = times === 1 ? 'fixed part + part of the volume delivered' : 'class B is within twice class A';
  return computed(label, value, 'mL', how, [fixed, part, entered('volume delivered', volume, 'mL', 'the plan')]);
}
