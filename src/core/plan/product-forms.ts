import { type Form, NEAT } from '../matter/form.ts';
import type { Operation, Route } from '../route/route.ts';

/**
 * The route with every charge of an intermediate in the form its step isolates it: where a product's assay is stated
 * and the charge names no form of its own, that assay is the charge's. Mass ratios then count what is contained.
 */
export function withProductForms(route: Route): Route {
  const known = prepared.get(route) ?? prepare(route);
  prepared.set(route, known);
  return known;
}

/** Remembered, so that a plan at every keystroke finds the same forms again. */
const prepared = new WeakMap<Route, Route>();

function prepare(route: Route): Route {
  const assays = new Map(
    route.steps.flatMap((step) =>
      step.productAssayPercent === undefined ? [] : [[step.product, step.productAssayPercent] as const],
    ),
  );
  if (assays.size === 0) return route;
  const inForm = (operation: Operation): Operation => {
    if (operation.do !== 'charge') return operation;
    const assayPercent = assays.get(operation.material);
    return assayPercent !== undefined && isPlain(operation.form ?? NEAT)
      ? { ...operation, form: { kind: 'neat', assayPercent } }
      : operation;
  };
  return { ...route, steps: route.steps.map((step) => ({ ...step, operations: step.operations.map(inForm) })) };
}

function isPlain(form: Form): boolean {
  return form.kind === 'neat' && form.assayPercent === undefined;
}
