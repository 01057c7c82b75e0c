import type { RevisionEntry, RouteEntry, RouteRevision } from '../../core/port/workbook.ts';
import type { Route } from '../../core/route/route.ts';
import { mainWords } from '../../core/words/main-words.ts';
import type { Database } from './database.ts';
import { Refusal } from './refusal.ts';
import { hiddenRoutes, putHiddenRoutes } from './settings.ts';

const NEWEST = 'number = (SELECT max(number) FROM route_revision AS other WHERE other.route = route_revision.route)';

/** Every route with its newest revision, the last changed first. */
export function listRoutes(database: Database): readonly RouteEntry[] {
  const hidden = new Set(hiddenRoutes(database));
  return database
    .all<Omit<RouteEntry, 'hidden'>>(
      `SELECT route AS id, name, steps, number AS revision, saved AS changed
       FROM route_revision WHERE ${NEWEST} ORDER BY saved DESC, route DESC`,
    )
    .map((one) => ({ ...one, hidden: hidden.has(one.id) }));
}

/** The newest revision of every route that is not put away, the last changed first. */
export function newestRoutes(database: Database): readonly Route[] {
  const hidden = new Set(hiddenRoutes(database));
  return database
    .all<{ id: number; data: string }>(
      `SELECT route AS id, data FROM route_revision WHERE ${NEWEST} ORDER BY saved DESC, route DESC`,
    )
    .flatMap(({ id, data }) => (hidden.has(id) ? [] : [JSON.parse(data) as Route]));
}

/** Puts a route away, or takes it out again; nothing of it is lost. Only inside a write. */
export function hideRoute(database: Database, id: number, hidden: boolean, at: string): void {
  if (!listRoutes(database).some((one) => one.id === id)) throw new Refusal('not found', mainWords.noRoute(id));
  const others = hiddenRoutes(database).filter((one) => one !== id);
  putHiddenRoutes(database, hidden ? [...others, id] : others, at);
}

/** The newest revision of a route, or the one of this number. */
export function readRouteRevision(database: Database, id: number, number?: number): RouteRevision {
  const row =
    number === undefined
      ? database.get<{ number: number; data: string }>(`SELECT number, data FROM route_revision WHERE route = ? AND ${NEWEST}`, [
          id,
        ])
      : database.get<{ number: number; data: string }>('SELECT number, data FROM route_revision WHERE route = ? AND number = ?', [
          id,
          number,
        ]);
  if (!row) throw new Refusal('not found', number === undefined ? mainWords.noRoute(id) : mainWords.noRevision(id, number));
  return { id, revision: row.number, route: JSON.parse(row.data) as Route };
}

/** Every revision of a route, the newest first; a route always has one. */
export function listRevisions(database: Database, id: number): readonly RevisionEntry[] {
  const rows = database.all<RevisionEntry>(
    'SELECT number AS revision, name, steps, saved FROM route_revision WHERE route = ? ORDER BY number DESC',
    [id],
  );
  if (rows.length === 0) throw new Refusal('not found', mainWords.noRoute(id));
  return rows;
}

/** The newest revision of the route that goes by this name, the last changed first; null where none does. */
export function routeCalled(database: Database, name: string): RouteRevision | null {
  const found = listRoutes(database).find((one) => one.name === name);
  return found ? readRouteRevision(database, found.id) : null;
}

/** Keeps a route as a new one with revision 1; gives its number. Only inside a write. */
export function putRoute(database: Database, route: Route, at: string): number {
  const id = database.run('INSERT INTO route (created) VALUES (?)', [at]);
  database.run('INSERT INTO route_revision (route, number, name, steps, data, saved) VALUES (?, 1, ?, ?, ?, ?)', [
    id,
    route.name,
    route.steps.length,
    JSON.stringify(route),
    at,
  ]);
  return id;
}

/** Appends the route's next revision; refused where another window saved one meanwhile. Only inside a write. */
export function putRouteRevision(database: Database, id: number, after: number, route: Route, at: string): number {
  const newest = readRouteRevision(database, id).revision;
  if (newest !== after) throw new Refusal('conflict', mainWords.routeChanged(after, newest));
  database.run('INSERT INTO route_revision (route, number, name, steps, data, saved) VALUES (?, ?, ?, ?, ?, ?)', [
    id,
    after + 1,
    route.name,
    route.steps.length,
    JSON.stringify(route),
    at,
  ]);
  return after + 1;
}
