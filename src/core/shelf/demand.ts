import type { Facts } from '../matter/facts.ts';
import type { Form } from '../matter/form.ts';
import { type Governed, suppliedIn } from '../plan/amounts.ts';
import type { Reference } from '../reference.ts';
import { formWords } from '../words/form-words.ts';

/** One charge's call on the shelf. */
export interface Demand {
  readonly step: string;
  readonly operation: string;
  readonly material: string;
  readonly facts: Facts;
  readonly form: Form;
  readonly governed: Governed;
  /** Part of what each batch charges that comes back and goes into the next, 0 … 1. */
  readonly returns: number;
  /** Equal batches that it is charged in, one after the other; from 1 on. */
  readonly batches: number;
  /** Times the amount that must be in hand, where a charge goes on until an end point; 1 otherwise. */
  readonly atMost: number;
  readonly leastAssayPercent: number;
  /** Taken by volume, so that the shelf is asked in millilitres. */
  readonly liquid: boolean;
  /**
   * What is taken of a bottle of a form, as a multiple of what goes in: more than 1 where that is too little to be weighed,
   * and a stock solution is made of what is.
   */
  readonly taken: (form: Form) => number;
  /** Asked for as saturated: `form` is the strength that is. */
  readonly saturated?: boolean;
}

/**
 * How much of a bottle in `form` meets a demand, in the bottle's unit: a rule on moles is corrected for assay and
 * strength, a rule on mass or volume is taken as supplied. Null where it cannot be converted.
 */
export function inUnit(demand: Demand, form: Form, unit: 'g' | 'mL', reference: Reference): number | null {
  return suppliedIn(unit, demand.facts, form, demand.governed, reference);
}

/** The same with what is dissolved of it where it goes in as a stock solution: what the bottle has to give. */
export function fromBottle(demand: Demand, form: Form, unit: 'g' | 'mL', reference: Reference): number | null {
  const goesIn = inUnit(demand, form, unit, reference);
  return goesIn === null ? null : goesIn * demand.taken(form);
}

/** A fetch line stands for one material in one form. */
export function lineId(demand: Pick<Demand, 'material' | 'form' | 'leastAssayPercent'>): string {
  const least = demand.leastAssayPercent > 0 ? `, at least ${demand.leastAssayPercent} %` : '';
  return `${demand.material}: ${formWords(demand.form)}${least}`;
}
