import type { Migration } from './migration.ts';

const APPEND_ONLY = ['run', 'run_entry', 'run_ledger'] as const;

/** Runs: what each was started with, its entries chained by hash, and the ledger lines each entry wrote. */
export const runs: Migration = {
  version: 5,
  name: 'runs',
  statements: [
    `CREATE TABLE run (
       id INTEGER PRIMARY KEY,
       plan INTEGER NOT NULL,
       revision INTEGER NOT NULL,
       -- As core/port/runs.ts has RunStart.
       data TEXT NOT NULL CHECK (json_valid(data)),
       link TEXT NOT NULL CHECK (length(link) = 64),
       FOREIGN KEY (plan, revision) REFERENCES revision (plan, number)
     ) STRICT`,
    'CREATE INDEX run_by_plan ON run (plan)',
    `CREATE TABLE run_entry (
       run INTEGER NOT NULL REFERENCES run (id),
       number INTEGER NOT NULL CHECK (number >= 1),
       at TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M:%fZ', at)),
       -- As core/run/entry.ts has RunEntry.
       data TEXT NOT NULL CHECK (json_valid(data)),
       -- Hash of the link before and of this entry.
       link TEXT NOT NULL CHECK (length(link) = 64),
       PRIMARY KEY (run, number)
     ) STRICT`,
    `CREATE TRIGGER run_entry_follows_on BEFORE INSERT ON run_entry
     BEGIN
       SELECT RAISE(ABORT, 'an entry follows the newest one')
       WHERE NEW.number <> (SELECT coalesce(max(number), 0) + 1 FROM run_entry WHERE run = NEW.run);
     END`,
    `CREATE TABLE run_ledger (
       run INTEGER NOT NULL,
       number INTEGER NOT NULL,
       ledger INTEGER NOT NULL UNIQUE REFERENCES ledger (id),
       FOREIGN KEY (run, number) REFERENCES run_entry (run, number)
     ) STRICT`,
    'CREATE INDEX run_ledger_by_entry ON run_ledger (run, number)',
    ...APPEND_ONLY.flatMap((table) => [
      `CREATE TRIGGER ${table}_never_changes BEFORE UPDATE ON ${table}
       BEGIN SELECT RAISE(ABORT, '${table} rows are never changed'); END`,
      `CREATE TRIGGER ${table}_never_goes BEFORE DELETE ON ${table}
       BEGIN SELECT RAISE(ABORT, '${table} rows are never deleted'); END`,
    ]),
  ],
};
