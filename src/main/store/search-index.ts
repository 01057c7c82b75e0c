import type { Database } from './database.ts';

/** From here on it is quicker to build the index anew than to add to it bottle by bottle. */
const MANY_BOTTLES = 2000;

/**
 * Runs work that adds so many bottles; where they are many, the search index is built once after them instead of with
 * each. All of it happens inside the same write, so that the index never lags behind the shelf. Only inside a write.
 */
export function indexedAtOnce(database: Database, bottles: number, work: () => void): void {
  const trigger = database.get<{ sql: string }>("SELECT sql FROM sqlite_schema WHERE name = 'bottle_search_adds'");
  if (bottles < MANY_BOTTLES || !trigger) return work();
  database.run('DROP TRIGGER bottle_search_adds');
  work();
  database.run("INSERT INTO bottle_search (bottle_search) VALUES ('rebuild')");
  database.run(trigger.sql);
}
