import { computed, signal } from '@preact/signals';
import { type Merit, meritOf } from '../../core/outcome/merit.ts';
import { comparePlans, type Difference } from '../../core/plan/compare.ts';
import type { Ask } from '../../core/plan/ask.ts';
import { plan } from '../../core/plan/plan.ts';
import { meritWords } from '../../core/words/merit-words.ts';
import { call } from './connection.ts';
import { result } from './plan-result.ts';
import { freeName } from './free-name.ts';
import { draft, openPlanState, savedPlan } from './plan-store.ts';
import { openPlan, route, shelf } from './plan-route.ts';
import { planList, reference, settings, today } from './workbook.ts';

/** How the plan on screen uses its material; worked out beside the plan. */
export const merit = computed<Merit | null>(() => {
  const [now, ofRoute, tables] = [result.value, route.value, reference.value];
  if (!now?.solved || !ofRoute || !tables) return null;
  return meritOf({ result: now, route: ofRoute, shelf: shelf.value, reference: tables });
});

/** What stands beside the open plan: another plan of the route, this one at the route's own yields, or nothing. */
export type Beside =
  | { readonly kind: 'none' }
  | { readonly kind: 'route' }
  | { readonly kind: 'plan'; readonly id: number; readonly of: number; readonly ask: Ask };
export const beside = signal<Beside>({ kind: 'none' });

/** Other plans of the open plan's route. */
export const otherPlans = computed(() => {
  const open = openPlan.value;
  return (planList.value ?? []).filter((one) => open && one.routeId === open.routeId && one.id !== open.id);
});

/** Which choice it was: a plan that is read late stands beside no other choice. */
let chosen = 0;

/** Puts something beside the open plan: "none", "route", or the number of another plan. */
export async function putBeside(what: string): Promise<void> {
  chosen += 1;
  const mine = chosen;
  if (what === 'route' || what === 'none') {
    beside.value = { kind: what };
    return;
  }
  const of = openPlan.value?.id;
  const answer = await call('plans.read', { id: Number(what) });
  if (mine === chosen && answer.ok && of !== undefined && openPlan.value?.id === of)
    beside.value = { kind: 'plan', id: answer.value.id, of, ask: answer.value.ask };
}

/** Goes on in a copy of the open plan, with the plan as it was beside it. */
export async function copyAndCompare(): Promise<void> {
  const ask = draft.value;
  const kept = await savedPlan();
  const open = openPlan.value;
  if (!ask || !kept || !open) return;
  const names = new Set((planList.value ?? []).map((one) => one.name));
  const answer = await call('plans.create', { routeId: open.routeId, ask: { ...ask, name: freeName(ask.name, names) } });
  if (!answer.ok) return;
  await openPlanState(answer.value);
  if (openPlan.value?.id === answer.value.id) await putBeside(String(open.id));
}

export interface SideBySide {
  readonly name: string;
  readonly lines: readonly Difference[];
  /** False where the other plan cannot be worked out. */
  readonly solved: boolean;
}

/** The two plans against each other, on today's shelf; null where nothing stands beside. */
export const sideBySide = computed<SideBySide | null>(() => {
  const what = beside.value;
  const [now, own, ofRoute, lab, tables] = [result.value, draft.value, route.value, settings.value, reference.value];
  if (what.kind === 'none' || !now || !own || !ofRoute || !lab || !tables) return null;
  if (what.kind === 'plan' && what.of !== openPlan.value?.id) return null;
  const { yields: _yields, learned: _learned, ...plain } = own;
  const ask = what.kind === 'plan' ? what.ask : { ...plain, name: meritWords.compare.routeYields };
  const other = plan({ route: ofRoute, ask, shelf: shelf.value, settings: lab, reference: tables, asOf: today.value });
  const otherMerit = other.solved ? meritOf({ result: other, route: ofRoute, shelf: shelf.value, reference: tables }) : null;
  // What stands beside comes first: the change is what this plan does to it.
  const lines = comparePlans({ result: other, merit: otherMerit }, { result: now, merit: merit.value });
  return { name: ask.name, lines, solved: other.solved };
});
