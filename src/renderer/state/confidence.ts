import { computed, effect, signal } from '@preact/signals';
import { type Confidence, confidenceOf } from '../../core/confidence/confidence.ts';
import type { PlanInput } from '../../core/plan/input.ts';
import { planInput } from './plan-result.ts';

/** Typing goes on for so long, in milliseconds, before the chance is worked out anew: it takes longer than a frame. */
const PAUSE = 120;

const worked = signal<{ readonly of: PlanInput; readonly confidence: Confidence } | null>(null);

/** How sure the plan on screen is; while it is being worked out, how sure the one before was. */
export const confidence = computed(() => worked.value?.confidence ?? null);
/** Whether the confidence belongs to the plan on screen. */
export const confidenceIsCurrent = computed(() => worked.value?.of === planInput.value);

let pause: ReturnType<typeof setTimeout> | undefined;

effect(() => {
  const of = planInput.value;
  clearTimeout(pause);
  if (!of) return;
  const work = (): void => {
    worked.value = { of, confidence: confidenceOf(of) };
  };
  // The first one is wanted at once.
  if (worked.peek() === null) pause = setTimeout(work, 0);
  else pause = setTimeout(work, PAUSE);
});
