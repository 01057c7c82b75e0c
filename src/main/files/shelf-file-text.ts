import { readShelf } from '../../core/shelf/read-shelf.ts';
import { shelfDoubts } from '../../core/shelf/shelf-doubts.ts';
import { twinBottles } from '../../core/shelf/twins.ts';
import { mainWords } from '../../core/words/main-words.ts';
import type { ReferenceRows } from '../../core/reference-rows.ts';
import type { Clock } from '../clock.ts';
import { fileContent } from '../procedures/read-file.ts';
import type { Database } from '../store/database.ts';
import { shelfAsFile, takeInShelf } from '../store/shelf-file.ts';

/** More groups of like bottles than this are not named one by one. */
const MOST_TWINS = 10;

export interface ShelfTaken {
  readonly bottles: number;
  readonly twins: readonly (readonly string[])[];
}

/** Takes the text of a shelf file in, all of it or nothing; refused with every problem it has. */
export async function takeInText(
  text: string,
  database: Database,
  { tables, clock }: { readonly tables: () => ReferenceRows; readonly clock: Clock },
): Promise<ShelfTaken> {
  const shelf = await fileContent(readShelf(text), tables, shelfDoubts);
  const bottles = database.write(() => takeInShelf(database, shelf, mainWords.importedFromFile, clock.now()));
  return { bottles, twins: twinBottles(shelf).slice(0, MOST_TWINS) };
}

/** A shelf of so many bottles is read by programs, not by people: it is written without indents. */
const MANY = 2000;

/** The whole shelf as the text of a shelf file. */
export function shelfFileText(database: Database): string {
  const shelf = shelfAsFile(database);
  return `${JSON.stringify(shelf, null, shelf.bottles.length > MANY ? 0 : 2)}\n`;
}
