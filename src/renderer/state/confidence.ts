import { computed, effect, signal } from '@preact/signals';
import { type Confidence, confidenceOf } from '../../core/confidence/confidence.ts';
import type { PlanInput } from '../../core/plan/input.ts';
import { place } from './place.ts';
import { planInput } from './plan-result.ts';

/** Typing goes on for so long, in milliseconds, before the chance is worked out anew: it takes longer than a frame. */
const PAUSE = 120;

const worked = signal<{ readonly of: PlanInput; readonly confidence: Confidence } | null>(null);

/** How sure the plan on screen is; while it is being worked out, how sure the one before was. */
export const confidence = computed(() => worked.value?.confidence ?? null);
/** Whether the confidence belongs to the plan on screen. */
export const confidenceIsCurrent = computed(() => worked.value?.of === planInput.value);

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
    worked.value = { of, confidence: confidenceOf(of) };
    took = performance.now() - start;
  };
  // The first one is wanted at once.
  if (worked.peek() === null) pause = setTimeout(work, 0);
  else pause = setTimeout(work, Math.max(PAUSE, 3 * took));
});
