import { type Facts, foldName } from '../matter/facts.ts';
import { materialNamed } from '../matter/named.ts';
import type { Reference } from '../reference.ts';

/** Between which temperatures a solvent is a liquid at room pressure, °C; null where it is not known. */
export interface SolventLimits {
  readonly freezes: number | null;
  readonly boils: number | null;
}

/**
 * Limits of a solvent by its name, as the route or the built-in table knows it. A strength behind the name ("ethanol 95 %")
 * or a mixture ("ethanol/water") is another liquid: nothing is known of it.
 */
export function solventLimits(name: string, facts: ReadonlyMap<string, Facts>, reference: Reference): SolventLimits {
  const own = [...facts].find(([key, one]) => key === name || foldName(one.name) === foldName(name))?.[1];
  const row = (own?.cas ? reference.material.get(own.cas) : undefined) ?? materialNamed(name, reference);
  return { freezes: row?.meltingPoint ?? null, boils: row?.boilingPoint ?? null };
}
