import type { Migration } from './migration.ts';

/** Tests, purifications and titrations of a bottle, kept as the ledger is: never changed, never deleted. */
export const bottleTests: Migration = {
  version: 4,
  name: 'tests of bottles',
  statements: [
    `CREATE TABLE bottle_test (
       id INTEGER PRIMARY KEY,
       bottle INTEGER NOT NULL REFERENCES bottle (id),
       -- The test as core/shelf/shelf.ts has it.
       data TEXT NOT NULL CHECK (json_valid(data)),
       at TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M:%fZ', at))
     ) STRICT`,
    'CREATE INDEX bottle_test_by_bottle ON bottle_test (bottle, id)',
    `CREATE TRIGGER bottle_test_never_changes BEFORE UPDATE ON bottle_test
     BEGIN SELECT RAISE(ABORT, 'bottle_test rows are never changed'); END`,
    `CREATE TRIGGER bottle_test_never_goes BEFORE DELETE ON bottle_test
     BEGIN SELECT RAISE(ABORT, 'bottle_test rows are never deleted'); END`,
  ],
};
