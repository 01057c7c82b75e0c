import type { Migration } from './migration.ts';

const APPEND_ONLY = ['bottle_edit', 'bottle_edit_line', 'correction', 'split'] as const;

const moment = "CHECK (at IS strftime('%Y-%m-%dT%H:%M:%fZ', at))";

/**
 * What is done with bottles beyond their own ledger line: changes of what is written on them, one entry for many bottles;
 * one bottle in the place of another; one parted in two. The shelf is searched in memory from here on
 * (core/shelf/find), so its text index and the orders beside it go.
 */
export const shelfActs: Migration = {
  version: 6,
  name: 'acts on bottles',
  statements: [
    'DROP TRIGGER bottle_search_adds',
    'DROP TRIGGER bottle_search_changes',
    'DROP TRIGGER bottle_search_drops',
    'DROP TABLE bottle_search',
    'DROP INDEX bottle_by_name_order',
    'DROP INDEX bottle_by_place_order',
    'DROP INDEX bottle_by_use_by',
    'DROP INDEX bottle_by_amount_left',
    'ALTER TABLE bottle DROP COLUMN words',
    'ALTER TABLE bottle DROP COLUMN name_order',
    'ALTER TABLE bottle DROP COLUMN place_order',
    // Mass of the empty bottle with its cap, in micrograms.
    'ALTER TABLE bottle ADD COLUMN tare INTEGER CHECK (tare IS NULL OR tare BETWEEN 1 AND 1000000000000000)',
    // % w/w of water found in what it holds.
    "ALTER TABLE bottle ADD COLUMN water REAL CHECK (water IS NULL OR (typeof(water) = 'real' AND water BETWEEN 0 AND 100))",
    "ALTER TABLE bottle ADD COLUMN price REAL CHECK (price IS NULL OR (typeof(price) = 'real' AND price BETWEEN 0 AND 1e9))",
    `CREATE TABLE bottle_edit (
       id INTEGER PRIMARY KEY,
       at TEXT NOT NULL ${moment},
       undoes INTEGER UNIQUE REFERENCES bottle_edit (id)
     ) STRICT`,
    `CREATE TABLE bottle_edit_line (
       edit INTEGER NOT NULL REFERENCES bottle_edit (id),
       bottle INTEGER NOT NULL REFERENCES bottle (id),
       -- The changed fields alone, as core/shelf/written.ts has them.
       before TEXT NOT NULL CHECK (json_valid(before)),
       after TEXT NOT NULL CHECK (json_valid(after)),
       PRIMARY KEY (edit, bottle)
     ) STRICT`,
    'CREATE INDEX bottle_edit_line_by_bottle ON bottle_edit_line (bottle, edit)',
    // The line that emptied a bottle entered wrong, and the one that received the right one in its place.
    `CREATE TABLE correction (
       emptied INTEGER NOT NULL UNIQUE REFERENCES ledger (id),
       came INTEGER NOT NULL UNIQUE REFERENCES ledger (id),
       CHECK (emptied <> came)
     ) STRICT`,
    // The line that took from a bottle, and the one that received it in another.
    `CREATE TABLE split (
       taken INTEGER NOT NULL UNIQUE REFERENCES ledger (id),
       came INTEGER NOT NULL UNIQUE REFERENCES ledger (id),
       CHECK (taken <> came)
     ) STRICT`,
    ...APPEND_ONLY.flatMap((table) => [
      `CREATE TRIGGER ${table}_never_changes BEFORE UPDATE ON ${table}
       BEGIN SELECT RAISE(ABORT, '${table} rows are never changed'); END`,
      `CREATE TRIGGER ${table}_never_goes BEFORE DELETE ON ${table}
       BEGIN SELECT RAISE(ABORT, '${table} rows are never deleted'); END`,
    ]),
  ],
};
