import { signal } from '@preact/signals';
import type { ProcedureInput } from '../../../core/port/port.ts';
import type { FileProblem } from '../../../core/port/result.ts';
import type { BottleRow } from '../../../core/port/shelf.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { call } from '../../state/connection.ts';

export type Sort = ProcedureInput<'shelf.list'>['sort'];

/** What stands beside the list. */
export type Panel =
  | { readonly show: 'nothing' }
  | { readonly show: 'bottle'; readonly id: string }
  | { readonly show: 'new' }
  /** Labels of everything found. */
  | { readonly show: 'labels' }
  /** Takes the whole place; what is being made is in make-solution-draft.ts. */
  | { readonly show: 'solution' }
  /** Takes the whole place: a file on its way to the shelf, in import/import-store.ts. */
  | { readonly show: 'import' }
  | { readonly show: 'problems'; readonly file: string; readonly problems: readonly FileProblem[] };

export const search = signal('');
export const sort = signal<Sort>('name');
const NOTHING: Panel = { show: 'nothing' };
export const panel = signal<Panel>(NOTHING);
/** What the last act on the list came to, said aloud once. */
export const said = signal('');

/** How many bottles the search finds; null until the first answer. */
export const total = signal<number | null>(null);
/** The search that the rows and their number answer. */
export const foundFor = signal('');
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
  const asking = search.peek();
  const answer = await call('shelf.list', { search: asking, from: 0, count: PAGE, sort: sort.peek() });
  if (mine !== question) return;
  if (!answer.ok) {
    trouble.value = troubleWords(answer);
    return;
  }
  trouble.value = '';
  foundFor.value = asking.trim();
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
  const answer = await call('shelf.list', { search: search.peek(), from: page * PAGE, count: PAGE, sort: sort.peek() });
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
