import { amountOf, type Governed } from '../plan/amounts.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import { type Maybe, known, unknown } from '../words/why.ts';
import { type Facts, factsOf, foldName } from './facts.ts';
import { type Form, plainStrength, solventOf } from './form.ts';
import { hydrateOf } from './hydrate.ts';
import { solventFacts } from './named.ts';
import { gramsPerMillilitre, massFraction, molPerMillilitre } from './solution.ts';

/** A material as it stands in a bottle. */
export interface Presented {
  readonly facts: Facts;
  readonly form: Form;
}

/** A solution of a known strength, or one that is wanted. */
export type SolutionForm = Form & { readonly kind: 'solution' };

/** The substance without its water of crystallisation. */
export function anhydrousOf(facts: Facts, reference: Reference): Facts {
  return hydrateOf(facts, reference)?.anhydrous ?? facts;
}

/** The same substance, water of crystallisation aside: by CAS number where both have one, else by name. */
export function sameSubstance(one: Facts, other: Facts, reference: Reference): boolean {
  const [a, b] = [anhydrousOf(one, reference), anhydrousOf(other, reference)];
  return a.cas !== null && b.cas !== null ? a.cas === b.cas : foldName(a.name) === foldName(b.name);
}

/**
 * Grams of solute that a wanted amount of solution holds, g. A strength per volume needs no density for this where the
 * amount is a volume.
 * @param amount of solution in g or mL, or of contained solute in mol.
 */
export function soluteIn(solute: Facts, form: SolutionForm, amount: Governed, reference: Reference): Maybe<'g'> {
  const label = `${solute.name} in it`;
  if (amount.by === 'mol') {
    if (!solute.molarMass) return unknown('no molar mass', { material: solute.name });
    const { figure } = amount;
    return known(computed(label, figure.value * solute.molarMass.value, 'g', 'moles × molar mass', [figure, solute.molarMass]));
  }
  if (amount.by === 'mL') {
    const per = solutePerMillilitre(solute, { facts: solute, form }, reference);
    if (!per.ok) return per;
    return known(
      computed(label, amount.figure.value * per.figure.value, 'g', 'volume × grams per millilitre', [amount.figure, per.figure]),
    );
  }
  const fraction = massFraction(solute, form, reference);
  if (!fraction.ok) return fraction;
  return known(
    computed(label, amount.figure.value * fraction.figure.value, 'g', 'mass × mass fraction', [amount.figure, fraction.figure]),
  );
}

/** Grams of solute per gram of what stands in the bottle; a hydrate counts as what it holds of the solute, mole for mole. */
export function soluteShare(solute: Facts, from: Presented, reference: Reference): Maybe<'g/g'> {
  if (!sameSubstance(solute, from.facts, reference))
    return unknown('another substance', { material: from.facts.name, other: solute.name });
  const fraction = massFraction(from.facts, from.form, reference);
  if (!fraction.ok || from.facts.formula === solute.formula) return fraction;
  const [own, other] = [solute.molarMass, from.facts.molarMass];
  if (!own || !other) return unknown('no molar mass', { material: own ? from.facts.name : solute.name });
  const value = (fraction.figure.value * own.value) / other.value;
  const how = 'mass fraction × molar mass counted ÷ molar mass weighed';
  return known(computed(`${solute.name} in a gram of ${from.facts.name}`, value, 'g/g', how, [fraction.figure, own, other]));
}

/** Grams of solute per millilitre of a solution, g/mL; needs no density where the strength is one per volume. */
export function solutePerMillilitre(solute: Facts, from: Presented, reference: Reference): Maybe<'g/mL'> {
  const label = `${solute.name} in a millilitre`;
  if (from.form.kind === 'solution' && solute.formula === from.facts.formula) {
    const { value, basis } = plainStrength(from.form.strength);
    const per = { '% w/v': 100, 'g/L': 1000 }[basis as string];
    if (per !== undefined) return known(strengthPerVolume(label, value / per, value, basis));
  }
  const moles = molPerMillilitre(from.facts, from.form, reference);
  if (moles.ok && solute.molarMass) {
    const value = moles.figure.value * solute.molarMass.value;
    return known(computed(label, value, 'g/mL', 'mol per millilitre × molar mass', [moles.figure, solute.molarMass]));
  }
  const share = soluteShare(solute, from, reference);
  if (!share.ok) return share;
  const density = gramsPerMillilitre(from.facts, from.form, reference);
  if (!density.ok) return density;
  const value = share.figure.value * density.figure.value;
  return known(computed(label, value, 'g/mL', 'mass fraction × density', [share.figure, density.figure]));
}

function strengthPerVolume(label: string, value: number, stated: number, basis: string): Figure<'g/mL'> {
  const strength: Figure = {
    label: `strength, ${basis}`,
    value: stated,
    unit: '',
    digits: 15,
    from: { kind: 'entered', where: 'strength' },
  };
  return computed(label, value, 'g/mL', 'strength per millilitre', [strength]);
}

/**
 * A strength that counts a hydrate, as the same solution's strength in anhydrous substance, whose densities and heats
 * are known: mol/L is the same, strengths by mass are less by the water. Anything else stays as it is.
 */
export function asAnhydrous(
  solute: Facts,
  form: SolutionForm,
  reference: Reference,
): { readonly solute: Facts; readonly form: SolutionForm } {
  const base = anhydrousOf(solute, reference);
  if (base === solute || !base.molarMass || !solute.molarMass) return { solute, form };
  const { value, basis } = plainStrength(form.strength);
  const lighter = base.molarMass.value / solute.molarMass.value;
  const factor = { 'mol/L': 1, '% w/w': lighter, '% w/v': lighter, 'g/L': lighter }[basis as string];
  if (factor === undefined) return { solute, form };
  return { solute: base, form: { ...form, strength: { value: value * factor, basis } } };
}

/** What a solution is dissolved in; a solvent the table does not know has its name and nothing else. */
export function dissolvedIn(form: SolutionForm, reference: Reference): Facts {
  return solventFacts(form, reference) ?? factsOf({ name: solventOf(form) }, reference);
}

/** Volume of a mass of a neat liquid or a solution, mL, where its density is known. */
export function volumeOf(grams: Figure<'g'>, of: Presented, reference: Reference): Maybe<'mL'> {
  return amountOf(of.facts, of.form, { by: 'g', figure: grams }, reference).millilitres;
}
