import type { Migration } from './migration.ts';

const APPEND_ONLY = ['intake', 'intake_bottle', 'intake_line', 'intake_event', 'intake_turned'] as const;

const moment = "CHECK (at IS strftime('%Y-%m-%dT%H:%M:%fZ', at))";

/** Files that were taken onto the shelf: what came of each, so that it can be taken back as one, and brought back again. */
export const intakes: Migration = {
  version: 11,
  name: 'files taken onto the shelf',
  statements: [
    // A bottle that came with a file that was taken back: its ledger stays, it is shown nowhere, and its label is free.
    'ALTER TABLE bottle ADD COLUMN taken_back INTEGER NOT NULL DEFAULT 0 CHECK (taken_back IN (0, 1))',
    `CREATE TABLE intake (
       id INTEGER PRIMARY KEY,
       file TEXT NOT NULL,
       at TEXT NOT NULL ${moment}
     ) STRICT`,
    `CREATE TABLE intake_bottle (
       intake INTEGER NOT NULL REFERENCES intake (id),
       bottle INTEGER NOT NULL UNIQUE REFERENCES bottle (id),
       -- As it stood on the bottle when it came.
       label TEXT NOT NULL
     ) STRICT`,
    'CREATE INDEX intake_bottle_by_intake ON intake_bottle (intake)',
    // What was adjusted on bottles that were there before.
    `CREATE TABLE intake_line (
       intake INTEGER NOT NULL REFERENCES intake (id),
       ledger INTEGER NOT NULL UNIQUE REFERENCES ledger (id)
     ) STRICT`,
    'CREATE INDEX intake_line_by_intake ON intake_line (intake)',
    `CREATE TABLE intake_event (
       id INTEGER PRIMARY KEY,
       intake INTEGER NOT NULL REFERENCES intake (id),
       kind TEXT NOT NULL CHECK (kind IN ('written', 'taken back', 'brought back')),
       at TEXT NOT NULL ${moment},
       -- The entry this event wrote on bottles that were there before.
       edit INTEGER REFERENCES bottle_edit (id),
       -- The newest rows when it was done: what is newer on a bottle was done to it since.
       last_line INTEGER NOT NULL,
       last_edit INTEGER NOT NULL,
       last_test INTEGER NOT NULL
     ) STRICT`,
    'CREATE INDEX intake_event_by_intake ON intake_event (intake)',
    // Which bottles a later event took back or brought back: those alone stand as it left them.
    `CREATE TABLE intake_turned (
       bottle INTEGER NOT NULL REFERENCES bottle (id),
       event INTEGER NOT NULL REFERENCES intake_event (id),
       PRIMARY KEY (bottle, event)
     ) STRICT`,
    ...APPEND_ONLY.flatMap((table) => [
      `CREATE TRIGGER ${table}_never_changes BEFORE UPDATE ON ${table}
       BEGIN SELECT RAISE(ABORT, '${table} rows are never changed'); END`,
      `CREATE TRIGGER ${table}_never_goes BEFORE DELETE ON ${table}
       BEGIN SELECT RAISE(ABORT, '${table} rows are never deleted'); END`,
    ]),
  ],
};
