import { computed, signal } from '@preact/signals';
import type { Route, Step } from '../../core/route/route.ts';
import { openRoute } from './open-route.ts';
import { openPlan } from './plan-route.ts';
import { chosenStep } from './plan-view.ts';
import { editedOperation } from './route-view.ts';
import { openRouteById } from './routes-store.ts';

/** The step whose operations are edited on its card in the plan; its edits go to the route. */
const asked = signal<string | null>(null);

/** The edited step as it stands in the route; null while none is, or its route is not read yet. */
export const editedHere = computed<{ readonly route: Route; readonly step: Step } | null>(() => {
  const open = openRoute.value;
  if (asked.value === null || open.at !== 'open' || open.id !== openPlan.value?.routeId) return null;
  const { route } = open.revision;
  const step = route.steps.find((one) => one.id === asked.value);
  return step && chosenStep.value?.id === step.id ? { route, step } : null;
});

/** Opens the chosen step for editing on its card, or closes it. */
export async function toggleEditing(): Promise<void> {
  const step = chosenStep.value?.id ?? null;
  const id = openPlan.value?.routeId;
  if (editedHere.value || step === null || id === undefined) {
    asked.value = null;
    return;
  }
  const open = openRoute.value;
  if (open.at !== 'open' || open.id !== id) await openRouteById(id);
  editedOperation.value = null;
  asked.value = step;
}
