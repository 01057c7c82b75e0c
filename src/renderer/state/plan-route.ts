import { batch, signal } from '@preact/signals';
import type { PlanState } from '../../core/port/workbook.ts';
import type { Route } from '../../core/route/route.ts';
import { EMPTY_SHELF, type Shelf } from '../../core/shelf/shelf.ts';
import { call } from './connection.ts';
import { inOrder } from './in-order.ts';

/** Which plan is open, the route it is of and the shelf it is planned on; its ask is in `plan-store`. */
export const openPlan = signal<Omit<PlanState, 'ask'> | null>(null);
export const route = signal<Route | null>(null);
export const shelf = signal<Shelf>(EMPTY_SHELF);

/** How often the open plan's route was edited in this window: what was read before is not what stands there now. */
let edits = 0;
const routeInOrder = inOrder();

/**
 * The open plan's route was edited: the plan goes by its newest revision at once, as it would when opened again.
 * @returns false where it was edited here meanwhile: what was read is left, and is to be read again.
 */
export async function followRoute(): Promise<boolean> {
  const id = openPlan.value?.routeId;
  if (id === undefined) return true;
  const before = edits;
  const newest = await routeInOrder(readNewest(id));
  if (before !== edits) return false;
  if (!newest || openPlan.value?.routeId !== id) return true;
  batch(() => {
    route.value = newest.route;
    shelf.value = newest.shelf;
  });
  return true;
}

/** The newest revision with its bottles; null where it is the one that stands there, or cannot be read. */
async function readNewest(id: number): Promise<{ readonly route: Route; readonly shelf: Shelf } | null> {
  const read = await call('routes.read', { id });
  if (!read.ok || JSON.stringify(read.value.route) === JSON.stringify(route.value)) return null;
  const stock = await snapshotFor(read.value.route);
  return stock.ok ? { route: read.value.route, shelf: stock.value } : null;
}

/** The open plan's route was edited in this window: the plan follows at once, before it is saved. */
export function routeEdited(id: number, edited: Route): void {
  if (openPlan.value?.routeId !== id || !route.value) return;
  const { materials } = route.value;
  edits += 1;
  route.value = edited;
  if (edited.materials !== materials) void readShelf();
}

const stockInOrder = inOrder();

/** Reads the bottles of the route's materials again. */
export async function readShelf(): Promise<void> {
  const asked = route.value;
  if (!asked) return;
  const answer = await stockInOrder(snapshotFor(asked));
  // The bottles of another route: those of this one may have changed too.
  if (route.value !== asked) return readShelf();
  if (answer?.ok) shelf.value = answer.value;
}

/** The bottles of a route's materials as they stand. */
export function snapshotFor(one: Route): ReturnType<typeof call<'shelf.snapshot'>> {
  return call('shelf.snapshot', { materials: Object.values(one.materials) });
}
