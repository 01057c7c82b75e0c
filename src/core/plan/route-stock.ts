import type { Facts } from '../matter/facts.ts';
import { sameMaterial } from '../matter/facts.ts';
import type { Bottle } from '../shelf/shelf.ts';
import { assayPercent, byExpiry, containedMoles, whyNotUsable } from '../shelf/usable.ts';
import type { PlanInput } from './input.ts';
import type { Network } from './network.ts';
import type { Stock } from './requirements.ts';

/** Bottles that are not empty, by the route's key of the material they hold. */
export function bottlesByMaterial(input: PlanInput): ReadonlyMap<string, readonly Bottle[]> {
  const keys = Object.entries(input.route.materials);
  const routeKeys = new Map(
    Object.entries(input.shelf.materials).map(([key, material]) => [
      key,
      keys.filter(([, one]) => sameMaterial(one, material)).map(([routeKey]) => routeKey),
    ]),
  );
  const found = new Map<string, Bottle[]>();
  for (const bottle of input.shelf.bottles) {
    if (bottle.left <= 0) continue;
    for (const key of routeKeys.get(bottle.material) ?? []) found.set(key, [...(found.get(key) ?? []), bottle]);
  }
  return found;
}

/** Bottles of what the route makes, as contained moles that may be counted on. */
export function usableStock(
  input: PlanInput,
  network: Network,
  facts: ReadonlyMap<string, Facts>,
  bottles: ReadonlyMap<string, readonly Bottle[]>,
): readonly Stock[] {
  if (input.ask.useStock === false) return [];
  const heldBack = new Set(input.ask.holdBack ?? []);
  return [...network.makerOf.keys()].flatMap((material) => {
    const usable = [...(bottles.get(material) ?? [])]
      .sort(byExpiry)
      .filter((bottle) => whyNotUsable(bottle, input.asOf, heldBack) === null);
    return usable.flatMap((bottle): readonly Stock[] => {
      const one = facts.get(material);
      const moles = one ? containedMoles(bottle, one, input.reference) : null;
      return moles ? [{ material, bottle: bottle.id, moles, assayPercent: assayPercent(bottle) }] : [];
    });
  });
}
