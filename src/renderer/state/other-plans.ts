import { signal } from '@preact/signals';
import { askAfter, shelfAfter, type Started, stillToTake } from '../../core/buy/at-bench.ts';
import { type Claim, claimsOf, type PlannedPlan } from '../../core/buy/claims.ts';
import { plan } from '../../core/plan/plan.ts';
import type { RunRow } from '../../core/port/runs.ts';
import type { Route } from '../../core/route/route.ts';
import { foldRun } from '../../core/run/state.ts';
import type { Shelf } from '../../core/shelf/shelf.ts';
import { call } from './connection.ts';
import { openPlan } from './plan-route.ts';
import { planList, reference, settings, today } from './workbook.ts';

/** A plan with the route it was worked out from. */
export interface OtherPlan extends PlannedPlan {
  readonly route: Route;
}

/** Every other plan on today's shelf, the newest first; null until some were looked through. */
export const plansOnShelf = signal<readonly OtherPlan[] | null>(null);
/** What the other plans count on of each bottle. */
export const claims = signal<ReadonlyMap<string, readonly Claim[]>>(new Map());
/** How far the plans are looked through; null when all are. */
export const plansLookedAt = signal<{ readonly done: number; readonly all: number } | null>({ done: 0, all: 0 });

/** So many plans between two showings of what was found. */
const SHOWN_EVERY = 25;

let round = 0;

/**
 * Works out every other plan, one after the other with a pause between, so that typing is never waited for. Called
 * where it is shown, and again when shelf or plans change.
 */
export async function lookThroughPlans(): Promise<void> {
  const mine = ++round;
  const others = (planList.value ?? [])
    .filter((one) => one.id !== openPlan.value?.id)
    .toSorted((one, other) => (one.changed < other.changed ? 1 : -1));
  if (others.length === 0) {
    plansLookedAt.value = null;
    return show([]);
  }
  const runs = await call('runs.list', {});
  if (mine !== round) return;
  const started = runs.ok ? runs.value.filter((run) => run.phase !== 'finished') : [];
  const read = reading();
  const found: OtherPlan[] = [];
  for (const [at, { id }] of others.entries()) {
    plansLookedAt.value = { done: at, all: others.length };
    const own = started.filter((run) => run.plan === id);
    const one = await read(id, own);
    if (mine !== round) return;
    if (one) found.push(one);
    if (at % SHOWN_EVERY === SHOWN_EVERY - 1) show(found);
    await new Promise((done) => setTimeout(done, 0));
  }
  if (mine !== round) return;
  plansLookedAt.value = null;
  show(found);
}

function show(found: readonly OtherPlan[]): void {
  plansOnShelf.value = [...found];
  claims.value = claimsOf(found);
}

/** Reads plans and works them out; a route, and the shelf of its materials, is read once. */
function reading(): (id: number, runs: readonly RunRow[]) => Promise<OtherPlan | null> {
  const routes = new Map<string, Promise<{ readonly route: Route; readonly stock: Shelf } | null>>();
  return async (id, runs) => {
    const [lab, tables] = [settings.value, reference.value];
    const state = await call('plans.read', { id });
    if (!lab || !tables || !state.ok) return null;
    const { routeId, routeRevision, ask } = state.value;
    const key = `${routeId}/${routeRevision}`;
    const known = routes.get(key) ?? readRoute(routeId, routeRevision);
    routes.set(key, known);
    const [read, started] = [await known, await startedOf(runs)];
    if (!read) return null;
    const { route, stock } = read;
    const input = { route, ask, shelf: stock, settings: lab, reference: tables, asOf: today.value };
    const result = plan({ ...input, ask: askAfter(input, started), shelf: shelfAfter(stock, started) });
    return result.solved || started.length > 0 ? { id, name: ask.name, route, result, atBench: stillToTake(started) } : null;
  };
}

async function readRoute(id: number, revision: number): Promise<{ readonly route: Route; readonly stock: Shelf } | null> {
  const read = await call('routes.read', { id, revision });
  const stock = read.ok ? await call('shelf.snapshot', { materials: Object.values(read.value.route.materials) }) : null;
  return read.ok && stock?.ok ? { route: read.value.route, stock: stock.value } : null;
}

async function startedOf(runs: readonly RunRow[]): Promise<readonly Started[]> {
  const records = await Promise.all(runs.map(({ id }) => call('runs.read', { id })));
  return records.flatMap((one): readonly Started[] => {
    if (!one.ok) return [];
    const { id, start, entries } = one.value;
    return [{ id, sheet: start.sheet, state: foldRun(start.sheet, entries) }];
  });
}
