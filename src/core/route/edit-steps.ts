import { routeEditWords as words } from '../words/route-edit-words.ts';
import { type Edited, checked, freeKey, refused, withStep } from './edited.ts';
import { type MaterialChoice, withMaterial, withoutLeftOver } from './edit-materials.ts';
import type { Charge, Route, Step } from './route.ts';

/** What a new step needs: what it makes, from what, and how the procedure prints the latter. */
export interface NewStep {
  readonly product: MaterialChoice;
  readonly basis: MaterialChoice;
  readonly title?: string;
  readonly printed?: string;
  /** Where the print names a strength, or the step begins at another stage than the reaction. */
  readonly charge?: Partial<Pick<Charge, 'form' | 'note' | 'temperature' | 'overMinutes'>>;
}

/** A step as edited, and which it is. */
export type EditedStep = { readonly ok: true; readonly route: Route; readonly step: string } | Extract<Edited, { ok: false }>;

/** Yield of a step before one is entered; always shown with the words beside it. */
const NO_YIELD = 100;

/** A new route with its first step. */
export function newRoute(name: string, first: NewStep): EditedStep {
  const trimmed = name.trim();
  if (trimmed === '') return { ok: false, problems: [{ at: '/name', words: words.nameNeeded }] };
  return addStep({ backweigh: 'route', version: 1, name: trimmed, materials: {}, steps: [] }, first);
}

/**
 * A step that makes `product` from `basis`, one mole from one until its equation is entered; it stands before the first
 * step that uses its product. Its yield is not entered yet: it counts as 100 % and says so.
 */
export function addStep(route: Route, made: NewStep): EditedStep {
  const first = withMaterial(route, made.product);
  const second = withMaterial(first.route, made.basis);
  const product = first.key;
  const basis = second.key;
  if (product === basis) return { ok: false, problems: [{ at: '/product', words: words.makesItself }] };
  const names = second.route.materials;
  const title = made.title?.trim() || words.stepTitle(names[product]?.name ?? product, names[basis]?.name ?? basis);
  const id = freeKey(
    `make-${product}`,
    route.steps.map((step) => step.id),
  );
  const step: Step = {
    id,
    title: title.slice(0, 300),
    equation: { uses: [{ material: basis, coefficient: 1 }], makes: [{ material: product, coefficient: 1 }] },
    basis,
    product,
    yieldPercent: NO_YIELD,
    yieldSource: words.noYield,
    operations: [
      {
        do: 'charge',
        id: 'charge',
        stage: 'reaction',
        material: basis,
        rule: { kind: 'basis' },
        ...made.charge,
        ...(made.printed ? { printed: made.printed } : {}),
      },
    ],
  };
  const at = second.route.steps.findIndex((one) => usesOf(one).has(product));
  const before = at < 0 ? second.route.steps.length : at;
  const steps = [...second.route.steps.slice(0, before), step, ...second.route.steps.slice(before)];
  const edited = checked({ ...second.route, steps });
  return edited.ok ? { ok: true, route: edited.route, step: id } : edited;
}

function usesOf(step: Step): ReadonlySet<string> {
  return new Set([
    ...step.equation.uses.map((term) => term.material),
    ...step.operations.flatMap((one) => (one.do === 'charge' ? [one.material] : [])),
  ]);
}

/** Takes a step out, with the materials only it named. */
export function removeStep(route: Route, id: string): Edited {
  if (route.steps.length === 1) return refused(words.lastStep);
  return checked(withoutLeftOver(route, { ...route, steps: route.steps.filter((step) => step.id !== id) }));
}

/** The same step once more, straight behind the first: another way to make the same product. */
export function duplicateStep(route: Route, id: string): EditedStep {
  const found = route.steps.findIndex((step) => step.id === id);
  const step = route.steps[found];
  if (!step) return { ok: false, problems: [{ at: '', words: words.stepGone }] };
  const copy = freeKey(
    step.id,
    route.steps.map((one) => one.id),
  );
  const title = words.copyOf(step.title).slice(0, 300);
  const steps = [...route.steps.slice(0, found + 1), { ...step, id: copy, title }, ...route.steps.slice(found + 1)];
  const edited = checked({ ...route, steps });
  return edited.ok ? { ok: true, route: edited.route, step: copy } : edited;
}

/** Another name for the route. */
export function renameRoute(route: Route, name: string): Edited {
  const trimmed = name.trim();
  return trimmed === '' ? refused(words.nameNeeded, '/name') : checked({ ...route, name: trimmed });
}

/** The route's note; an empty text takes it away. */
export function noteRoute(route: Route, note: string): Edited {
  const { note: _, ...rest } = route;
  return checked(note.trim() === '' ? rest : { ...rest, note: note.trim() });
}

/** A copy under a name of its own that says where it comes from. */
export function branchOf(route: Route, revision: number, name: string): Route {
  const from = words.branchedFrom(route.name, revision);
  return { ...route, name, note: route.note ? `${from}\n${route.note}` : from };
}

/** One step as it is now to be. */
export function changeStepOf(route: Route, id: string, change: (step: Step) => Step): Edited {
  return checked(withStep(route, id, change));
}
