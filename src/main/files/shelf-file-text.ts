import { readShelf } from '../../core/shelf/read-shelf.ts';
import { shelfDoubts } from '../../core/shelf/shelf-doubts.ts';
import { twinBottles } from '../../core/shelf/twins.ts';
import { mainWords } from '../../core/words/main-words.ts';
import type { ReferenceRows } from '../../core/reference-rows.ts';
import type { Clock } from '../clock.ts';
import { fileContent } from '../procedures/read-file.ts';
import type { Database } from '../store/database.ts';
import { recordIntake } from '../store/intakes.ts';
import { shelfAsFile, takeInShelf } from '../store/shelf-file.ts';

/** More groups of like bottles than this are not named one by one. */
const MOST_TWINS = 10;

export interface ShelfTaken {
  /** Number of the intake: it is taken back by it. */
  readonly intake: number;
  readonly bottles: number;
  readonly twins: readonly (readonly string[])[];
}

export interface ShelfText {
  /** What the file is called. */
  readonly file: string;
  readonly text: string;
}

/** Takes the text of a shelf file in, all of it or nothing; refused with every problem it has. */
export async function takeInText(
  { file, text }: ShelfText,
  database: Database,
  { tables, clock }: { readonly tables: () => ReferenceRows; readonly clock: Clock },
): Promise<ShelfTaken> {
  const shelf = await fileContent(readShelf(text), tables, shelfDoubts);
  const { intake, bottles } = database.write(() => {
    const at = clock.now();
    const rows = takeInShelf(database, shelf, mainWords.importedFromFile, at);
    return { intake: recordIntake(database, { file, at, edit: null, bottles: rows, lines: [] }), bottles: rows.length };
  });
  return { intake, bottles, twins: twinBottles(shelf).slice(0, MOST_TWINS) };
}

/** A shelf of so many bottles is read by programs, not by people: it is written without indents. */
const MANY = 2000;

/** The whole shelf as the text of a shelf file. */
export function shelfFileText(database: Database): string {
  const shelf = shelfAsFile(database);
  return `${JSON.stringify(shelf, null, shelf.bottles.length > MANY ? 0 : 2)}\n`;
}
