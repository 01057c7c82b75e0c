import type { Reference } from '../reference.ts';
import { checked } from '../route/edited.ts';
import { factsOfRoute, type MaterialChoice } from '../route/edit-materials.ts';
import { addStep, type EditedStep, newRoute } from '../route/edit-steps.ts';
import type { Route } from '../route/route.ts';
import { addCharge } from './add-charge.ts';
import type { ChargeLine } from './charge-line.ts';
import { withPrint } from './edit-print.ts';

/** What a step starts from, as entered: the line it was typed as, or its amount alone, or neither yet. */
export interface EnteredBasis {
  readonly choice: MaterialChoice;
  readonly line: ChargeLine | null;
  readonly printed: string | null;
}

/** A step made from what was entered: its basis with print, strength and whatever else the line says. */
export function enteredStep(route: Route, product: MaterialChoice, basis: EnteredBasis, reference: Reference): EditedStep {
  return withBasisEntered(addStep(route, { product, basis: basis.choice }), basis, reference);
}

/** A new route with its first step, from what was entered. */
export function newRouteOf(name: string, product: MaterialChoice, basis: EnteredBasis, reference: Reference): EditedStep {
  return withBasisEntered(newRoute(name, { product, basis: basis.choice }), basis, reference);
}

function withBasisEntered(made: EditedStep, { line, printed }: EnteredBasis, reference: Reference): EditedStep {
  if (!made.ok) return made;
  const step = made.route.steps.find((one) => one.id === made.step);
  if (!step) return made;
  if (line) {
    const added = addCharge(made.route, made.step, { key: step.basis }, line, reference);
    return added.ok ? { ok: true, route: added.route, step: made.step } : added;
  }
  if (printed === null) return made;
  const known = { facts: factsOfRoute(made.route, reference), reference };
  const steps = made.route.steps.map((one) => (one.id === made.step ? withPrint(one, 'charge', printed, known) : one));
  const edited = checked({ ...made.route, steps });
  return edited.ok ? { ok: true, route: edited.route, step: made.step } : edited;
}
