import type { Facts } from '../../matter/facts.ts';
import { isSaturated, saturatedInWater } from '../../matter/saturated.ts';
import type { Reference } from '../../reference.ts';
import type { Operation, Route } from '../../route/route.ts';

/**
 * The route with every charge that is only called saturated at the strength that is: then it is counted, matched with
 * bottles and made up like any solution. What the tables do not know, and what a step makes, stays of unknown strength.
 */
export function withSaturatedForms(route: Route, facts: ReadonlyMap<string, Facts>, reference: Reference): Route {
  const made = new Set(route.steps.map((step) => step.product));
  const inForm = (operation: Operation): Operation => {
    if (operation.do !== 'charge' || operation.form?.kind !== 'unknown' || !isSaturated(operation)) return operation;
    const of = facts.get(operation.material);
    const found = of && !made.has(operation.material) ? saturatedInWater(of, reference) : null;
    return found ? { ...operation, form: found.form } : operation;
  };
  return { ...route, steps: route.steps.map((step) => ({ ...step, operations: step.operations.map(inForm) })) };
}
