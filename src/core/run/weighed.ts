import { factsOf } from '../matter/facts.ts';
import type { Material } from '../matter/material.ts';
import { gramsPerMillilitre, molPerGram, molPerMillilitre } from '../matter/solution.ts';
import type { Reference } from '../reference.ts';
import type { Bottle } from '../shelf/shelf.ts';
import type { RunCharge } from './run-sheet.ts';

export interface Contents {
  /** In the bottle's own unit; null where only a density could tell and none is known, or there is no bottle. */
  readonly taken: number | null;
  /** Contained moles of the active material; null where they cannot be told. */
  readonly moles: number | null;
  /** Of what the bottle holds, g/mL; null where that is not known, or there is no bottle. */
  readonly density: number | null;
}

/**
 * What a weighed amount takes out of a bottle and brings into the vessel, from the bottle's own assay or strength;
 * without a bottle as the plan reckoned the charge.
 * @param net > 0, g or mL as weighed or measured.
 * @param material as the route names it.
 */
export function contentsOf(
  charge: RunCharge,
  net: number,
  unit: 'g' | 'mL',
  bottle: Pick<Bottle, 'form' | 'unit'> | null,
  material: Material,
  reference: Reference,
): Contents {
  if (!bottle) return { taken: null, moles: plannedMoles(charge, net, unit), density: null };
  const facts = factsOf(material, reference);
  const found = gramsPerMillilitre(facts, bottle.form, reference);
  const density = found.ok ? found.figure.value : charge.gramsPerMillilitre;
  const per = unit === 'g' ? molPerGram(facts, bottle.form, reference) : molPerMillilitre(facts, bottle.form, reference);
  return {
    taken: exchanged(net, unit, bottle.unit, density),
    moles: per.ok ? net * per.figure.value : null,
    density: found.ok ? found.figure.value : null,
  };
}

function plannedMoles(charge: RunCharge, net: number, unit: 'g' | 'mL'): number | null {
  const amount = exchanged(net, unit, charge.unit, charge.gramsPerMillilitre);
  const per = charge.restMolesPerUnit ?? charge.molesPerUnit;
  return amount === null || per === null ? null : amount * per;
}

function exchanged(amount: number, from: 'g' | 'mL', to: 'g' | 'mL', density: number | null): number | null {
  if (from === to) return amount;
  if (density === null) return null;
  return from === 'g' ? amount / density : amount * density;
}
