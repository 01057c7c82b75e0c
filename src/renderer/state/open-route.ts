import { signal } from '@preact/signals';
import type { RouteRevision } from '../../core/port/workbook.ts';
import { troubleWords } from '../../core/words/shell-words.ts';
import { call } from './connection.ts';

/** The route that is read in the Routes place. */
export type OpenRoute =
  | { readonly at: 'none' }
  | { readonly at: 'loading'; readonly id: number }
  | { readonly at: 'open'; readonly id: number; readonly revision: RouteRevision }
  | { readonly at: 'failed'; readonly id: number; readonly words: string };

export const openRoute = signal<OpenRoute>({ at: 'none' });

/** The outcome of the last import, export, save or plan, in words. */
export const routesSaid = signal('');

let reading: Promise<void> = Promise.resolve();

/** Waits until no route is on its way. */
export async function routeRead(): Promise<void> {
  let seen: typeof reading;
  do {
    seen = reading;
    await seen;
  } while (seen !== reading);
}

/** Reads the newest revision of a route and shows it. */
export function readOpenRoute(id: number): Promise<void> {
  reading = readNewest(id);
  return reading;
}

async function readNewest(id: number): Promise<void> {
  openRoute.value = { at: 'loading', id };
  const answer = await call('routes.read', { id });
  if (openRoute.value.at !== 'loading' || openRoute.value.id !== id) return;
  openRoute.value = answer.ok ? { at: 'open', id, revision: answer.value } : { at: 'failed', id, words: troubleWords(answer) };
}
