import type { Migration } from './migration.ts';

/**
 * The number of the newest run there ever was, kept apart from the runs: a newest run that is taken out with all its rows
 * leaves nothing else behind, and its number must not be given again.
 */
export const runLast: Migration = {
  version: 14,
  name: 'number of the newest run',
  statements: [
    `CREATE TABLE run_last (
       one INTEGER PRIMARY KEY CHECK (one = 1),
       run INTEGER NOT NULL CHECK (run >= 0)
     ) STRICT`,
    `INSERT INTO run_last (one, run)
     SELECT 1, coalesce(max(run), 0) FROM (SELECT max(id) AS run FROM run UNION ALL SELECT max(run) FROM run_head)`,
    `CREATE TRIGGER run_last_follows AFTER INSERT ON run
     BEGIN UPDATE run_last SET run = max(run, NEW.id); END`,
    `CREATE TRIGGER run_last_only_grows BEFORE UPDATE ON run_last
     BEGIN
       SELECT RAISE(ABORT, 'run_last only grows') WHERE NEW.run < OLD.run;
     END`,
    `CREATE TRIGGER run_last_never_goes BEFORE DELETE ON run_last
     BEGIN SELECT RAISE(ABORT, 'run_last rows are never deleted'); END`,
  ],
};
