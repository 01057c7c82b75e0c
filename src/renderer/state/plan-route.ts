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

/** The open plan's route was edited: the plan goes by its newest revision at once, as it would when opened again. */
export async function followRoute(): Promise<void> {
  const id = openPlan.value?.routeId;
  if (id === undefined) return;
  const read = await call('routes.read', { id });
  if (!read.ok || openPlan.value?.routeId !== id || JSON.stringify(read.value.route) === JSON.stringify(route.value)) return;
  const stock = await snapshotFor(read.value.route);
  if (!stock.ok || openPlan.value?.routeId !== id) return;
  batch(() => {
    route.value = read.value.route;
    shelf.value = stock.value;
  });
}

/** The open plan's route was edited in this window: the plan follows at once, before it is saved. */
export function routeEdited(id: number, edited: Route): void {
  if (openPlan.value?.routeId !== id || !route.value) return;
  const { materials } = route.value;
  route.value = edited;
  if (edited.materials !== materials) void readShelf();
}

const stockInOrder = inOrder();

/** Reads the bottles of the route's materials again. */
export async function readShelf(): Promise<void> {
  const asked = route.value;
  if (!asked) return;
  const answer = await stockInOrder(snapshotFor(asked));
  if (answer?.ok && route.value === asked) shelf.value = answer.value;
}

/** The bottles of a route's materials as they stand. */
export function snapshotFor(one: Route): ReturnType<typeof call<'shelf.snapshot'>> {
  return call('shelf.snapshot', { materials: Object.values(one.materials) });
}
