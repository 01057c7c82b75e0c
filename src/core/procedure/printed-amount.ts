import type { Facts } from '../matter/facts.ts';
import type { Form } from '../matter/form.ts';
import { amountOf } from '../plan/amounts.ts';
import { entered, type Figure } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import type { Charge } from '../route/route.ts';
import { digitsOf, type PrintedNumber } from './printed-number.ts';
import type { Printed } from './read-printed.ts';

/** What a print is read with. */
export interface Known {
  readonly facts: ReadonlyMap<string, Facts>;
  readonly reference: Reference;
}

export interface Three {
  readonly moles: Figure<'mol'> | null;
  readonly grams: Figure<'g'> | null;
  readonly millilitres: Figure<'mL'> | null;
}

/** What a print comes to: grams before millilitres before moles; null where it names none of them. */
export function printedAmount(facts: Facts, form: Form, printed: Printed, reference: Reference): Three | null {
  const figure = <U extends 'g' | 'mL' | 'mol'>(one: PrintedNumber, unit: U): Figure<U> =>
    entered(`${facts.name}, as printed`, one.value, unit, 'the procedure', digitsOf(one));
  const { grams, millilitres, moles } = printed;
  const by = grams
    ? ({ by: 'g', figure: figure(grams, 'g') } as const)
    : millilitres
      ? ({ by: 'mL', figure: figure(millilitres, 'mL') } as const)
      : moles
        ? ({ by: 'mol', figure: figure(moles, 'mol') } as const)
        : null;
  if (!by) return null;
  const amount = amountOf(facts, form, by, reference);
  return {
    // Where nothing turns the amount into moles, the printed ones are what there is.
    moles: amount.moles.ok ? amount.moles.figure : moles ? figure(moles, 'mol') : null,
    grams: amount.grams.ok ? amount.grams.figure : null,
    // Both printed: the volume is shown as it stands; the check says where it does not fit.
    millilitres: millilitres ? figure(millilitres, 'mL') : amount.millilitres.ok ? amount.millilitres.figure : null,
  };
}

/** The charge's form with the strength and density that the print names. */
export function printedForm(charge: Charge, printed: Printed): Form {
  const form = charge.form ?? { kind: 'neat' };
  const density = printed.density ? { gramsPerMillilitre: printed.density.value, celsius: 20, source: 'as printed' } : undefined;
  if (printed.strength) {
    const solvent = form.kind === 'neat' || form.solvent === undefined ? {} : { solvent: form.solvent };
    return { kind: 'solution', strength: printed.strength, ...solvent, ...(density ? { density } : {}) };
  }
  return density && form.kind !== 'unknown' ? { ...form, density } : form;
}
