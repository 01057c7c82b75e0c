import type { Migration } from './migration.ts';

/** The least an order has to come to at a supplier, and what plan an order of a shelf file was for, as it was called there. */
export const suppliers: Migration = {
  version: 15,
  name: 'suppliers',
  statements: [
    `CREATE TABLE supplier (
       -- The name as it is compared: case and blanks aside.
       key TEXT PRIMARY KEY CHECK (key <> ''),
       name TEXT NOT NULL,
       least_order REAL NOT NULL CHECK (least_order > 0 AND least_order <= 1e9)
     ) STRICT`,
    "ALTER TABLE purchase ADD COLUMN for_plan TEXT NOT NULL DEFAULT ''",
  ],
};
