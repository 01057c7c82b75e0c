import type { StartChoice } from '../../../core/plan/ask.ts';
import type { StepYield } from '../../../core/route/route.ts';
import { confidenceWords } from '../../../core/words/confidence-words.ts';
import { commitEdit, editPlan } from '../../state/plan-store.ts';
import { yieldOf } from './edits.ts';

/** Chooses the start; null goes back to the likeliest yields. Saved after a pause, or at once by commitEdit. */
export function setStart(start: StartChoice | null): void {
  editPlan(confidenceWords.edits.start, (ask) => {
    const { start: _, ...rest } = ask;
    return start ? { ...rest, start } : rest;
  });
}

/** Says what the limits of a step's yield mean. */
export function setLimits(step: string, title: string, limits: 'absolute' | 'one in ten'): void {
  const range = yieldOf(step);
  if (typeof range === 'number') return;
  editPlan(confidenceWords.edits.limits(title), (ask) => ({ ...ask, yields: { ...ask.yields, [step]: { ...range, limits } } }));
  commitEdit();
}

/** A range typed anew keeps what its limits were said to mean. */
export function keepLimits(typed: StepYield, before: StepYield): StepYield {
  if (typeof typed === 'number' || typeof before === 'number' || !before.limits) return typed;
  return { ...typed, limits: before.limits };
}
