import type { Settings } from '../../core/plan/settings.ts';
import type { Database } from './database.ts';

const LABORATORY = 'laboratory';

/** What the laboratory has; null before the first start has written it. */
export function readSettings(database: Database): Settings | null {
  const row = database.get<{ data: string }>('SELECT data FROM setting WHERE name = ?', [LABORATORY]);
  return row ? (JSON.parse(row.data) as Settings) : null;
}

/** Only inside a write. */
export function putSettings(database: Database, settings: Settings, at: string): void {
  database.run(
    `INSERT INTO setting (name, data, saved) VALUES (?, ?, ?)
     ON CONFLICT (name) DO UPDATE SET data = excluded.data, saved = excluded.saved`,
    [LABORATORY, JSON.stringify(settings), at],
  );
}
