import { factsOf, sameMaterial } from '../matter/facts.ts';
import type { Facts } from '../matter/facts.ts';
import type { Material } from '../matter/material.ts';
import type { Reference } from '../reference.ts';
import type { MaterialRow } from '../reference-rows.ts';
import { type Edited, checked, freeKey, refused } from './edited.ts';
import { mentions } from './read-route.ts';
import type { Route } from './route.ts';

/** A material that is in the route already, or one to be taken into it. */
export type MaterialChoice = { readonly key: string } | { readonly material: Material };

/** A row of the built-in table as a route names it; everything else is looked up by its CAS number. */
export function fromTable(row: MaterialRow): Material {
  return {
    name: row.name,
    formula: row.formula,
    cas: row.cas,
    ...(row.state === null ? {} : { state: row.state }),
    ...(row.cas === WATER ? { utility: true } : {}),
  };
}

/** Water comes from the tap. */
const WATER = '7732-18-5';

/** The route with this material in it, and its key; one that is there already is not taken in twice. */
export function withMaterial(route: Route, choice: MaterialChoice): { readonly route: Route; readonly key: string } {
  if ('key' in choice) return { route, key: choice.key };
  const known = Object.entries(route.materials).find(([, one]) => sameMaterial(one, choice.material));
  if (known) return { route, key: known[0] };
  const key = freeKey(choice.material.name, Object.keys(route.materials));
  return { route: { ...route, materials: { ...route.materials, [key]: choice.material } }, key };
}

/** A material of the route as it is now to be; refused where the route could not hold it. */
export function changeMaterial(route: Route, key: string, material: Material): Edited {
  if (!Object.hasOwn(route.materials, key)) return refused(`"${key}" is not among the materials of this route`);
  return checked({ ...route, materials: { ...route.materials, [key]: material } });
}

/** Takes a material out that no step names. */
export function removeMaterial(route: Route, key: string): Edited {
  return checked({ ...route, materials: Object.fromEntries(Object.entries(route.materials).filter(([one]) => one !== key)) });
}

/** Keys of materials that no step names. */
export function unnamedMaterials(route: Route): readonly string[] {
  const named = namedMaterials(route);
  return Object.keys(route.materials).filter((key) => !named.has(key));
}

function namedMaterials(route: Route): ReadonlySet<string> {
  return new Set(route.steps.flatMap((step) => mentions(step).map((one) => one.key)));
}

/** What an edit left without any mention goes with it; materials nobody named before stay. */
export function withoutLeftOver(before: Route, after: Route): Route {
  const named = namedMaterials(before);
  const gone = new Set(unnamedMaterials(after).filter((key) => named.has(key)));
  if (gone.size === 0) return after;
  return { ...after, materials: Object.fromEntries(Object.entries(after.materials).filter(([key]) => !gone.has(key))) };
}

/** What is known of every material of a route, by key. */
export function factsOfRoute(route: Route, reference: Reference): ReadonlyMap<string, Facts> {
  return new Map(Object.entries(route.materials).map(([key, material]) => [key, factsOf(material, reference)]));
}
