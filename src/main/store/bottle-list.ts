import type { Meant } from '../../core/matter/meant-materials.ts';
import type { BottleRow } from '../../core/port/shelf.ts';
import { BOTTLE_COLUMNS, bottleRow, type BottleRecord } from './bottles.ts';
import type { Database, SqlValue } from './database.ts';
import { foldText, searchTerms } from './search-text.ts';

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
export function listBottles(
  database: Database,
  page: Page,
  meant: (typed: string) => Meant,
): { readonly total: number; readonly rows: readonly BottleRow[] } {
  const { where, values } = condition(page.search, meant);
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

/** Every term must be found: in the bottle's text, or as another name, formula or number of what it holds. */
function condition(search: string, meant: (typed: string) => Meant): Condition {
  const words = searchTerms(search).map((term) => ({ text: foldText(term), held: holding(meant(term)) }));
  // Words that mean no material are looked up in the index together: a frequent one beside a rare one costs nothing.
  const plain = inText(words.flatMap(({ text, held }) => (held ? [] : [text])));
  const terms = [...plain, ...words.flatMap(({ text, held }) => (held ? [either([...inText([text]), held])] : []))];
  const each = { where: terms.map((one) => one.where).join(' AND '), values: terms.flatMap((one) => one.values) };
  // "Oil of vitriol" means something only as a whole.
  const found = words.length > 1 ? either([each, holding(meant(search))]) : each;
  return { where: found.where === '' ? '' : `WHERE ${found.where}`, values: found.values };
}

interface Condition {
  readonly where: string;
  readonly values: readonly SqlValue[];
}

function either(parts: readonly (Condition | null)[]): Condition {
  const known = parts.filter((part) => part !== null);
  return { where: `(${known.map((part) => part.where).join(' OR ')})`, values: known.flatMap((part) => part.values) };
}

function inText(terms: readonly string[]): readonly Condition[] {
  const indexed = terms.filter((term) => [...term].length >= SHORTEST_INDEXED);
  const short = terms.filter((term) => [...term].length < SHORTEST_INDEXED);
  return [
    ...(indexed.length === 0
      ? []
      : [
          {
            where: 'bottle.id IN (SELECT rowid FROM bottle_search WHERE bottle_search MATCH ?)',
            values: [indexed.map((term) => `"${term.replaceAll('"', '""')}"`).join(' AND ')],
          },
        ]),
    ...short.map((term) => ({ where: 'instr(words, ?) > 0', values: [term] })),
  ];
}

/** Bottles of these materials: told by CAS number, or by name where a bottle's material carries none. */
function holding({ cas, names }: Meant): Condition | null {
  if (cas.length === 0) return null;
  return {
    where: `bottle.material IN (SELECT id FROM material WHERE cas IN (SELECT value FROM json_each(?))
      OR (cas IS NULL AND name_key IN (SELECT value FROM json_each(?))))`,
    values: [JSON.stringify(cas), JSON.stringify(names)],
  };
}
