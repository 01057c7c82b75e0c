import { signal } from '@preact/signals';
import { type Claim, claimsOf, type PlannedPlan } from '../../core/buy/claims.ts';
import { plan } from '../../core/plan/plan.ts';
import type { Route } from '../../core/route/route.ts';
import { call } from './connection.ts';
import { openPlan } from './plan-route.ts';
import { planList, reference, settings, today } from './workbook.ts';

/** A plan with the route it was worked out from. */
export interface OtherPlan extends PlannedPlan {
  readonly route: Route;
}

/** Every other plan on today's shelf, the newest first; null until they were looked through. */
export const plansOnShelf = signal<readonly OtherPlan[] | null>(null);
/** What the other plans count on of each bottle. */
export const claims = signal<ReadonlyMap<string, readonly Claim[]>>(new Map());

/** More plans than this are not looked through: the newest are. */
const MOST_PLANS = 20;

let round = 0;

/**
 * Works out every other plan, one after the other with a pause between, so that typing is never waited for. Called
 * where it is shown, and again when shelf or plans change.
 */
export async function lookThroughPlans(): Promise<void> {
  const mine = ++round;
  const [lab, tables] = [settings.value, reference.value];
  if (!lab || !tables) return;
  const others = (planList.value ?? [])
    .filter((one) => one.id !== openPlan.value?.id)
    .toSorted((one, other) => (one.changed < other.changed ? 1 : -1))
    .slice(0, MOST_PLANS);
  const found: OtherPlan[] = [];
  for (const { id } of others) {
    const state = await call('plans.read', { id });
    const read = state.ok ? await call('routes.read', { id: state.value.routeId, revision: state.value.routeRevision }) : null;
    const stock = read?.ok ? await call('shelf.snapshot', { materials: Object.values(read.value.route.materials) }) : null;
    if (mine !== round) return;
    if (!state.ok || !read?.ok || !stock?.ok) continue;
    const { ask } = state.value;
    const { route } = read.value;
    const result = plan({ route, ask, shelf: stock.value, settings: lab, reference: tables, asOf: today.value });
    if (result.solved) found.push({ id, name: ask.name, route, result });
    await new Promise((done) => setTimeout(done, 0));
  }
  if (mine !== round) return;
  plansOnShelf.value = found;
  claims.value = claimsOf(found);
}
