import type { Migration } from './migration.ts';

/**
 * A paper may belong to no plan: a solution is made up for the shelf as well. SQLite cannot take NOT NULL off a column,
 * so the table is made anew with every row it had; nothing refers to it.
 */
export const papersWithoutPlan: Migration = {
  version: 3,
  name: 'papers without a plan',
  statements: [
    `CREATE TABLE paper_next (
       id INTEGER PRIMARY KEY,
       plan INTEGER,
       revision INTEGER,
       kind TEXT NOT NULL,
       title TEXT NOT NULL,
       data TEXT NOT NULL CHECK (json_valid(data)),
       issued TEXT NOT NULL CHECK (issued IS strftime('%Y-%m-%dT%H:%M:%fZ', issued)),
       CHECK ((plan IS NULL) = (revision IS NULL)),
       FOREIGN KEY (plan, revision) REFERENCES revision (plan, number)
     ) STRICT`,
    `INSERT INTO paper_next (id, plan, revision, kind, title, data, issued)
     SELECT id, plan, revision, kind, title, data, issued FROM paper`,
    // Takes its index and its two triggers with it.
    'DROP TABLE paper',
    'ALTER TABLE paper_next RENAME TO paper',
    'CREATE INDEX paper_by_plan ON paper (plan)',
    `CREATE TRIGGER paper_never_changes BEFORE UPDATE ON paper
     BEGIN SELECT RAISE(ABORT, 'paper rows are never changed'); END`,
    `CREATE TRIGGER paper_never_goes BEFORE DELETE ON paper
     BEGIN SELECT RAISE(ABORT, 'paper rows are never deleted'); END`,
  ],
};
