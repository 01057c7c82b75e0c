import { isExplosive } from '../bench/explosive.ts';
import { amountOf, type Governed } from '../plan/amounts.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import { type Maybe, known, unknown, type Why } from '../words/why.ts';
import type { Facts } from './facts.ts';
import type { Form } from './form.ts';
import { equivalentsPerLitre, massFraction, molPerMillilitre } from './solution.ts';

/** One strength as it would be taken. */
export interface Taken {
  readonly grams: Maybe<'g'>;
  readonly millilitres: Maybe<'mL'>;
  /** What comes with the active material: solvent and the rest of an assay. */
  readonly others: Maybe<'g'>;
  /** mol/L. */
  readonly molarity: Maybe<'mol/L'>;
  /** eq/L, where one of the strengths says how many equivalents a mole has. */
  readonly normality: Maybe<''> | null;
}

export interface Replacement {
  /** The same in both: what is kept. */
  readonly moles: Maybe<'mol'>;
  readonly asked: Taken;
  readonly instead: Taken;
  /** More (or, negative, less) of what is not active material, g; and of volume, mL. */
  readonly moreOthers: Maybe<'g'>;
  readonly moreVolume: Maybe<'mL'>;
  /** What has to be said beside the numbers, as codes for sentences. */
  readonly notes: readonly Why[];
}

/**
 * How much of one strength carries as much active material as an amount of another, and what else changes with it:
 * the water (or other solvent) brought in, the volume, the strength per litre. Equal moles do not mean equal
 * behaviour: the notes say so.
 * @param asked form and amount (g, mL or mol) to be replaced. @param instead form to take in its place.
 * @returns each figure by itself, or why it is not known. Source: conservation of moles; domain: any strength with a
 * molar mass, volumes and mol/L only where a density is known.
 */
export function replaceStrength(
  facts: Facts,
  asked: { readonly form: Form; readonly amount: Governed },
  instead: Form,
  reference: Reference,
): Replacement {
  const before = isExplosive(facts, asked.form, reference)
    ? refused(facts)
    : amountOf(facts, asked.form, asked.amount, reference);
  const { moles } = before;
  const after = moles.ok ? amountOf(facts, instead, { by: 'mol', figure: moles.figure }, reference) : null;
  const nothing = { grams: moles as Maybe<'g'>, millilitres: moles as Maybe<'mL'> };
  const perMole = equivalentsIn(asked.form) ?? equivalentsIn(instead);
  const one = { ...taken(facts, asked.form, before, reference), normality: normalityOf(facts, asked.form, perMole, reference) };
  const other = {
    ...taken(facts, instead, after ?? nothing, reference),
    normality: normalityOf(facts, instead, perMole, reference),
  };
  return {
    moles,
    asked: one,
    instead: other,
    moreOthers: difference('more water or other solvent', other.others, one.others),
    moreVolume: difference('more volume', other.millilitres, one.millilitres),
    notes: notesOf(facts, asked.form, instead, reference),
  };
}

function equivalentsIn(form: Form): number | undefined {
  return form.kind === 'solution' ? form.strength.equivalentsPerMole : undefined;
}

function normalityOf(facts: Facts, form: Form, perMole: number | undefined, reference: Reference): Maybe<''> | null {
  if (perMole === undefined || form.kind !== 'solution') return null;
  return equivalentsPerLitre(facts, form, perMole, reference);
}

function taken(
  facts: Facts,
  form: Form,
  { grams, millilitres }: { readonly grams: Maybe<'g'>; readonly millilitres: Maybe<'mL'> },
  reference: Reference,
): Omit<Taken, 'normality'> {
  const fraction = massFraction(facts, form, reference);
  const per = molPerMillilitre(facts, form, reference);
  const others: Maybe<'g'> =
    grams.ok && fraction.ok
      ? known(
          computed(
            `with the ${facts.name}`,
            grams.figure.value * (1 - fraction.figure.value),
            'g',
            'mass × (1 − mass fraction)',
            [grams.figure, fraction.figure],
          ),
        )
      : grams.ok
        ? (fraction as Maybe<'g'>)
        : grams;
  const molarity: Maybe<'mol/L'> = per.ok
    ? known(computed(`${facts.name}, mol/L`, per.figure.value * 1000, 'mol/L', 'mol per millilitre × 1000', [per.figure]))
    : per;
  return { grams, millilitres, others, molarity };
}

function difference<U extends 'g' | 'mL'>(label: string, after: Maybe<U>, before: Maybe<U>): Maybe<U> {
  if (!after.ok) return after;
  if (!before.ok) return before;
  const of: readonly Figure[] = [after.figure, before.figure];
  return known(computed(label, after.figure.value - before.figure.value, after.figure.unit, 'instead − asked', of));
}

function notesOf(facts: Facts, asked: Form, instead: Form, reference: Reference): readonly Why[] {
  const notes: Why[] = [{ code: 'equal moles only', values: { material: facts.name } }];
  const [before, after] = [massFraction(facts, asked, reference), massFraction(facts, instead, reference)];
  if (before.ok && after.ok && before.figure.value !== after.figure.value) {
    const weaker = after.figure.value < before.figure.value;
    notes.push({ code: weaker ? 'weaker instead' : 'stronger instead', values: { material: facts.name } });
  }
  return notes;
}

/** No other strength of an explosive is worked out. */
function refused({ name }: Facts): { readonly [U in 'grams' | 'moles' | 'millilitres']: ReturnType<typeof unknown> } {
  const why = unknown('explosive not made up', { material: name });
  return { grams: why, moles: why, millilitres: why };
}
