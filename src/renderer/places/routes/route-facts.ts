import { factsOf } from '../../../core/matter/facts.ts';
import type { Reference } from '../../../core/reference.ts';
import type { Route } from '../../../core/route/route.ts';

const joinedOf = new WeakMap<Route['materials'], ReturnType<typeof joined>>();

/** Facts of a route's materials, joined with the table once per route. */
export function factsByKey(route: Route, reference: Reference): ReturnType<typeof joined> {
  const facts = joinedOf.get(route.materials) ?? joined(route, reference);
  joinedOf.set(route.materials, facts);
  return facts;
}

function joined(route: Route, reference: Reference) {
  return new Map(Object.entries(route.materials).map(([key, material]) => [key, factsOf(material, reference)]));
}
