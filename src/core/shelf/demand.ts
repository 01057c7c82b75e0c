import type { Facts } from '../matter/facts.ts';
import type { Form } from '../matter/form.ts';
import { amountOf, type Governed } from '../plan/amounts.ts';
import type { Reference } from '../reference.ts';

/** One charge's call on the shelf. */
export interface Demand {
  readonly step: string;
  readonly operation: string;
  readonly material: string;
  readonly facts: Facts;
  readonly form: Form;
  readonly governed: Governed;
  /** Part of it that must be in hand beyond what is used up, because it comes back only later; 0 … 1 of the charge. */
  readonly returns: number;
  /** Times the amount that must be in hand, where a charge goes on until an end point; 1 otherwise. */
  readonly atMost: number;
  readonly leastAssayPercent: number;
  /** Taken by volume, so that the shelf is asked in millilitres. */
  readonly liquid: boolean;
}

/**
 * How much of a bottle in `form` meets a demand, in the bottle's unit: a rule on moles is corrected for assay and
 * strength, a rule on mass or volume is taken as supplied. Null where it cannot be converted.
 */
export function inUnit(demand: Demand, form: Form, unit: 'g' | 'mL', reference: Reference): number | null {
  const amount = amountOf(demand.facts, form, demand.governed, reference);
  const part = unit === 'g' ? amount.grams : amount.millilitres;
  return part.ok ? part.figure.value : null;
}
