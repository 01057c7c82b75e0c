import type { Migration } from './migration.ts';

/** Sessions of the bench: every saved state is kept, the newest counts. */
export const sessions: Migration = {
  version: 7,
  name: 'sessions',
  statements: [
    `CREATE TABLE session (
       id INTEGER PRIMARY KEY,
       plan INTEGER NOT NULL REFERENCES plan (id),
       created TEXT NOT NULL CHECK (created IS strftime('%Y-%m-%dT%H:%M:%fZ', created))
     ) STRICT`,
    'CREATE INDEX session_by_plan ON session (plan)',
    `CREATE TABLE session_state (
       session INTEGER NOT NULL REFERENCES session (id),
       state INTEGER NOT NULL CHECK (state >= 1),
       -- As core/session/bench-session.ts has BenchSession.
       data TEXT NOT NULL CHECK (json_valid(data)),
       archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
       saved TEXT NOT NULL CHECK (saved IS strftime('%Y-%m-%dT%H:%M:%fZ', saved)),
       PRIMARY KEY (session, state)
     ) STRICT`,
    `CREATE TRIGGER session_state_never_changes BEFORE UPDATE ON session_state
     BEGIN SELECT RAISE(ABORT, 'session_state rows are never changed'); END`,
    `CREATE TRIGGER session_state_never_goes BEFORE DELETE ON session_state
     BEGIN SELECT RAISE(ABORT, 'session_state rows are never deleted'); END`,
  ],
};
