import { signal } from '@preact/signals';
import type { ProcedureInput } from '../../../core/port/port.ts';
import type { FileProblem } from '../../../core/port/result.ts';
import type { BottleRow } from '../../../core/port/shelf.ts';
import type { Filter } from '../../../core/shelf/find/filters.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { call } from '../../state/connection.ts';

export type Sort = ProcedureInput<'shelf.list'>['sort'];

/** What stands beside the list. */
export type Panel =
  | { readonly show: 'nothing' }
  | { readonly show: 'bottle'; readonly id: string }
  | { readonly show: 'new' }
  /** Place and dates of the bottles chosen. */
  | { readonly show: 'many' }
  /** Labels of everything found. */
  | { readonly show: 'labels' }
  /** Files that were taken in, to be taken back. */
  | { readonly show: 'intakes' }
  /** Takes the whole place; what is being made is in make-solution-draft.ts. */
  | { readonly show: 'solution' }
  /** Takes the whole place: a file on its way to the shelf, in import/import-store.ts. */
  | { readonly show: 'import' }
  | { readonly show: 'problems'; readonly file: string; readonly problems: readonly FileProblem[] };

export const search = signal('');
export const sort = signal<Sort>('name');
/** Whether the order runs backwards. */
export const down = signal(false);
const EVERYTHING: Filter = {};
/** What the list is narrowed to. */
export const filter = signal(EVERYTHING);

/** What the shelf is asked for, whatever page of it. */
export function questionNow(): Pick<ProcedureInput<'shelf.list'>, 'search' | 'sort' | 'down' | 'filter'> {
  return { search: search.peek(), sort: sort.peek(), down: down.peek(), filter: filter.peek() };
}

export function showEverything(): void {
  filter.value = EVERYTHING;
}
const NOTHING: Panel = { show: 'nothing' };
export const panel = signal<Panel>(NOTHING);
/** What the last act on the list came to, said aloud once. */
export const said = signal('');

/** How many bottles the search finds; null until the first answer. */
export const total = signal<number | null>(null);
/** The search that the rows and their number answer. */
export const foundFor = signal('');
/** Whether they answer a narrowed list. */
export const narrowed = signal(false);
const NO_NAMES: readonly string[] = [];
/** Names that were taken for words nothing is spelled like. */
export const nearly = signal(NO_NAMES);
export const trouble = signal('');
/** Grows when a page of rows arrives. */
export const arrivals = signal(0);

const PAGE = 100;
/** So many pages are kept: scrolling back is free, and a long walk through the list does not grow without end. */
const MOST_PAGES = 60;

let pages = new Map<number, readonly BottleRow[]>();
let asked = new Set<number>();
/** Which question the kept pages answer: an answer to an older one is thrown away. */
let question = 0;

/** Asks anew: the search, the order or the shelf itself changed. What is on screen stays until the answer comes. */
export async function readAgain(): Promise<void> {
  question += 1;
  const mine = question;
  asked = new Set([0]);
  const asking = questionNow();
  const answer = await call('shelf.list', { ...asking, from: 0, count: PAGE });
  if (mine !== question) return;
  if (!answer.ok) {
    trouble.value = troubleWords(answer);
    return;
  }
  trouble.value = '';
  foundFor.value = asking.search.trim();
  narrowed.value = Object.keys(asking.filter ?? {}).length > 0;
  nearly.value = answer.value.nearly;
  pages = new Map([[0, answer.value.rows]]);
  total.value = answer.value.total;
  arrivals.value += 1;
}

/** The row at a place of the list, or null while its page is on the way. */
export function rowAt(index: number): BottleRow | null {
  const page = Math.floor(index / PAGE);
  const rows = pages.get(page);
  if (!rows) {
    void readPage(page);
    return null;
  }
  return rows[index % PAGE] ?? null;
}

async function readPage(page: number): Promise<void> {
  if (asked.has(page)) return;
  asked.add(page);
  const mine = question;
  const answer = await call('shelf.list', { ...questionNow(), from: page * PAGE, count: PAGE });
  if (mine !== question) return;
  if (!answer.ok) {
    asked.delete(page);
    trouble.value = troubleWords(answer);
    return;
  }
  const oldest = pages.keys().next();
  if (pages.size >= MOST_PAGES && !oldest.done) {
    pages.delete(oldest.value);
    asked.delete(oldest.value);
  }
  pages.set(page, answer.value.rows);
  total.value = answer.value.total;
  arrivals.value += 1;
}

export function openBottle(id: string): void {
  panel.value = { show: 'bottle', id };
}

export function closePanel(): void {
  panel.value = NOTHING;
}
