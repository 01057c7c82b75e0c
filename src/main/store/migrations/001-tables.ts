import type { Migration } from './migration.ts';

/** Tables whose rows are never changed and never deleted: what happened, happened. */
const APPEND_ONLY = ['ledger', 'route_revision', 'plan_state', 'revision', 'paper'] as const;

const appendOnly = APPEND_ONLY.flatMap((table) => [
  `CREATE TRIGGER ${table}_never_changes BEFORE UPDATE ON ${table}
   BEGIN SELECT RAISE(ABORT, '${table} rows are never changed'); END`,
  `CREATE TRIGGER ${table}_never_goes BEFORE DELETE ON ${table}
   BEGIN SELECT RAISE(ABORT, '${table} rows are never deleted'); END`,
]);

/** A moment as Clock.now() writes it; `IS` makes text that is no moment fail rather than pass as NULL. */
const moment = (column: string): string => `CHECK (${column} IS strftime('%Y-%m-%dT%H:%M:%fZ', ${column}))`;
const date = (column: string): string => `CHECK (${column} IS date(${column}))`;

const shelf = [
  `CREATE TABLE material (
     id INTEGER PRIMARY KEY,
     -- The material as core/matter/material.ts has it; equal materials are one row.
     data TEXT NOT NULL UNIQUE CHECK (json_valid(data)),
     name_key TEXT NOT NULL,
     cas TEXT
   ) STRICT`,
  'CREATE INDEX material_by_cas ON material (cas) WHERE cas IS NOT NULL',
  'CREATE INDEX material_by_name ON material (name_key)',
  `CREATE TABLE bottle (
     id INTEGER PRIMARY KEY,
     -- What is written on the label.
     code TEXT NOT NULL UNIQUE CHECK (length(code) BETWEEN 1 AND 80),
     material INTEGER NOT NULL REFERENCES material (id),
     form TEXT NOT NULL CHECK (json_valid(form)),
     unit TEXT NOT NULL CHECK (unit IN ('g', 'mL')),
     lot TEXT NOT NULL,
     place TEXT NOT NULL,
     supplier TEXT NOT NULL,
     received TEXT ${date('received')},
     opened TEXT ${date('opened')},
     use_by TEXT ${date('use_by')},
     held_back INTEGER NOT NULL CHECK (held_back IN (0, 1)),
     note TEXT NOT NULL,
     -- Sum of the ledger in micrograms or nanolitres, kept by ledger_adds_up and checked at every start.
     amount_left INTEGER NOT NULL DEFAULT 0 CHECK (amount_left BETWEEN 0 AND 1000000000000000)
   ) STRICT`,
  'CREATE INDEX bottle_by_material ON bottle (material)',
  `CREATE TRIGGER bottle_keeps_unit BEFORE UPDATE OF unit ON bottle
   BEGIN SELECT RAISE(ABORT, 'the unit of a bottle never changes'); END`,
  `CREATE TABLE ledger (
     id INTEGER PRIMARY KEY,
     bottle INTEGER NOT NULL REFERENCES bottle (id),
     kind TEXT NOT NULL CHECK (kind IN ('received', 'used', 'made', 'adjusted', 'discarded', 'undone')),
     -- Micrograms or nanolitres, signed.
     change INTEGER NOT NULL CHECK (change <> 0 AND change BETWEEN -1000000000000000 AND 1000000000000000),
     reason TEXT NOT NULL,
     at TEXT NOT NULL ${moment('at')},
     undoes INTEGER UNIQUE,
     UNIQUE (bottle, id),
     FOREIGN KEY (bottle, undoes) REFERENCES ledger (bottle, id),
     CHECK ((kind = 'undone') = (undoes IS NOT NULL)),
     CHECK (kind NOT IN ('received', 'made') OR change > 0),
     CHECK (kind NOT IN ('used', 'discarded') OR change < 0)
   ) STRICT`,
  `CREATE TRIGGER ledger_undoes_exactly BEFORE INSERT ON ledger WHEN NEW.undoes IS NOT NULL
   BEGIN
     SELECT RAISE(ABORT, 'a counter-entry takes back exactly what it undoes')
     WHERE NEW.change IS NOT (SELECT -change FROM ledger WHERE id = NEW.undoes);
   END`,
  `CREATE TRIGGER ledger_adds_up AFTER INSERT ON ledger
   BEGIN UPDATE bottle SET amount_left = amount_left + NEW.change WHERE id = NEW.bottle; END`,
  `CREATE TABLE pack (
     id INTEGER PRIMARY KEY,
     material INTEGER NOT NULL REFERENCES material (id),
     form TEXT CHECK (form IS NULL OR json_valid(form)),
     amount INTEGER NOT NULL CHECK (amount BETWEEN 1 AND 1000000000000000),
     unit TEXT NOT NULL CHECK (unit IN ('g', 'mL')),
     supplier TEXT NOT NULL,
     price REAL CHECK (price IS NULL OR (typeof(price) = 'real' AND price BETWEEN 0 AND 1e9))
   ) STRICT`,
  'CREATE INDEX pack_by_material ON pack (material)',
];

