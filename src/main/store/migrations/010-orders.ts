import type { Migration } from './migration.ts';

const APPEND_ONLY = ['purchase', 'purchase_event', 'purchase_bottle'] as const;

/** Lead time and least number of a pack; orders, what came of them, and the bottles they became. */
export const orders: Migration = {
  version: 10,
  name: 'orders',
  statements: [
    'ALTER TABLE pack ADD COLUMN lead_days INTEGER CHECK (lead_days BETWEEN 0 AND 3650)',
    'ALTER TABLE pack ADD COLUMN minimum INTEGER NOT NULL DEFAULT 1 CHECK (minimum BETWEEN 1 AND 10000)',
    `CREATE TABLE purchase (
       id INTEGER PRIMARY KEY,
       plan INTEGER REFERENCES plan (id),
       material INTEGER NOT NULL REFERENCES material (id),
       -- The pack as it was when it was ordered, as core/port/buy.ts has PackOffer.
       pack TEXT NOT NULL CHECK (json_valid(pack)),
       count INTEGER NOT NULL CHECK (count BETWEEN 1 AND 10000),
       note TEXT NOT NULL,
       at TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M:%fZ', at))
     ) STRICT`,
    `CREATE TABLE purchase_event (
       id INTEGER PRIMARY KEY,
       purchase INTEGER NOT NULL REFERENCES purchase (id),
       kind TEXT NOT NULL CHECK (kind IN ('received', 'cancelled')),
       count INTEGER NOT NULL CHECK (count >= 1),
       reason TEXT NOT NULL,
       at TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M:%fZ', at))
     ) STRICT`,
    'CREATE INDEX purchase_event_by_purchase ON purchase_event (purchase)',
    `CREATE TRIGGER purchase_never_exceeded BEFORE INSERT ON purchase_event
     BEGIN
       SELECT RAISE(ABORT, 'no more comes of an order than was ordered')
       WHERE (SELECT count FROM purchase WHERE id = NEW.purchase) <
         NEW.count + (SELECT coalesce(sum(count), 0) FROM purchase_event WHERE purchase = NEW.purchase);
     END`,
    `CREATE TABLE purchase_bottle (
       event INTEGER NOT NULL REFERENCES purchase_event (id),
       bottle INTEGER NOT NULL UNIQUE REFERENCES bottle (id)
     ) STRICT`,
    'CREATE INDEX purchase_bottle_by_event ON purchase_bottle (event)',
    ...APPEND_ONLY.flatMap((table) => [
      `CREATE TRIGGER ${table}_never_changes BEFORE UPDATE ON ${table}
       BEGIN SELECT RAISE(ABORT, '${table} rows are never changed'); END`,
      `CREATE TRIGGER ${table}_never_goes BEFORE DELETE ON ${table}
       BEGIN SELECT RAISE(ABORT, '${table} rows are never deleted'); END`,
    ]),
  ],
};
