import type { Migration } from './migration.ts';

/** That a person has read a caution of a plan, as it stood then. */
export const acknowledgements: Migration = {
  version: 8,
  name: 'acknowledgements',
  statements: [
    `CREATE TABLE acknowledgement (
       id INTEGER PRIMARY KEY,
       plan INTEGER NOT NULL REFERENCES plan (id),
       -- As core/caution/acknowledgement.ts has Acknowledgement.
       data TEXT NOT NULL CHECK (json_valid(data)),
       at TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M:%fZ', at))
     ) STRICT`,
    'CREATE INDEX acknowledgement_by_plan ON acknowledgement (plan, id)',
    `CREATE TRIGGER acknowledgement_never_changes BEFORE UPDATE ON acknowledgement
     BEGIN SELECT RAISE(ABORT, 'acknowledgement rows are never changed'); END`,
    `CREATE TRIGGER acknowledgement_never_goes BEFORE DELETE ON acknowledgement
     BEGIN SELECT RAISE(ABORT, 'acknowledgement rows are never deleted'); END`,
  ],
};
