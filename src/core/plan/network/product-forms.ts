import { NEAT } from '../../matter/form.ts';
import { rememberLast } from '../../remember.ts';
import type { Operation, Route } from '../../route/route.ts';

/**
 * The route with every neat charge of an intermediate in the form its step isolates it: the product's stated assay, or
 * uncorrected, taken as 100 %, whatever the charge itself says. Grams taken are then the grams that were made, and mass
 * ratios count what is contained. Solvent that goes on with a product comes with every charge of it.
 */
export const withProductForms = rememberLast((route: Route): Route => {
  const assays = new Map(route.steps.map((step) => [step.product, step.productAssayPercent]));
  const solvents = new Map(route.steps.flatMap((step) => (step.carriedWith ? [[step.product, step.carriedWith] as const] : [])));
  const withSolvent = (operation: Operation): Operation => {
    const carriedWith = operation.do === 'charge' ? solvents.get(operation.material) : undefined;
    return carriedWith && operation.do === 'charge' && !operation.carriedWith ? { ...operation, carriedWith } : operation;
  };
  const inForm = (operation: Operation): Operation => {
    if (operation.do !== 'charge' || !assays.has(operation.material)) return operation;
    const form = operation.form ?? NEAT;
    const assayPercent = assays.get(operation.material);
    if (form.kind !== 'neat' || form.assayPercent === assayPercent) return operation;
    return { ...operation, form: assayPercent === undefined ? NEAT : { kind: 'neat', assayPercent } };
  };
  return {
    ...route,
    steps: route.steps.map((step) => ({ ...step, operations: step.operations.map((one) => withSolvent(inForm(one))) })),
  };
});
