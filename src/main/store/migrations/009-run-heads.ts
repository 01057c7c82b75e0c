import type { Migration } from './migration.ts';

/**
 * How many entries each run's record has, and the link of the newest: kept beside the entries, so that a record that is
 * cut at its end is noticed. The entry itself writes it; it only ever grows, by one.
 */
export const runHeads: Migration = {
  version: 9,
  name: 'heads of runs',
  statements: [
    `CREATE TABLE run_head (
       run INTEGER PRIMARY KEY REFERENCES run (id),
       entries INTEGER NOT NULL CHECK (entries >= 1),
       link TEXT NOT NULL CHECK (length(link) = 64)
     ) STRICT`,
    `INSERT INTO run_head (run, entries, link)
     SELECT run, number, link FROM run_entry
     WHERE number = (SELECT max(number) FROM run_entry AS other WHERE other.run = run_entry.run)`,
    `CREATE TRIGGER run_head_follows AFTER INSERT ON run_entry
     BEGIN
       INSERT INTO run_head (run, entries, link) VALUES (NEW.run, NEW.number, NEW.link)
       ON CONFLICT (run) DO UPDATE SET entries = excluded.entries, link = excluded.link;
     END`,
    `CREATE TRIGGER run_head_only_grows BEFORE UPDATE ON run_head
     BEGIN
       SELECT RAISE(ABORT, 'run_head rows only grow')
       WHERE NEW.run <> OLD.run OR NEW.entries <> OLD.entries + 1;
     END`,
    `CREATE TRIGGER run_head_never_goes BEFORE DELETE ON run_head
     BEGIN SELECT RAISE(ABORT, 'run_head rows are never deleted'); END`,
  ],
};
