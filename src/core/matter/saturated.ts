import { isExplosive } from '../bench/explosive.ts';
import { knownSolubility } from '../crystallise/known-solubility.ts';
import type { Reference } from '../reference.ts';
import { remember } from '../remember.ts';
import type { Charge } from '../route/route.ts';
import type { Facts } from './facts.ts';
import { type Form, NEAT, solventOf } from './form.ts';

/** Temperature at which "saturated" is taken, °C: the tables' and the measures' own. */
export const SATURATED_CELSIUS = 20;
/** Solid over what dissolves, %: some has to stay undissolved, so that the solution is known to be full. Common practice, no source. */
export const SURPLUS_PERCENT = 5;
/** Digits of a solubility in the tables. */
const DIGITS = 4;

/** A saturated solution in water, as the tables have it. */
export interface Saturated {
  readonly celsius: number;
  /** g of the solid that 100 g of water dissolve at that temperature. */
  readonly grams: number;
  readonly source: string;
  /** Its strength, % w/w. */
  readonly form: Form & { readonly kind: 'solution' };
}

const OTHERWISE = /\b(?:half|semi|nearly|partly|partially)[\s-]*saturated\b|\bsaturated\s+(?:with|at)\b/i;

/** Whether a charge is called a saturated solution in water. "Half-saturated", "saturated with argon" and "saturated at 0 °C" are other things. */
export function isSaturated({ note, form }: Pick<Charge, 'note' | 'form'>): boolean {
  if (note === undefined || !/\bsaturated\b/i.test(note) || OTHERWISE.test(note)) return false;
  return form?.kind !== 'neat' && (form === undefined || solventOf(form) === 'water');
}

/**
 * What a saturated solution of a solid in water is at 20 °C, g/100 g of water and % w/w = 100 · S ÷ (100 + S); null where the
 * table has no figure of that temperature, for what is no solid, and for an explosive.
 */
export const saturatedInWater = remember((facts: Facts, reference: Reference): Saturated | null => {
  if (facts.state !== 'solid' || isExplosive(facts, NEAT, reference)) return null;
  const known = knownSolubility({ solvent: 'water', per: '100 g solvent', points: [] }, facts, reference);
  const point = known?.points.find(({ celsius }) => celsius === SATURATED_CELSIUS);
  if (!known?.row || !point || known.per !== '100 g solvent') return null;
  const { source, mark } = known.row;
  const value = Number(((100 * point.grams) / (100 + point.grams)).toPrecision(DIGITS));
  return {
    celsius: SATURATED_CELSIUS,
    grams: point.grams,
    source: mark ? `${source}, ${mark}` : source,
    form: { kind: 'solution', strength: { value, basis: '% w/w' } },
  };
});

/** Whether a charge is called saturated and stands at the strength that is; one of another strength, typed by hand, is that. */
export function isOfSaturatedStrength(charge: Pick<Charge, 'note' | 'form'>, facts: Facts, reference: Reference): boolean {
  const { form } = charge;
  if (form?.kind !== 'solution' || !isSaturated(charge)) return false;
  const full = saturatedInWater(facts, reference)?.form.strength;
  return full !== undefined && full.value === form.strength.value && full.basis === form.strength.basis;
}
