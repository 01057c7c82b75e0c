import type { Settings } from '../../core/plan/settings.ts';
import type { Database } from './database.ts';

const LABORATORY = 'laboratory';
const FIRST_LOOK = 'first look';
const HIDDEN_ROUTES = 'hidden routes';

/** What the laboratory has; null before the first start has written it. */
export function readSettings(database: Database): Settings | null {
  const row = database.get<{ data: string }>('SELECT data FROM setting WHERE name = ?', [LABORATORY]);
  return row ? (JSON.parse(row.data) as Settings) : null;
}

/** Only inside a write. */
export function putSettings(database: Database, settings: Settings, at: string): void {
  put(database, LABORATORY, settings, at);
}

/** Whether the person has had the first look at the window, or skipped it. */
export function hasLooked(database: Database): boolean {
  return database.get('SELECT 1 FROM setting WHERE name = ?', [FIRST_LOOK]) !== undefined;
}

/** Only inside a write. */
export function putLooked(database: Database, at: string): void {
  put(database, FIRST_LOOK, true, at);
}

/** Routes that are put away, by number. */
export function hiddenRoutes(database: Database): readonly number[] {
  const row = database.get<{ data: string }>('SELECT data FROM setting WHERE name = ?', [HIDDEN_ROUTES]);
  return row ? (JSON.parse(row.data) as readonly number[]) : [];
}

/** Only inside a write. */
export function putHiddenRoutes(database: Database, routes: readonly number[], at: string): void {
  put(database, HIDDEN_ROUTES, routes, at);
}

function put(database: Database, name: string, data: unknown, at: string): void {
  database.run(
    `INSERT INTO setting (name, data, saved) VALUES (?, ?, ?)
     ON CONFLICT (name) DO UPDATE SET data = excluded.data, saved = excluded.saved`,
    [name, JSON.stringify(data), at],
  );
}
