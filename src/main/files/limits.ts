import { shelfImportWords } from '../../core/words/shelf-import-words.ts';
import { Refusal } from '../store/refusal.ts';

/** What one file may hold: twice the shelf that must be quick, and fields far beyond any note. */
export const MOST_ROWS = 200_000;
export const LONGEST_FIELD = 400_000;
/** A hundred thousand bottles with everything of them are two million cells. */
export const MOST_CELLS = 4_000_000;
/** Bytes all parts of a workbook may have together when they are unpacked. */
export const MOST_UNPACKED = 300_000_000;

/** Long work in slices: says how far it is, and stops where the person has said so. */
export interface Watch {
  /** Throws where the work is to stop. */
  readonly step: (done: number, of: number) => void;
}

/** For work that nobody watches. */
export const UNWATCHED: Watch = { step: () => {} };

/** The refusal of a file as a whole. */
export function refuse(words: string): never {
  throw new Refusal('refused', words);
}

export const fileWords = shelfImportWords.file;
