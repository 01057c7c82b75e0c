import type { BrokenRun } from '../../core/port/runs.ts';
import type { RunEntry } from '../../core/run/entry.ts';
import { type AmountUnit, toSmallest } from './amounts.ts';
import type { Database } from './database.ts';

interface Row {
  readonly run: number;
  readonly number: number;
  readonly data: string;
  readonly sheet: string;
  /** Null where the line is gone. */
  readonly change: number | null;
  readonly code: string | null;
  readonly unit: AmountUnit | null;
}

const ROWS = `SELECT run_ledger.run AS run, run_ledger.number AS number, run_entry.data AS data,
    coalesce(run.data ->> '$.sheet.sheet.id', '') AS sheet, ledger.change AS change, bottle.code AS code, bottle.unit AS unit
  FROM run_ledger JOIN run ON run.id = run_ledger.run
    JOIN run_entry ON run_entry.run = run_ledger.run AND run_entry.number = run_ledger.number
    LEFT JOIN ledger ON ledger.id = run_ledger.ledger LEFT JOIN bottle ON bottle.id = ledger.bottle
  WHERE ledger.id IS NULL OR ledger.kind IN ('used', 'made')
  ORDER BY run_ledger.run, run_ledger.number`;

/**
 * Entries of runs whose line in a bottle's ledger no longer says what the entry took or made. The ledgers have no chain of
 * their own: what a run wrote there is held against its record.
 * @param whole runs whose records are as they were written.
 */
export function brokenLines(database: Database, whole: ReadonlySet<number>): readonly BrokenRun[] {
  return database.all<Row>(ROWS).flatMap((row) => {
    if (!whole.has(row.run) || agrees(row)) return [];
    return [{ id: row.run, entry: row.number, sheet: row.sheet, bottle: row.code ?? '' }];
  });
}

function agrees({ data, change, unit }: Row): boolean {
  if (change === null || unit === null) return false;
  const written = JSON.parse(data) as RunEntry;
  const entry = written.kind === 'correction' ? written.instead : written;
  if (entry?.kind === 'product' || entry?.kind === 'recovered') return change === toSmallest(entry.grams);
  if (entry?.kind !== 'charged') return false;
  const taken = entry.unit === unit ? entry.net : entry.taken;
  return taken !== null && change === -toSmallest(taken);
}
