import type { Facts } from '../matter/facts.ts';
import type { Form } from '../matter/form.ts';
import { dissolvedIn } from '../matter/solution-parts.ts';
import type { Reference } from '../reference.ts';
import { natureOf } from './nature.ts';

/** Where something lies in the vessel. */
export type Phase = 'aqueous' | 'organic' | 'solid' | 'gas';

/**
 * Where a charge goes by its nature: a solution where its solvent goes; water, what mixes with it and inorganic liquids
 * into the aqueous layer; other liquids into the organic one. Which layer a solute prefers is not worked out.
 * @param byVolume it is charged by volume alone: a liquid, where nothing says otherwise.
 */
export function phaseOf(facts: Facts, form: Form, reference: Reference, byVolume = false): Phase {
  if (form.kind === 'solution') return layerOf(dissolvedIn(form, reference), reference);
  if (facts.state === 'gas') return 'gas';
  const liquid = facts.state === 'liquid' || (facts.state === null && byVolume);
  if (liquid || facts.liquidDensity !== null) return layerOf(facts, reference);
  return 'solid';
}

/** The layer a liquid belongs to; one that nothing is known of counts as organic. */
export function layerOf(liquid: Facts, reference: Reference): 'aqueous' | 'organic' {
  const nature = natureOf(liquid, reference);
  if (nature.water || nature.groups.includes('miscible with water')) return 'aqueous';
  return nature.organic || liquid.formula === null ? 'organic' : 'aqueous';
}
