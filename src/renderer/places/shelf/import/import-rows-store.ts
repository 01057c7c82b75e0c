import { signal } from '@preact/signals';
import type { FateRow } from '../../../../core/port/files.ts';
import type { FateKind } from '../../../../core/shelf/import/fate.ts';
import { call } from '../../../state/connection.ts';

/** Which rows are shown. */
export const shownFate = signal<FateKind | 'all'>('all');
/** Which reason's rows alone are shown, by its place among the preview's; null for all of them. */
export const shownReason = signal<number | null>(null);
/** Grows when rows arrive or are forgotten. */
export const rowArrivals = signal(0);

const PAGE = 100;
let file = 0;
/** Answers for another one are thrown away. */
let generation = 0;
let pages = new Map<number, readonly FateRow[]>();
let asked = new Set<number>();

/** The rows are others from now on: those of this file as it was just read. */
export function forgetRows(of: number): void {
  shownReason.value = null;
  file = of;
  askAnew();
}

function askAnew(): void {
  generation += 1;
  pages = new Map();
  asked = new Set();
  rowArrivals.value += 1;
}

export function showFate(fate: FateKind | 'all'): void {
  shownFate.value = fate;
  forgetRows(file);
}

/** Shows the rows that are refused for one reason, or for any. */
export function showReason(reason: number | null): void {
  shownFate.value = 'refused';
  shownReason.value = reason;
  askAnew();
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
  const answer = await call('files.rows', {
    file,
    fate: shownFate.peek(),
    from: page * PAGE,
    count: PAGE,
    ...(shownReason.peek() === null ? {} : { reason: shownReason.peek() ?? 0 }),
  });
  if (mine !== generation || !answer.ok) return;
  pages.set(page, answer.value.rows);
  rowArrivals.value += 1;
}
