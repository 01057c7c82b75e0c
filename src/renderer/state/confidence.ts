import { computed, effect, signal } from '@preact/signals';
import { type Confidence, confidenceOf } from '../../core/confidence/confidence.ts';
import type { PlanInput } from '../../core/plan/input.ts';
import { place } from './place.ts';
import { planInput } from './plan-result.ts';
import { openPlan } from './plan-route.ts';

/** Typing goes on for so long, in milliseconds, before the chance is worked out anew: it takes longer than a frame. */
const PAUSE = 120;

interface Worked {
  readonly plan: number | undefined;
  readonly of: PlanInput;
  readonly confidence: Confidence;
}

const worked = signal<Worked | null>(null);
const ofThisPlan = computed(() => (worked.value?.plan === openPlan.value?.id ? worked.value : null));

/** How sure the plan on screen is; while an edit of it is being worked out, how sure it was before. Never that of another plan. */
export const confidence = computed(() => ofThisPlan.value?.confidence ?? null);
/** Whether the confidence belongs to the plan on screen. */
export const confidenceIsCurrent = computed(() => ofThisPlan.value?.of === planInput.value);

let pause: ReturnType<typeof setTimeout> | undefined;
/** How long the last one took, ms: a long route waits for a longer pause, so that typing never waits for it. */
let took = 0;

effect(() => {
  clearTimeout(pause);
  // While a route is edited nobody sees it, and typing would wait for it.
  if (place.value === 'routes') return;
  const of = planInput.value;
  if (!of) return;
  const work = (): void => {
    const start = performance.now();
    worked.value = { plan: openPlan.peek()?.id, of, confidence: confidenceOf(of) };
    took = performance.now() - start;
  };
  // The first one of a plan is wanted at once.
  if (ofThisPlan.peek() === null) pause = setTimeout(work, 0);
  else pause = setTimeout(work, Math.max(PAUSE, 3 * took));
});
