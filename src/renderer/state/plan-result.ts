import { computed } from '@preact/signals';
import { plan } from '../../core/plan/plan.ts';
import type { PlanResult } from '../../core/plan/result.ts';
import { draft, route, shelf } from './plan-store.ts';
import { reference, settings, today } from './workbook.ts';

/** The plan of what is on screen now; computed anew with every keystroke. Null until everything it needs is read. */
export const result = computed<PlanResult | null>(() => {
  const given = { route: route.value, ask: draft.value, settings: settings.value, reference: reference.value };
  if (!given.route || !given.ask || !given.settings || !given.reference) return null;
  return plan({
    route: given.route,
    ask: given.ask,
    shelf: shelf.value,
    settings: given.settings,
    reference: given.reference,
    asOf: today.value,
  });
});