const workbook = [
  // Facts about the workbook itself, e.g. when it was made.
  'CREATE TABLE program (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT',
  `CREATE TABLE route (
     id INTEGER PRIMARY KEY,
     created TEXT NOT NULL ${moment('created')}
   ) STRICT`,
  `CREATE TABLE route_revision (
     route INTEGER NOT NULL REFERENCES route (id),
     number INTEGER NOT NULL CHECK (number >= 1),
     name TEXT NOT NULL,
     steps INTEGER NOT NULL CHECK (steps >= 1),
     data TEXT NOT NULL CHECK (json_valid(data)),
     saved TEXT NOT NULL ${moment('saved')},
     PRIMARY KEY (route, number)
   ) STRICT`,
  `CREATE TABLE plan (
     id INTEGER PRIMARY KEY,
     route INTEGER NOT NULL REFERENCES route (id),
     created TEXT NOT NULL ${moment('created')},
     UNIQUE (id, route)
   ) STRICT`,
  `CREATE TABLE plan_state (
     plan INTEGER NOT NULL,
     state INTEGER NOT NULL CHECK (state >= 1),
     route INTEGER NOT NULL,
     route_revision INTEGER NOT NULL,
     name TEXT NOT NULL,
     ask TEXT NOT NULL CHECK (json_valid(ask)),
     words TEXT NOT NULL,
     saved TEXT NOT NULL ${moment('saved')},
     PRIMARY KEY (plan, state),
     FOREIGN KEY (plan, route) REFERENCES plan (id, route),
     FOREIGN KEY (route, route_revision) REFERENCES route_revision (route, number)
   ) STRICT`,
  `CREATE TRIGGER plan_state_follows_on BEFORE INSERT ON plan_state
   BEGIN
     SELECT RAISE(ABORT, 'a state follows the newest one')
     WHERE NEW.state <> (SELECT coalesce(max(state), 0) + 1 FROM plan_state WHERE plan = NEW.plan);
   END`,
  `CREATE TABLE revision (
     plan INTEGER NOT NULL,
     number INTEGER NOT NULL CHECK (number >= 1),
     state INTEGER NOT NULL,
     cause TEXT NOT NULL CHECK (cause IN ('printed', 'named', 'started')),
     at TEXT NOT NULL ${moment('at')},
     PRIMARY KEY (plan, number),
     UNIQUE (plan, state),
     FOREIGN KEY (plan, state) REFERENCES plan_state (plan, state)
   ) STRICT`,
  `CREATE TABLE paper (
     id INTEGER PRIMARY KEY,
     plan INTEGER NOT NULL,
     revision INTEGER NOT NULL,
     kind TEXT NOT NULL,
     title TEXT NOT NULL,
     data TEXT NOT NULL CHECK (json_valid(data)),
     issued TEXT NOT NULL ${moment('issued')},
     FOREIGN KEY (plan, revision) REFERENCES revision (plan, number)
   ) STRICT`,
  'CREATE INDEX paper_by_plan ON paper (plan)',
  `CREATE TABLE setting (
     name TEXT PRIMARY KEY,
     data TEXT NOT NULL CHECK (json_valid(data)),
     saved TEXT NOT NULL ${moment('saved')}
   ) STRICT`,
];

export const tables: Migration = { version: 1, name: 'tables', statements: [...shelf, ...workbook, ...appendOnly] };
