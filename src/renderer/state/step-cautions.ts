import { computed } from '@preact/signals';
import { stepCautions, type StepCautions } from '../../core/caution/step-cautions.ts';
import { planInput, result } from './plan-result.ts';
import { openPlan } from './plan-route.ts';
import { runRows } from './run-rows.ts';

const NONE: StepCautions = new Map();

/** Runs of the open plan's route; null until they are read. */
const runsOfRoute = computed(() => {
  const [rows, plan] = [runRows.value, openPlan.value];
  return rows && plan ? rows.filter((row) => row.route === plan.routeId) : null;
});

/** Cautions of each step of the plan on screen, worked out when first asked for. */
const ofPlan = computed(() => {
  const [input, now, runs] = [planInput.value, result.value, runsOfRoute.value];
  const known = new Map<string, StepCautions>();
  return (step: string): StepCautions => {
    const found = known.get(step);
    if (found || !input || !now?.solved) return found ?? NONE;
    const made = stepCautions(input, now, step, runs);
    known.set(step, made);
    return made;
  };
});

/** What must be known before each operation of a step; none where there is no plan. */
export function cautionsOfStep(step: string): StepCautions {
  return ofPlan.value(step);
}
