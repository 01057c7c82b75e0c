import { computed } from '@preact/signals';
import type { PlanInput } from '../../core/plan/input.ts';
import { plan } from '../../core/plan/plan.ts';
import type { PlanResult } from '../../core/plan/result.ts';
import { draft } from './plan-store.ts';
import { route, shelf } from './plan-route.ts';
import { reference, settings, today } from './workbook.ts';

/** All that the plan on screen depends on. Null until everything it needs is read. */
export const planInput = computed<PlanInput | null>(() => {
  const given = { route: route.value, ask: draft.value, settings: settings.value, reference: reference.value };
  if (!given.route || !given.ask || !given.settings || !given.reference) return null;
  return {
    route: given.route,
    ask: given.ask,
    shelf: shelf.value,
    settings: given.settings,
    reference: given.reference,
    asOf: today.value,
  };
});

/** The plan of what is on screen now; computed anew with every keystroke. */
export const result = computed<PlanResult | null>(() => (planInput.value ? plan(planInput.value) : null));
