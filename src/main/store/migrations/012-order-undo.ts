import type { Migration } from './migration.ts';

/** What came of an order, or would not come, taken back: a row against the event, so that its packs are open again. */
export const orderUndo: Migration = {
  version: 12,
  name: 'orders taken back',
  statements: [
    `CREATE TABLE purchase_undo (
       event INTEGER PRIMARY KEY REFERENCES purchase_event (id),
       at TEXT NOT NULL CHECK (at IS strftime('%Y-%m-%dT%H:%M:%fZ', at))
     ) STRICT`,
    `CREATE TRIGGER purchase_undo_never_changes BEFORE UPDATE ON purchase_undo
     BEGIN SELECT RAISE(ABORT, 'purchase_undo rows are never changed'); END`,
    `CREATE TRIGGER purchase_undo_never_goes BEFORE DELETE ON purchase_undo
     BEGIN SELECT RAISE(ABORT, 'purchase_undo rows are never deleted'); END`,
    'DROP TRIGGER purchase_never_exceeded',
    `CREATE TRIGGER purchase_never_exceeded BEFORE INSERT ON purchase_event
     BEGIN
       SELECT RAISE(ABORT, 'no more comes of an order than was ordered')
       WHERE (SELECT count FROM purchase WHERE id = NEW.purchase) <
         NEW.count + (SELECT coalesce(sum(count), 0) FROM purchase_event
           WHERE purchase = NEW.purchase AND id NOT IN (SELECT event FROM purchase_undo));
     END`,
  ],
};
