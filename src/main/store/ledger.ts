import type { LedgerKind, LedgerLine } from '../../core/port/shelf.ts';
import type { LedgerEntry, LedgerTie } from '../../core/shelf/ledger-entry.ts';
import { brokenMeasurement } from '../../core/shelf/measured.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { fromSmallest, LARGEST_AMOUNT, type AmountUnit } from './amounts.ts';
import type { Database } from './database.ts';
import { Refusal } from './refusal.ts';
import { tiesByLine } from './ties.ts';

interface NewLine {
  readonly bottle: number;
  readonly kind: LedgerKind;
  /** Micrograms or nanolitres, signed. */
  readonly change: number;
  readonly reason: string;
  readonly at: string;
  readonly undoes?: number;
}

/** Appends a ledger line; the bottle's amount follows by a trigger. Only inside a write. */
export function appendLine(database: Database, line: NewLine): number {
  const bottle = database.get<{ amount_left: number; unit: AmountUnit }>('SELECT amount_left, unit FROM bottle WHERE id = ?', [
    line.bottle,
  ]);
  const before = bottle?.amount_left ?? 0;
  const after = before + line.change;
  if (after < 0) {
    throw new Refusal('refused', mainWords.belowZero(fromSmallest(before), bottle?.unit ?? 'g', fromSmallest(-line.change)));
  }
  if (after > LARGEST_AMOUNT) throw new Refusal('refused', mainWords.tooFull);
  return database.run('INSERT INTO ledger (bottle, kind, change, reason, at, undoes) VALUES (?, ?, ?, ?, ?, ?)', [
    line.bottle,
    line.kind,
    line.change,
    line.reason,
    line.at,
    line.undoes ?? null,
  ]);
}

/** Appends the counter-entry of a line; undoing a counter-entry brings the line back. Only inside a write. */
export function undoLine(database: Database, bottle: number, line: number, at: string, touches = measurementTouched): number {
  const found = database.get<{ change: number; reason: string; undone: number }>(
    `SELECT change, reason, EXISTS (SELECT 1 FROM ledger AS later WHERE later.undoes = ledger.id) AS undone
     FROM ledger WHERE bottle = ? AND id = ?`,
    [bottle, line],
  );
  if (!found) throw new Refusal('not found', mainWords.noLine(line));
  if (found.undone === 1) throw new Refusal('conflict', mainWords.undoneAlready(line));
  const measured = touches(database, bottle, line);
  if (measured) throw new Refusal('refused', mainWords.measuredSince(measured.at.slice(0, 10)));
  return appendLine(database, { bottle, kind: 'undone', change: -found.change, reason: found.reason, at, undoes: line });
}

/** The newest counter-entry of a line, or the line itself where it has none; an even length is undone. */
export function newestInChain(database: Database, line: number): { readonly newest: number; readonly length: number } {
  const found = database.get<{ newest: number; length: number }>(
    `WITH RECURSIVE chain (id) AS (
       SELECT ? UNION ALL SELECT ledger.id FROM chain JOIN ledger ON ledger.undoes = chain.id)
     SELECT max(id) AS newest, count(*) AS length FROM chain`,
    [line],
  );
  return found ?? { newest: line, length: 1 };
}

/** The measured amount that would no longer hold if a line were undone; null where none is touched. */
function measurementTouched(database: Database, bottle: number, line: number): LedgerLine | null {
  return brokenMeasurement(readLedger(database, bottle), line);
}

/** The ledger of a bottle, oldest line first. */
export function readLedger(database: Database, bottle: number): readonly LedgerLine[] {
  const rows = database.all<{
    id: number;
    kind: LedgerKind;
    change: number;
    reason: string;
    at: string;
    undoes: number | null;
    undone: number;
  }>(
    `SELECT id, kind, change, reason, at, undoes,
       EXISTS (SELECT 1 FROM ledger AS later WHERE later.undoes = ledger.id) AS undone
     FROM ledger WHERE bottle = ? ORDER BY id`,
    [bottle],
  );
  return rows.map((row) => ({ ...row, change: fromSmallest(row.change), undone: row.undone === 1 }));
}

const FROM_LEDGER = `SELECT ledger.id, code, kind, change, reason, at, undoes
  FROM ledger JOIN bottle ON bottle.id = ledger.bottle`;

/** The ledger of every bottle that has one, by its label, as a shelf file holds it. */
export function ledgersByBottle(database: Database): ReadonlyMap<string, readonly LedgerEntry[]> {
  return byLabel(database.all<EntryRow>(`${FROM_LEDGER} ORDER BY ledger.id`), tiesByLine(database));
}

/** The same of those bottles of some materials that something was made into. */
export function ledgersOfMade(database: Database, materials: ReadonlySet<number>): ReadonlyMap<string, readonly LedgerEntry[]> {
  const made = `SELECT bottle.id FROM bottle CROSS JOIN ledger ON ledger.bottle = bottle.id
    WHERE material IN (SELECT value FROM json_each(?)) AND kind = 'made'`;
  const sql = `${FROM_LEDGER} WHERE bottle.id IN (${made}) ORDER BY ledger.id`;
  return byLabel(database.all<EntryRow>(sql, [JSON.stringify([...materials])]));
}

interface EntryRow {
  readonly id: number;
  readonly code: string;
  readonly kind: LedgerKind;
  readonly change: number;
  readonly reason: string;
  readonly at: string;
  readonly undoes: number | null;
}

function byLabel(
  rows: readonly EntryRow[],
  ties: ReadonlyMap<number, LedgerTie> = new Map(),
): ReadonlyMap<string, readonly LedgerEntry[]> {
  const ledgers = new Map<string, LedgerEntry[]>();
  const places = new Map<number, number>();
  for (const { id, code, change, undoes, ...row } of rows) {
    const ledger = ledgers.get(code) ?? [];
    ledgers.set(code, ledger);
    places.set(id, ledger.length);
    const taken = undoes === null ? undefined : places.get(undoes);
    const into = ties.get(id);
    ledger.push({
      ...row,
      change: fromSmallest(change),
      ...(taken === undefined ? {} : { undoes: taken }),
      ...(into === undefined ? {} : { into }),
    });
  }
  return ledgers;
}

/** What is left in a bottle, g or mL. */
export function amountLeft(database: Database, bottle: number): number {
  return fromSmallest(
    database.get<{ amount_left: number }>('SELECT amount_left FROM bottle WHERE id = ?', [bottle])?.amount_left ?? 0,
  );
}
