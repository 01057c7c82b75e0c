import { signal } from '@preact/signals';
import type { Step } from '../../core/route/route.ts';
import { openRoute } from './open-route.ts';

/** What is open for editing in the Routes place, and where the cursor goes next. */

/** Where a new step is being entered: for a new route, or beside a material of the open one. */
export type NewStepAt =
  | { readonly at: 'route' }
  | { readonly at: 'makes'; readonly key: string }
  | { readonly at: 'uses'; readonly key: string };
export const newStepAt = signal<NewStepAt | null>(null);

/** Name of the operation that is open for editing: "step/operation". */
export const editedOperation = signal<string | null>(null);

/** The material whose formula the cursor goes to. */
export const materialWanted = signal<string | null>(null);

/** Whether the revisions of the open route are shown. */
export const revisionsOpen = signal(false);

/** The step whose line for the next charge the cursor goes to. */
export const lineWanted = signal<string | null>(null);
/** The step the last charge was entered in, or that was made last. */
export const lastLine = signal<string | null>(null);

/** The step whose equation the cursor goes to. */
export const equationWanted = signal<string | null>(null);

/** Which materials the formulas of an equation were taken as when it was typed; as it then read. */
export const formulasTaken = signal<{ readonly step: string; readonly equation: string; readonly words: string } | null>(null);

/** The cursor goes to the equation of the step that was worked on last, else of the last one. */
export function focusEquation(): void {
  equationWanted.value = workedOn()?.id ?? null;
}

function workedOn(): Step | null {
  const open = openRoute.value;
  if (open.at !== 'open') return null;
  const { steps } = open.revision.route;
  return steps.find((one) => one.id === lastLine.value) ?? steps.at(-1) ?? null;
}

/** A step is entered beside the one that was worked on last: what its product makes, or what makes its basis. */
export function addStepBeside(side: 'makes' | 'uses'): void {
  const step = workedOn();
  if (step) newStepAt.value = { at: side, key: side === 'uses' ? step.product : step.basis };
}

/** The cursor goes to the line of the step that was worked on last, else of the last one. */
export function focusNextLine(): void {
  lineWanted.value = workedOn()?.id ?? null;
}

/** The step that is lit in the picture of the route. */
export const routeStep = signal<string | null>(null);

/** Goes to a step of the open route; the next step is added beside it. */
export function pointAtStep(step: string): void {
  routeStep.value = step;
  lastLine.value = step;
  document.getElementById(`step ${step}`)?.scrollIntoView({ block: 'start' });
}
