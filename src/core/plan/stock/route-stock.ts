import { grouped } from '../../grouped.ts';
import { alikeKey, isAlike } from '../../matter/alike.ts';
import { type Facts, foldName, sameMaterial } from '../../matter/facts.ts';
import type { Material } from '../../matter/material.ts';
import { remember } from '../../remember.ts';
import type { Route } from '../../route/route.ts';
import type { Bottle, Shelf } from '../../shelf/shelf.ts';
import { assayPercent, byExpiry, containedMoles, whyNotUsable } from '../../shelf/usable.ts';
import type { PlanInput } from '../input.ts';
import type { Network } from '../network/network.ts';
import type { Stock } from '../solve/needs.ts';

/** Bottles that are not empty, by the route's key of the material they hold. */
export function bottlesByMaterial({ route, shelf }: PlanInput): ReadonlyMap<string, readonly Bottle[]> {
  return bottlesOf(route, shelf);
}

const bottlesOf = remember((route: Route, shelf: Shelf): ReadonlyMap<string, readonly Bottle[]> => {
  const routeKeys = keysOnShelf(route, shelf);
  const found = new Map<string, Bottle[]>();
  for (const bottle of shelf.bottles) {
    if (bottle.left <= 0) continue;
    for (const key of routeKeys.get(bottle.material) ?? []) {
      const own = found.get(key);
      if (own) own.push(bottle);
      else found.set(key, [bottle]);
    }
  }
  return found;
});

/** Bottles that are not empty of what is called nearly as a material of the route and is another, by the route's key. */
export const alikeBottles: (route: Route, shelf: Shelf) => ReadonlyMap<string, readonly Bottle[]> = remember((route, shelf) => {
  const called = grouped(Object.entries(shelf.materials), ([, material]) => alikeKey(material.name));
  const held = grouped(
    shelf.bottles.filter(({ left }) => left > 0),
    ({ material }) => material,
  );
  return new Map(
    Object.entries(route.materials).map(([key, material]) => {
      const alike = (called.get(alikeKey(material.name)) ?? []).filter(([, one]) => isAlike(one, material));
      return [key, alike.flatMap(([onShelf]) => held.get(onShelf) ?? []).sort(byExpiry)];
    }),
  );
});

/** The route's keys of each material on the shelf. Only those of one CAS number or one name can be the same. */
function keysOnShelf(route: Route, shelf: Shelf): ReadonlyMap<string, readonly string[]> {
  const alike = new Map<string, (readonly [string, Material])[]>();
  for (const entry of Object.entries(route.materials)) {
    for (const mark of commonTo(entry[1])) alike.set(mark, [...(alike.get(mark) ?? []), entry]);
  }
  return new Map(
    Object.entries(shelf.materials).map(([key, material]) => {
      const found = commonTo(material).flatMap((mark) => alike.get(mark) ?? []);
      return [key, [...new Set(found.flatMap(([routeKey, one]) => (sameMaterial(one, material) ? [routeKey] : [])))]];
    }),
  );
}

/** Two records of one substance share at least one of these. */
function commonTo({ cas, name }: Material): readonly string[] {
  return cas ? [`CAS ${cas}`, foldName(name)] : [foldName(name)];
}

/**
 * Bottles of what the route makes, as contained moles that may be counted on: neat, within their date, not held back,
 * and pure enough for every charge that asks for a purity. A bottle counts once, even where a route names its
 * substance twice (crude and pure): for the name that is on it, else for the first.
 */
export function usableStock(
  input: PlanInput,
  network: Network,
  facts: ReadonlyMap<string, Facts>,
  bottles: ReadonlyMap<string, readonly Bottle[]>,
): readonly Stock[] {
  if (input.ask.useStock === false) return [];
  const heldBack = new Set(input.ask.holdBack ?? []);
  const useFirst = new Set(input.ask.useFirst ?? []);
  const made = [...network.makersOf.keys()];
  const owner = ownersOf(input, made, bottles);
  const leastOf = leastAssayOfUses(network);
  return made.flatMap((material) => {
    const least = leastOf.get(material) ?? 0;
    const usable = [...(bottles.get(material) ?? [])]
      .sort((one, other) => Number(useFirst.has(other.id)) - Number(useFirst.has(one.id)) || byExpiry(one, other))
      .filter((bottle) => owner.get(bottle.id) === material && bottle.form.kind === 'neat' && assayPercent(bottle) >= least)
      .filter((bottle) => whyNotUsable(bottle, input.asOf, heldBack) === null);
    return usable.flatMap((bottle): readonly Stock[] => {
      const one = facts.get(material);
      const moles = one ? containedMoles(bottle, one, input.reference) : null;
      return moles ? [{ material, bottle: bottle.id, moles, assayPercent: assayPercent(bottle) }] : [];
    });
  });
}

/** The one made material each bottle is counted for. */
export function ownersOf(
  input: PlanInput,
  made: readonly string[],
  bottles: ReadonlyMap<string, readonly Bottle[]>,
): ReadonlyMap<string, string> {
  const owners = new Map<string, string>();
  for (const material of made) {
    const name = foldName(input.route.materials[material]?.name ?? '');
    for (const bottle of bottles.get(material) ?? []) {
      const onBottle = foldName(input.shelf.materials[bottle.material]?.name ?? '');
      if (!owners.has(bottle.id) || onBottle === name) owners.set(bottle.id, material);
    }
  }
  return owners;
}

/** The strictest purity any charge of a material asks for, % w/w; materials of which none does are left out. */
export function leastAssayOfUses(network: Network): ReadonlyMap<string, number> {
  const strictest = new Map<string, number>();
  for (const step of network.steps)
    for (const operation of step.operations)
      if (operation.do === 'charge' && operation.leastAssayPercent !== undefined)
        strictest.set(operation.material, Math.max(strictest.get(operation.material) ?? 0, operation.leastAssayPercent));
  return strictest;
}
