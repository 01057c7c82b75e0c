import { signal } from '@preact/signals';
import type { RouteUse } from '../../core/run/route-use.ts';
import { call } from './connection.ts';

/** How each route was used, by its number; empty until it is read. */
export const routeUses = signal<ReadonlyMap<number, RouteUse>>(new Map());

/** Reads it anew: plans and runs were changed in other places meanwhile. */
export async function readRouteUses(): Promise<void> {
  const answer = await call('routes.use', {});
  if (answer.ok) routeUses.value = new Map(answer.value.map((one) => [one.id, one]));
}
