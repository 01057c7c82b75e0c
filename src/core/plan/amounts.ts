import type { Facts } from '../matter/facts.ts';
import type { Form } from '../matter/form.ts';
import { gramsPerMillilitre, molPerGram, molPerMillilitre } from '../matter/solution.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import { remember } from '../remember.ts';
import { type Maybe, known } from '../words/why.ts';

/** The quantity a rule fixes; the others follow from it through the form's strength and density. */
export type Governed =
  | { readonly by: 'mol'; readonly figure: Figure<'mol'> }
  | { readonly by: 'g'; readonly figure: Figure<'g'> }
  | { readonly by: 'mL'; readonly figure: Figure<'mL'> };

/** How much of a material in one form: active moles, grams and millilitres as supplied, or why one is not known. */
export interface Amount {
  readonly moles: Maybe<'mol'>;
  readonly grams: Maybe<'g'>;
  readonly millilitres: Maybe<'mL'>;
  readonly density: Maybe<'g/mL'>;
}

/**
 * Completes the quantity a rule fixed: moles ↔ grams ↔ millilitres of a material in a form.
 * Each part is worked out by itself, so a missing density costs only the volume.
 */
export function amountOf(facts: Facts, form: Form, governed: Governed, reference: Reference): Amount {
  const { density, perGram, perMillilitre } = contentsOf(reference)(facts, form);
  const name = facts.name;
  if (governed.by === 'mol') {
    const moles = governed.figure;
    return {
      moles: known(moles),
      grams: divide(`mass of ${name}`, moles, perGram, 'g', 'moles ÷ moles per gram'),
      millilitres: divide(`volume of ${name}`, moles, perMillilitre, 'mL', 'moles ÷ moles per millilitre'),
      density,
    };
  }
  if (governed.by === 'g') {
    const grams = governed.figure;
    return {
      moles: multiply(`${name}, moles`, grams, perGram, 'mol', 'grams × moles per gram'),
      grams: known(grams),
      millilitres: divide(`volume of ${name}`, grams, density, 'mL', 'grams ÷ density'),
      density,
    };
  }
  const millilitres = governed.figure;
  return {
    moles: multiply(`${name}, moles`, millilitres, perMillilitre, 'mol', 'millilitres × moles per millilitre'),
    grams: multiply(`mass of ${name}`, millilitres, density, 'g', 'millilitres × density'),
    millilitres: known(millilitres),
    density,
  };
}

/**
 * g or mL of a material in one form as supplied, as amountOf has them, where the bare number is enough: the shelf asks
 * for it of every bottle and every charge. Null where it is not known.
 */
export function suppliedIn(
  unit: 'g' | 'mL',
  facts: Facts,
  form: Form,
  { by, figure }: Governed,
  reference: Reference,
): number | null {
  if (by === unit) return figure.value;
  const { density, perGram, perMillilitre } = contentsOf(reference)(facts, form);
  if (by === 'mol') {
    const per = unit === 'g' ? perGram : perMillilitre;
    return per.ok ? figure.value / per.figure.value : null;
  }
  if (!density.ok) return null;
  return unit === 'g' ? figure.value * density.figure.value : figure.value / density.figure.value;
}

interface Contents {
  readonly density: Maybe<'g/mL'>;
  readonly perGram: Maybe<'mol/g'>;
  readonly perMillilitre: Maybe<'mol/mL'>;
}

const contents = new WeakMap<Reference, (facts: Facts, form: Form) => Contents>();

/** What a gram and a millilitre of a form hold, remembered per material and form. */
function contentsOf(reference: Reference): (facts: Facts, form: Form) => Contents {
  let known = contents.get(reference);
  if (!known) {
    known = remember((facts: Facts, form: Form) => ({
      density: gramsPerMillilitre(facts, form, reference),
      perGram: molPerGram(facts, form, reference),
      perMillilitre: molPerMillilitre(facts, form, reference),
    }));
    contents.set(reference, known);
  }
  return known;
}

function multiply<U extends 'mol' | 'g'>(
  label: string,
  amount: Figure,
  per: Maybe<'mol/g' | 'mol/mL' | 'g/mL'>,
  unit: U,
  how: string,
): Maybe<U> {
  return per.ok ? known(computed(label, amount.value * per.figure.value, unit, how, [amount, per.figure])) : per;
}

function divide<U extends 'g' | 'mL'>(
  label: string,
  amount: Figure,
  per: Maybe<'mol/g' | 'mol/mL' | 'g/mL'>,
  unit: U,
  how: string,
): Maybe<U> {
  return per.ok ? known(computed(label, amount.value / per.figure.value, unit, how, [amount, per.figure])) : per;
}
