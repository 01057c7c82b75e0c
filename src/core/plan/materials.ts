import type { Facts } from '../matter/facts.ts';
import type { Route } from '../route/route.ts';
import type { Network } from './network/network.ts';
import type { MaterialPlan } from './result.ts';
import type { Requirement } from './solve/requirements.ts';

/** Every material of the route as the plan understood it. */
export function materialPlans(
  route: Route,
  facts: ReadonlyMap<string, Facts>,
  network: Network | null,
  requirements: readonly Requirement[] = [],
): Readonly<Record<string, MaterialPlan>> {
  return Object.fromEntries(
    Object.keys(route.materials).map((key) => {
      const one = facts.get(key) as Facts;
      const makers = network?.makersOf.get(key) ?? [];
      const maker = makers.find((i) => requirements[i]?.active) ?? makers[0];
      const { name, formula, cas, smiles, state, utility, molarMass } = one;
      const madeBy = maker === undefined ? null : (network?.steps[maker]?.id ?? null);
      return [key, { key, name, formula, cas, smiles, state, utility, molarMass, madeBy }];
    }),
  );
}
