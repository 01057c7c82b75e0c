import type { Migration } from './migration.ts';

/**
 * Search over the shelf and quick ordering. The index holds every run of three characters, so that any part of a
 * name, formula, CAS number, lot or place is found in 100,000 bottles without reading them all.
 */
export const search: Migration = {
  version: 2,
  name: 'search',
  statements: [
    "ALTER TABLE bottle ADD COLUMN words TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE bottle ADD COLUMN name_order TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE bottle ADD COLUMN place_order TEXT NOT NULL DEFAULT ''",
    `UPDATE bottle SET
       words = search_words((SELECT data FROM material WHERE id = bottle.material), code, lot, place, supplier),
       name_order = order_key((SELECT data ->> 'name' FROM material WHERE id = bottle.material)),
       place_order = order_key(place)`,
    'CREATE INDEX bottle_by_name_order ON bottle (name_order, id)',
    'CREATE INDEX bottle_by_place_order ON bottle (place_order, id)',
    'CREATE INDEX bottle_by_use_by ON bottle (use_by IS NULL, use_by, id)',
    'CREATE INDEX bottle_by_amount_left ON bottle (amount_left, id)',
    `CREATE VIRTUAL TABLE bottle_search USING fts5 (
       words, content = 'bottle', content_rowid = 'id', tokenize = 'trigram case_sensitive 1'
     )`,
    "INSERT INTO bottle_search (bottle_search) VALUES ('rebuild')",
    `CREATE TRIGGER bottle_search_adds AFTER INSERT ON bottle
     BEGIN INSERT INTO bottle_search (rowid, words) VALUES (NEW.id, NEW.words); END`,
    `CREATE TRIGGER bottle_search_changes AFTER UPDATE OF words ON bottle
     BEGIN
       INSERT INTO bottle_search (bottle_search, rowid, words) VALUES ('delete', OLD.id, OLD.words);
       INSERT INTO bottle_search (rowid, words) VALUES (NEW.id, NEW.words);
     END`,
    `CREATE TRIGGER bottle_search_drops AFTER DELETE ON bottle
     BEGIN INSERT INTO bottle_search (bottle_search, rowid, words) VALUES ('delete', OLD.id, OLD.words); END`,
  ],
};
