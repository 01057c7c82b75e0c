import type { Migration } from './migration.ts';

/**
 * What was taken of a bottle to make what is in another, as a tie from line to line, so that a recalled lot is found in
 * what was made from it. Until now only the words of the line said so: those become ties.
 */
export const madeInto: Migration = {
  version: 13,
  name: 'what a bottle was made into',
  statements: [
    `CREATE TABLE made_into (
       taken INTEGER PRIMARY KEY REFERENCES ledger (id),
       came INTEGER NOT NULL REFERENCES ledger (id),
       CHECK (taken <> came)
     ) STRICT`,
    `INSERT INTO made_into (taken, came)
     SELECT line.id, (SELECT min(id) FROM ledger AS first WHERE first.bottle = made.id)
     FROM ledger AS line CROSS JOIN bottle AS made ON made.code = substr(line.reason, length('made into ') + 1)
     WHERE line.kind = 'used' AND line.reason LIKE 'made into %' AND line.bottle <> made.id
       AND EXISTS (SELECT 1 FROM ledger AS first WHERE first.bottle = made.id)`,
    `CREATE TRIGGER made_into_never_changes BEFORE UPDATE ON made_into
     BEGIN SELECT RAISE(ABORT, 'made_into rows are never changed'); END`,
    `CREATE TRIGGER made_into_never_goes BEFORE DELETE ON made_into
     BEGIN SELECT RAISE(ABORT, 'made_into rows are never deleted'); END`,
  ],
};
