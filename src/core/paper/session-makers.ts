import type { ChargePlan, PlanResult, StepPlan } from '../plan/result.ts';

/** How many batches of a step a session does: a part of the step, 0 … 1. */
export type PartOf = (step: StepPlan) => number;

/** A remainder below this part of what is wanted is rounding. */
const NOTHING = 1e-9;

/**
 * Which intermediates a session takes from steps that it does not do, or not often enough. What its own batches make is
 * handed on in working order. The steps to do first, by "step/operation" of the charge that waits.
 */
export function waitingCharges(result: PlanResult, partOf: PartOf): ReadonlyMap<string, readonly StepPlan[]> {
  const makers = new Map(result.steps.map((step) => [step.id, step]));
  const left = new Map(result.steps.map((step) => [step.id, step.product.moles.value * partOf(step)]));
  const waiting = new Map<string, readonly StepPlan[]>();
  for (const step of result.steps) {
    for (const { id, supply } of chargesOf(step)) {
      const wanted = supply.kind === 'step' ? supply.madeMoles * partOf(step) : 0;
      if (supply.kind !== 'step' || wanted === 0) continue;
      const there = left.get(supply.step) ?? 0;
      left.set(supply.step, Math.max(0, there - wanted));
      const maker = makers.get(supply.step);
      if (there < wanted * (1 - NOTHING) && maker) waiting.set(`${step.id}/${id}`, stepsFirst(maker, makers, partOf));
    }
  }
  return waiting;
}

/** A maker, and the makers of what it needs. */
function stepsFirst(maker: StepPlan, makers: ReadonlyMap<string, StepPlan>, partOf: PartOf): readonly StepPlan[] {
  const first = new Set<StepPlan>();
  const visit = (step: StepPlan): void => {
    if (first.has(step)) return;
    first.add(step);
    for (const { supply } of chargesOf(step)) {
      const before = supply.kind === 'step' ? makers.get(supply.step) : undefined;
      if (before && partOf(before) < 1) visit(before);
    }
  };
  visit(maker);
  return [...first].sort((a, b) => a.number - b.number);
}

/** The charges of a step, in order. */
export function chargesOf(step: StepPlan): readonly ChargePlan[] {
  return step.operations.filter((operation) => operation.kind === 'charge');
}
