import { signal } from '@preact/signals';
import type { Settings } from '../../core/plan/settings.ts';
import type { PlanEntry, RouteEntry } from '../../core/port/workbook.ts';
import { indexReference, type Reference } from '../../core/reference.ts';
import { troubleWords } from '../../core/words/shell-words.ts';
import { call, subscribe } from './connection.ts';
import { inOrder } from './in-order.ts';

/** What every place reads and no place owns: the tables, the settings, the day, the lists of routes and plans. */
export const reference = signal<Reference | null>(null);
export const settings = signal<Settings | null>(null);
/** The day as main sees it, ISO. */
export const today = signal('');
export const about = signal<{ readonly version: string; readonly host: string; readonly dataFolder: string } | null>(null);
/** How far the first look at the window has come; null where it is over, or was had before. */
export const firstLook = signal<number | null>(null);
export const routeList = signal<readonly RouteEntry[] | null>(null);
export const planList = signal<readonly PlanEntry[] | null>(null);

/** Grows whenever the shelf changed in main; places that show stock read it and ask again. */
export const shelfChanges = signal(0);

/** How far the start has come. */
export const start = signal<{ readonly at: 'opening' | 'open' } | { readonly at: 'failed'; readonly words: string }>({
  at: 'opening',
});

const [routesInOrder, plansInOrder] = [inOrder(), inOrder()];

export async function readRoutes(): Promise<void> {
  const answer = await routesInOrder(call('routes.list', {}));
  if (answer?.ok) routeList.value = answer.value;
}

export async function readPlans(): Promise<void> {
  const answer = await plansInOrder(call('plans.list', {}));
  if (answer?.ok) planList.value = answer.value;
}

/** Reads the day again: the window may stand open over midnight. */
export async function readToday(): Promise<void> {
  const answer = await call('program.about', {});
  if (answer.ok) today.value = answer.value.today;
}

/** Reads what every place needs, once, and follows its changes. */
export async function openWorkbook(): Promise<boolean> {
  start.value = { at: 'opening' };
  const [tables, lab, program, routes, plans] = await Promise.all([
    call('reference.read', {}),
    call('settings.read', {}),
    call('program.about', {}),
    call('routes.list', {}),
    call('plans.list', {}),
  ]);
  for (const answer of [tables, lab, program, routes, plans]) {
    if (!answer.ok) {
      start.value = { at: 'failed', words: troubleWords(answer) };
      return false;
    }
  }
  if (tables.ok) reference.value = indexReference(tables.value);
  if (lab.ok) settings.value = lab.value;
  if (program.ok) {
    today.value = program.value.today;
    about.value = program.value;
    firstLook.value = program.value.looked ? null : 0;
  }
  if (routes.ok) routeList.value = routes.value;
  if (plans.ok) planList.value = plans.value;
  start.value = { at: 'open' };
  return true;
}

/** Follows what changes in main from now on. */
export function followWorkbook(): () => void {
  const ends = [
    subscribe('routes', () => void readRoutes()),
    subscribe('plans', () => void readPlans()),
    subscribe('shelf', () => {
      shelfChanges.value += 1;
    }),
  ];
  return () => ends.forEach((end) => end());
}
