import type { PlanEntry, PlanState } from '../../core/port/workbook.ts';
import type { Ask } from '../../core/plan/ask.ts';
import { mainWords } from '../../core/words/main-words.ts';
import type { Database } from './database.ts';
import { Refusal } from './refusal.ts';
import { readRouteRevision } from './routes.ts';

const NEWEST = 'state = (SELECT max(state) FROM plan_state AS other WHERE other.plan = plan_state.plan)';

/** Every plan at its newest state, the last changed first. */
export function listPlans(database: Database): readonly PlanEntry[] {
  return database.all<PlanEntry>(
    `SELECT plan AS id, name, route AS routeId, saved AS changed
     FROM plan_state WHERE ${NEWEST} ORDER BY saved DESC, plan DESC`,
  );
}

/** When a plan of each route was last changed, by the route's number. */
export function plannedLast(database: Database): ReadonlyMap<number, string> {
  const rows = database.all<{ route: number; last: string }>(
    `SELECT route, max(saved) AS last FROM plan_state WHERE ${NEWEST} GROUP BY route`,
  );
  return new Map(rows.map((row) => [row.route, row.last]));
}

/** A plan at its newest state. */
export function readPlan(database: Database, id: number): PlanState {
  const row = database.get<{
    state: number;
    route: number;
    route_revision: number;
    ask: string;
    saved: string;
    revision: number;
  }>(
    `SELECT state, route, route_revision, ask, saved,
       (SELECT coalesce(max(number), 0) FROM revision WHERE revision.plan = plan_state.plan) AS revision
     FROM plan_state WHERE plan = ? AND ${NEWEST}`,
    [id],
  );
  if (!row) throw new Refusal('not found', mainWords.noPlan(id));
  return {
    id,
    routeId: row.route,
    routeRevision: row.route_revision,
    ask: JSON.parse(row.ask) as Ask,
    state: row.state,
    revision: row.revision,
    saved: row.saved,
  };
}

/** Makes a plan on the newest revision of a route. Only inside a write. */
export function putPlan(database: Database, routeId: number, ask: Ask, at: string): PlanState {
  const { revision } = readRouteRevision(database, routeId);
  const id = database.run('INSERT INTO plan (route, created) VALUES (?, ?)', [routeId, at]);
  appendState(database, { id, routeId, routeRevision: revision, state: 1, ask, words: mainWords.planMade, at });
  return readPlan(database, id);
}

/** Appends a state after the one the person saw; refused where that is no longer the newest. Only inside a write. */
export function savePlan(database: Database, id: number, after: number, ask: Ask, words: string, at: string): number {
  const newest = readPlan(database, id);
  if (newest.state !== after) throw new Refusal('conflict', mainWords.planMoved(newest.state));
  const { routeId, routeRevision } = newest;
  appendState(database, { id, routeId, routeRevision, state: after + 1, ask, words, at });
  return after + 1;
}

interface NewState {
  readonly id: number;
  readonly routeId: number;
  readonly routeRevision: number;
  readonly state: number;
  readonly ask: Ask;
  readonly words: string;
  readonly at: string;
}

function appendState(database: Database, { id, routeId, routeRevision, state, ask, words, at }: NewState): void {
  database.run(
    `INSERT INTO plan_state (plan, state, route, route_revision, name, ask, words, saved) VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
    [id, state, routeId, routeRevision, ask.name, JSON.stringify(ask), words, at],
  );
}

/** Every saved state of a plan, newest first. */
export function listStates(
  database: Database,
  id: number,
): readonly { readonly state: number; readonly words: string; readonly saved: string }[] {
  readPlan(database, id);
  return database.all('SELECT state, words, saved FROM plan_state WHERE plan = ? ORDER BY state DESC', [id]);
}

/** The saved state that a revision of a plan is the number of. */
export function stateOfRevision(database: Database, id: number, revision: number): number {
  const found = database.get<{ state: number }>('SELECT state FROM revision WHERE plan = ? AND number = ?', [id, revision]);
  if (!found) throw new Refusal('not found', mainWords.noPlanRevision(revision));
  return found.state;
}

export type RevisionCause = 'printed' | 'named' | 'started';

/** The revision number of a state, given now if it had none. Only inside a write. */
export function numberState(database: Database, id: number, state: number, cause: RevisionCause, at: string): number {
  readPlan(database, id);
  const known = database.get<{ number: number }>('SELECT number FROM revision WHERE plan = ? AND state = ?', [id, state]);
  if (known) return known.number;
  if (!database.get('SELECT 1 FROM plan_state WHERE plan = ? AND state = ?', [id, state])) {
    throw new Refusal('not found', mainWords.noState(state));
  }
  const newest = database.get<{ number: number }>('SELECT coalesce(max(number), 0) AS number FROM revision WHERE plan = ?', [id]);
  const number = (newest?.number ?? 0) + 1;
  database.run('INSERT INTO revision (plan, number, state, cause, at) VALUES (?, ?, ?, ?, ?)', [id, number, state, cause, at]);
  return number;
}
