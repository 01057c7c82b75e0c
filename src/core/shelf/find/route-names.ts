import { foldForSearch } from '../../matter/fold-name.ts';
import { foldName } from '../../matter/facts.ts';
import type { Reference } from '../../reference.ts';
import type { KnownRoute, RouteMaterial } from '../import/route-materials.ts';

/** So many are offered beside what the built-in table has. */
const MOST = 5;

/** The materials of some routes that the built-in table does not have, each once, with the first route that names it. */
export function materialsOfRoutes(routes: readonly KnownRoute[], reference: Reference): readonly RouteMaterial[] {
  const found = new Map<string, RouteMaterial>();
  for (const { name: route, materials } of routes) {
    for (const material of Object.values(materials)) {
      if (material.utility || (material.cas !== undefined && reference.material.has(material.cas))) continue;
      const mark = `${foldName(material.name)}/${material.cas ?? ''}`;
      if (!found.has(mark)) found.set(mark, { material, route });
    }
  }
  return [...found.values()];
}

/** Those of them that a typed name, formula or CAS number may mean, what begins so first; none for less than two characters. */
export function findInRoutes(typed: string, known: readonly RouteMaterial[]): readonly RouteMaterial[] {
  const folded = foldForSearch(typed);
  if (folded.length < 2) return [];
  const rank = ({ material: { name, synonyms, formula, cas } }: RouteMaterial): number => {
    const names = [name, ...(synonyms ?? [])].map(foldForSearch);
    if (names.some((one) => one.startsWith(folded))) return 0;
    if (formula === typed.trim() || (cas !== undefined && /\d-/.test(typed) && cas.startsWith(typed.trim()))) return 1;
    return names.some((one) => one.includes(folded)) ? 2 : 3;
  };
  return known
    .filter((one) => rank(one) < 3)
    .sort((a, b) => rank(a) - rank(b))
    .slice(0, MOST);
}
