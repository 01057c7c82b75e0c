import { atomsApart } from '../../matter/atoms-apart.ts';
import { foldName } from '../../matter/facts.ts';
import type { Material } from '../../matter/material.ts';

/** A route as far as a shelf table is held against it. */
export interface KnownRoute {
  readonly name: string;
  readonly materials: Readonly<Record<string, Material>>;
}

/** A material as a route knows it, and that route's name. */
export interface RouteMaterial {
  readonly material: Material;
  readonly route: string;
}

/** What the routes know of a material that a row names. */
export type RouteMaterials = (name: string | undefined, cas: string | undefined) => RouteMaterial | undefined;

/** Where no route is known. */
export const NO_ROUTES: RouteMaterials = () => undefined;

/**
 * Looks a row's material up in the routes: by its CAS number, else by its name where a route or the row gives no number.
 * What two routes give formulas of different atoms for is nobody's. The first route in the list says it. Never fails.
 */
export function routeMaterials(routes: readonly KnownRoute[]): RouteMaterials {
  const found = new Map<string, RouteMaterial | null>();
  for (const { name: route, materials } of routes) {
    for (const material of Object.values(materials)) {
      if (material.formula === undefined && material.cas === undefined) continue;
      for (const mark of marksOf(material)) {
        const before = found.get(mark);
        if (before === undefined) found.set(mark, { material, route });
        else if (before && atomsApart(before.material.formula, material.formula)) found.set(mark, null);
        else if (before && before.material.formula === undefined && material.formula !== undefined)
          found.set(mark, { material, route });
      }
    }
  }
  return (name, cas) => {
    const byNumber = cas === undefined ? undefined : found.get(`CAS ${cas}`);
    if (byNumber !== undefined || name === undefined) return byNumber ?? undefined;
    const called = found.get(foldName(name)) ?? undefined;
    return cas !== undefined && called?.material.cas !== undefined ? undefined : called;
  };
}

function marksOf({ name, cas, synonyms }: Material): ReadonlySet<string> {
  return new Set([...(cas === undefined ? [] : [`CAS ${cas}`]), foldName(name), ...(synonyms ?? []).map(foldName)]);
}
