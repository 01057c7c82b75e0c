import { factsOf } from '../matter/facts.ts';
import type { Form } from '../matter/form.ts';
import type { Material } from '../matter/material.ts';
import { gramsPerMillilitre } from '../matter/solution.ts';
import type { Figure } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';

/** Where a density comes from, in a word: written on the bottle, given with the material, tables, a model or a formula. */
export type DensityFrom = 'bottle' | 'material' | 'table' | 'from memory' | 'model' | 'formula';

export interface ShownDensity {
  readonly figure: Figure<'g/mL'>;
  readonly from: DensityFrom;
}

/**
 * Density of what a bottle holds, g/mL at 20 °C, with where it comes from; 'none' where it is poured and none is known; null where
 * it is weighed (a solid, a gas) or its strength is not known. Sources as `gramsPerMillilitre` has them; nothing is extrapolated.
 */
export function shownDensity(material: Material, form: Form, reference: Reference): ShownDensity | 'none' | null {
  const facts = factsOf(material, reference);
  const poured = form.kind === 'solution' || (form.kind === 'neat' && facts.state === 'liquid');
  if (form.kind === 'unknown' || (!poured && !form.density)) return null;
  const density = gramsPerMillilitre(facts, form, reference);
  if (!density.ok) return 'none';
  return { figure: density.figure, from: fromOf(density.figure, material, form) };
}

function fromOf(figure: Figure<'g/mL'>, material: Material, form: Form): DensityFrom {
  if (form.kind !== 'unknown' && form.density) return 'bottle';
  if (form.kind === 'neat' && material.density) return 'material';
  const mark = figure.from.kind === 'source' ? figure.from.mark : undefined;
  if (mark === 'model' || mark === 'formula') return mark;
  return mark === 'from memory' ? 'from memory' : 'table';
}
