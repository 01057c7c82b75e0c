import { foldLabel } from '../../core/code/label-meant.ts';
import { ownHits } from '../../core/shelf/find/own-text.ts';
import { foldText } from '../../core/shelf/find/search-text.ts';
import type { Database } from './database.ts';
import { shelfColumns } from './shelf-index.ts';

/** Rows of the bottles whose label or lot is a text, as it is searched for on the shelf. Never inside a write. */
export function rowsCalled(database: Database, text: string): readonly number[] {
  const asked = foldText(text);
  if (asked === '') return [];
  const columns = shelfColumns(database);
  const hits = ownHits(columns, asked);
  return hits ? columns.row.filter((_, at) => hits[at] === 1 && columns.own[at]?.split('\n').includes(asked)) : [];
}

/** Labels that differ from a typed one in nothing but capitals, blanks and how accents are put together. Never inside a write. */
export function labelsLike(database: Database, typed: string): readonly string[] {
  const folded = foldLabel(typed);
  return database
    .all<{ code: string }>('SELECT code FROM json_each(?) CROSS JOIN bottle ON bottle.id = json_each.value ORDER BY bottle.id', [
      JSON.stringify(rowsCalled(database, typed)),
    ])
    .map(({ code }) => code)
    .filter((code) => foldLabel(code) === folded);
}
