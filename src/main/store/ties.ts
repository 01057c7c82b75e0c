import type { LedgerTie } from '../../core/shelf/ledger-entry.ts';
import type { Bottle } from '../../core/shelf/shelf.ts';
import type { Database } from './database.ts';

/*
 * Lines of two bottles that belong together: what was taken of one came into the other, by a split, by putting right a
 * bottle that was entered wrong, or because something was made from it. The tie leads to the first line of the bottle it
 * came into.
 */

const TABLES: Readonly<Record<LedgerTie['act'], { readonly table: string; readonly taken: string }>> = {
  split: { table: 'split', taken: 'taken' },
  correction: { table: 'correction', taken: 'emptied' },
  made: { table: 'made_into', taken: 'taken' },
};

/** Ties a line to the one by which what it took came into another bottle. Only inside a write. */
export function tieLines(database: Database, act: LedgerTie['act'], taken: number, came: number): void {
  const { table, taken: column } = TABLES[act];
  database.run(`INSERT INTO ${table} (${column}, came) VALUES (?, ?)`, [taken, came]);
}

/** The first line of a bottle; null where nothing ever came into it. */
export function firstLineOf(database: Database, bottle: number): number | null {
  return database.get<{ id: number | null }>('SELECT min(id) AS id FROM ledger WHERE bottle = ?', [bottle])?.id ?? null;
}

/** Every tie to a bottle that is on the shelf, by the line that took. */
export function tiesByLine(database: Database): ReadonlyMap<number, LedgerTie> {
  const all = Object.entries(TABLES).map(
    ([act, { table, taken }]) =>
      `SELECT '${act}' AS act, tie.${taken} AS line, code AS bottle FROM ${table} AS tie
         CROSS JOIN ledger ON ledger.id = tie.came CROSS JOIN bottle ON bottle.id = ledger.bottle WHERE taken_back = 0`,
  );
  const rows = database.all<LedgerTie & { readonly line: number }>(all.join(' UNION ALL '));
  return new Map(rows.map(({ line, act, bottle }) => [line, { act, bottle }]));
}

/** Ties the ledgers that bottles of a file brought along; rows of the bottles by label. Only inside a write. */
export function tieLedgers(database: Database, bottles: readonly Bottle[], rows: ReadonlyMap<string, number>): void {
  for (const { id, ledger = [] } of bottles) {
    if (ledger.every(({ into }) => into === undefined)) continue;
    const lines = database.all<{ id: number }>('SELECT id FROM ledger WHERE bottle = ? ORDER BY id', [rows.get(id) ?? 0]);
    for (const [at, { into }] of ledger.entries()) {
      const came = into && firstLineOf(database, rows.get(into.bottle) ?? 0);
      const taken = lines[at]?.id;
      if (into && came && taken !== undefined) tieLines(database, into.act, taken, came);
    }
  }
}
