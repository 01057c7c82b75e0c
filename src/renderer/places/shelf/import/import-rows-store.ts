import { signal } from '@preact/signals';
import type { FateRow } from '../../../../core/port/files.ts';
import type { FateKind } from '../../../../core/shelf/import/fate.ts';
import { call } from '../../../state/connection.ts';

/** Which rows are shown. */
export const shownFate = signal<FateKind | 'all'>('all');
/** Grows when rows arrive or are forgotten. */
export const rowArrivals = signal(0);

const PAGE = 100;
let file = 0;
/** Answers for another one are thrown away. */
let generation = 0;
let pages = new Map<number, readonly FateRow[]>();
let asked = new Set<number>();

/** The rows are others from now on: those of this file as it was just read. */
export function forgetRows(of: number = file): void {
  file = of;
  generation += 1;
  pages = new Map();
  asked = new Set();
  rowArrivals.value += 1;
}

export function showFate(fate: FateKind | 'all'): void {
  shownFate.value = fate;
  forgetRows();
}

/** The row at a place among the shown ones, or null while it is on the way. */
export function fateRowAt(index: number): FateRow | null {
  const page = Math.floor(index / PAGE);
  const rows = pages.get(page);
  if (!rows) void readRows(page);
  return rows?.[index % PAGE] ?? null;
}

async function readRows(page: number): Promise<void> {
  if (asked.has(page)) return;
  asked.add(page);
  const mine = generation;
  const answer = await call('files.rows', { file, fate: shownFate.peek(), from: page * PAGE, count: PAGE });
  if (mine !== generation || !answer.ok) return;
  pages.set(page, answer.value.rows);
  rowArrivals.value += 1;
}
