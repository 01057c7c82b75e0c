import type { SessionState } from '../../core/port/sessions.ts';
import type { BenchSession } from '../../core/session/bench-session.ts';
import { mainWords } from '../../core/words/main-words.ts';
import type { Database } from './database.ts';
import { readPlan } from './plans.ts';
import { Refusal } from './refusal.ts';

const NEWEST = `SELECT session.id AS id, plan, state, archived, saved, data
  FROM session JOIN session_state ON session_state.session = session.id
  WHERE state = (SELECT max(state) FROM session_state AS other WHERE other.session = session.id)`;

interface SessionRow {
  readonly id: number;
  readonly plan: number;
  readonly state: number;
  readonly archived: number;
  readonly saved: string;
  readonly data: string;
}

/** Sessions of a plan at their newest state, archived ones too; the newest day first. */
export function listSessions(database: Database, plan: number): readonly SessionState[] {
  readPlan(database, plan);
  return database
    .all<SessionRow>(`${NEWEST} AND plan = ? ORDER BY json_extract(data, '$.date') DESC, session.id DESC`, [plan])
    .map(sessionOf);
}

function sessionOf({ archived, data, ...row }: SessionRow): SessionState {
  return { ...row, archived: archived === 1, session: JSON.parse(data) as BenchSession };
}

/** Keeps a new session of a plan. Only inside a write. */
export function createSession(database: Database, plan: number, session: BenchSession, at: string): SessionState {
  readPlan(database, plan);
  const id = database.run('INSERT INTO session (plan, created) VALUES (?, ?)', [plan, at]);
  append(database, id, 1, session, false, at);
  return readSession(database, id);
}

interface NewState {
  readonly id: number;
  readonly after: number;
  readonly session: BenchSession;
  readonly archived: boolean;
}

/** Appends a state after the one the person saw; refused where that is no longer the newest. Only inside a write. */
export function saveSession(database: Database, { id, after, session, archived }: NewState, at: string): SessionState {
  const newest = readSession(database, id);
  if (newest.state !== after) throw new Refusal('conflict', mainWords.sessionMoved(newest.state));
  append(database, id, after + 1, session, archived, at);
  return readSession(database, id);
}

function append(database: Database, id: number, state: number, session: BenchSession, archived: boolean, at: string): void {
  database.run('INSERT INTO session_state (session, state, data, archived, saved) VALUES (?, ?, ?, ?, ?)', [
    id,
    state,
    JSON.stringify(session),
    archived ? 1 : 0,
    at,
  ]);
}

function readSession(database: Database, id: number): SessionState {
  const row = database.get<SessionRow>(`${NEWEST} AND session.id = ?`, [id]);
  if (!row) throw new Refusal('not found', mainWords.noSession(id));
  return sessionOf(row);
}
