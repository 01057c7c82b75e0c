import { computed, signal } from '@preact/signals';
import type { StepPlan } from '../../core/plan/result.ts';
import type { Place } from '../../core/words/notice.ts';
import { goTo } from './place.ts';
import { result } from './plan-result.ts';

/** What of the plan is looked at: no part of the plan itself, never saved. */
const asked = signal<string | null>(null);

/** The step whose card is open: the one chosen last, else the first that has to be done. */
export const chosenStep = computed<StepPlan | null>(() => {
  const steps = result.value?.steps ?? [];
  return steps.find((step) => step.id === asked.value) ?? steps.find((step) => step.active) ?? steps[0] ?? null;
});

/** The cascade as picture or as table. */
export const cascadeAs = signal<'picture' | 'table'>('picture');
/** What the height of a band stands for. */
export const bandsIn = signal<'moles' | 'grams'>('moles');

/** What a notice, or a line of the fetch list, points at; lit until something else is pointed at. */
export const pointed = signal<Place | null>(null);

/** The line of the fetch list that is open. */
export const openFetchLine = signal<string | null>(null);

export function chooseStep(step: string): void {
  asked.value = step;
  pointed.value = null;
}

/** The step so many places further in working order. */
export function chooseBeside(by: number): void {
  const steps = result.value?.steps ?? [];
  const at = steps.findIndex((step) => step.id === chosenStep.value?.id);
  const next = steps[at + by];
  if (next) chooseStep(next.id);
}

/** Goes to where something belongs: its step and charge, its draw, its line of the fetch list. */
export function pointAt(place: Place): void {
  goTo('plan');
  if (place.step !== undefined) asked.value = place.step;
  if (place.step === undefined && place.material !== undefined) {
    openFetchLine.value = result.value?.fetch.find((line) => line.material === place.material)?.id ?? null;
  }
  pointed.value = { ...place };
}
