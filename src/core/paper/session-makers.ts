import type { ChargePlan, FetchLine, PlanResult, StepPlan } from '../plan/result.ts';

/** What a session waits for: steps, by number, that have to be done before it, and what of the shelf those lack. */
export interface Waiting {
  readonly first: readonly number[];
  readonly lacks: readonly FetchLine[];
}

/** How many batches of a step a session does: a part of the step, 0 … 1. */
export type PartOf = (step: StepPlan) => number;

/** A remainder below this part of what is wanted is rounding. */
const NOTHING = 1e-9;

/**
 * Which intermediates a session takes from steps that it does not do, or not often enough. What its own batches make is
 * handed on in working order. By "step/operation" of the charge that waits.
 */
export function waitingCharges(result: PlanResult, partOf: PartOf): ReadonlyMap<string, Waiting> {
  const makers = new Map(result.steps.map((step) => [step.id, step]));
  const left = new Map(result.steps.map((step) => [step.id, step.product.moles.value * partOf(step)]));
  const waiting = new Map<string, Waiting>();
  for (const step of result.steps) {
    for (const { id, supply } of chargesOf(step)) {
      const wanted = supply.kind === 'step' ? supply.madeMoles * partOf(step) : 0;
      if (supply.kind !== 'step' || wanted === 0) continue;
      const there = left.get(supply.step) ?? 0;
      left.set(supply.step, Math.max(0, there - wanted));
      const maker = makers.get(supply.step);
      if (there < wanted * (1 - NOTHING) && maker) waiting.set(`${step.id}/${id}`, waitingFor(maker, result, makers, partOf));
    }
  }
  return waiting;
}

function waitingFor(maker: StepPlan, result: PlanResult, makers: ReadonlyMap<string, StepPlan>, partOf: PartOf): Waiting {
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
  const ids = new Set([...first].map((step) => step.id));
  return {
    first: [...first].map((step) => step.number).sort((a, b) => a - b),
    lacks: result.fetch.filter((line) => line.short !== null && line.uses.some((use) => ids.has(use.step))),
  };
}

/** The charges of a step, in order. */
export function chargesOf(step: StepPlan): readonly ChargePlan[] {
  return step.operations.filter((operation) => operation.kind === 'charge');
}
