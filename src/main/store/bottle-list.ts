import type { BottleRow } from '../../core/port/shelf.ts';
import { BOTTLE_COLUMNS, bottleRow, type BottleRecord } from './bottles.ts';
import type { Database, SqlValue } from './database.ts';
import { searchTerms } from './search-text.ts';

/** The index holds runs of three characters; a shorter word is looked for in the text itself. */
const SHORTEST_INDEXED = 3;

/** Each order has an index of exactly these columns (migration "search"). */
const ORDER = {
  name: 'name_order, bottle.id',
  place: 'place_order, bottle.id',
  useBy: 'use_by IS NULL, use_by, bottle.id',
  left: 'amount_left, bottle.id',
} as const;

interface Page {
  readonly search: string;
  readonly from: number;
  readonly count: number;
  readonly sort: keyof typeof ORDER;
}

/** A page of the shelf with the number of all bottles found. */
export function listBottles(database: Database, page: Page): { readonly total: number; readonly rows: readonly BottleRow[] } {
  const { where, values } = condition(searchTerms(page.search));
  const total = database.get<{ count: number }>(`SELECT count(*) AS count FROM bottle ${where}`, values)?.count ?? 0;
  // The page is cut from the narrow index first; only its own rows are then joined, in this order (CROSS JOIN: the
  // planner cannot know how short the page is).
  const rows = database.all<BottleRecord>(
    `SELECT ${BOTTLE_COLUMNS}
     FROM (SELECT id AS found FROM bottle ${where} ORDER BY ${ORDER[page.sort]} LIMIT ? OFFSET ?)
     CROSS JOIN bottle ON bottle.id = found CROSS JOIN material ON material.id = bottle.material ORDER BY ${ORDER[page.sort]}`,
    [...values, page.count, page.from],
  );
  return { total, rows: rows.map(bottleRow) };
}

/** Every term must be found somewhere in the bottle's text. Later kinds of filter join here. */
function condition(terms: readonly string[]): { readonly where: string; readonly values: readonly SqlValue[] } {
  const indexed = terms.filter((term) => [...term].length >= SHORTEST_INDEXED);
  const short = terms.filter((term) => [...term].length < SHORTEST_INDEXED);
  const parts: string[] = [];
  const values: SqlValue[] = [];
  if (indexed.length > 0) {
    parts.push('bottle.id IN (SELECT rowid FROM bottle_search WHERE bottle_search MATCH ?)');
    values.push(indexed.map((term) => `"${term.replaceAll('"', '""')}"`).join(' AND '));
  }
  for (const term of short) {
    parts.push('instr(words, ?) > 0');
    values.push(term);
  }
  return { where: parts.length === 0 ? '' : `WHERE ${parts.join(' AND ')}`, values };
}
