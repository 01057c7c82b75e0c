import type { Database } from './database.ts';

/** What SQLite finds wrong with the file; empty when it is sound. `full` also compares every index with its table. */
export function damageIn(database: Database, depth: 'quick' | 'full'): readonly string[] {
  const pragma = depth === 'quick' ? 'quick_check' : 'integrity_check';
  const rows = database.all<Record<string, string>>(`PRAGMA ${pragma}`).map((row) => row[pragma] ?? 'unreadable');
  const found = rows.length === 1 && rows[0] === 'ok' ? [] : rows;
  return depth === 'quick' ? found : [...found, ...brokenReferences(database)];
}

function brokenReferences(database: Database): readonly string[] {
  return database
    .all<{ table: string; rowid: number; parent: string }>('PRAGMA foreign_key_check')
    .map((row) => `row ${row.rowid} of ${row.table} refers to a missing row of ${row.parent}`);
}

interface WrongSum {
  readonly id: number;
  readonly code: string;
  readonly kept: number;
  readonly sum: number;
}

/** Bottles whose kept amount is not the sum of their ledger. */
export function wrongSums(database: Database): readonly WrongSum[] {
  return database.all<WrongSum>(`
    SELECT bottle.id, code, amount_left AS kept, coalesce(lines.sum, 0) AS sum
    FROM bottle LEFT JOIN (SELECT bottle, sum(change) AS sum FROM ledger GROUP BY bottle) AS lines ON lines.bottle = bottle.id
    WHERE amount_left <> coalesce(lines.sum, 0)`);
}

/** Puts kept amounts right from the ledger, which is the truth; gives the bottles that were wrong. */
export function rebuildSums(database: Database): readonly WrongSum[] {
  const wrong = wrongSums(database);
  if (wrong.length === 0) return wrong;
  return database.write(() => {
    const found = wrongSums(database);
    for (const { id, sum } of found) database.run('UPDATE bottle SET amount_left = ? WHERE id = ?', [sum, id]);
    return found;
  });
}
