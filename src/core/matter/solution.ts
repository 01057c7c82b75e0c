import { computed, EXACT, type Figure, entered } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import { remember } from '../remember.ts';
import { type Maybe, known, unknown } from '../words/why.ts';
import { measuredDensity, neatDensity, solutionDensity } from './density.ts';
import { type DensityCurve, densityCurve, pieceAt, STANDARD_CELSIUS, TEMPERATURE_MARGIN } from './density-curve.ts';
import type { Facts } from './facts.ts';
import { type Form, neatFraction, type PlainBasis, plainStrength, solventOf, type Strength } from './form.ts';

/**
 * The primitives everything about strengths is built on: how much of the active material is in a gram and in a
 * millilitre of what stands in the bottle, and what a millilitre weighs. Each gives a figure with its source, or why
 * there is none.
 */

type Solution = Form & { kind: 'solution' };

/** Mass fraction of the active material in what is weighed, g/g (0 < w ≤ 1). */
export function massFraction(facts: Facts, form: Form, reference: Reference): Maybe<'g/g'> {
  if (form.kind === 'unknown') return unknown('unknown strength', { material: facts.name });
  return form.kind === 'neat' ? neatAssay(facts, form) : solutionFraction(facts, form, reference);
}

function neatAssay({ name }: Facts, form: Form & { readonly kind: 'neat' }): Maybe<'g/g'> {
  const source = form.assayPercent ? 'assay' : 'taken as 100 %';
  const assay = entered(`assay of ${name}`, (form.assayPercent ?? 100) / 100, 'g/g', source);
  if (form.assayOn === undefined) return known(assay);
  const fraction = neatFraction(form);
  if (fraction === null || form.waterPercent === undefined) return unknown('no water content', { material: name });
  const water = entered(`water in ${name}`, form.waterPercent / 100, 'g/g', 'the bottle');
  return known(
    computed(`assay of ${name} as it is`, fraction, 'g/g', 'assay on the anhydrous basis × (1 − water)', [assay, water]),
  );
}

/** Moles of the active material per gram of what is weighed, mol/g. Needs a molar mass. */
export function molPerGram(facts: Facts, form: Form, reference: Reference): Maybe<'mol/g'> {
  if (!facts.molarMass) return unknown('no molar mass', { material: facts.name });
  const fraction = massFraction(facts, form, reference);
  if (!fraction.ok) return fraction;
  const value = fraction.figure.value / facts.molarMass.value;
  return known(
    computed(`${facts.name} per gram`, value, 'mol/g', 'mass fraction ÷ molar mass', [fraction.figure, facts.molarMass]),
  );
}

/** Moles of the active material per millilitre of what is measured, mol/mL. A strength in mol/L needs no density. */
export function molPerMillilitre(facts: Facts, form: Form, reference: Reference): Maybe<'mol/mL'> {
  if (form.kind === 'solution' && plainStrength(form.strength).basis === 'mol/L') {
    const strength = strengthFigure(facts, form.strength);
    return known(computed(`${facts.name} per millilitre`, strength.value / 1000, 'mol/mL', 'strength ÷ 1000', [strength]));
  }
  if (form.kind === 'solution' && ['% w/v', '% v/v', 'g/L'].includes(form.strength.basis)) {
    if (!facts.molarMass) return unknown('no molar mass', { material: facts.name });
    const active = gramsOfActivePerMillilitre(facts, form, strengthFigure(facts, form.strength), reference);
    if (!active.ok) return active;
    const value = active.figure.value / facts.molarMass.value;
    return known(
      computed(`${facts.name} per millilitre`, value, 'mol/mL', 'g/mL of active ÷ molar mass', [active.figure, facts.molarMass]),
    );
  }
  const perGram = molPerGram(facts, form, reference);
  if (!perGram.ok) return perGram;
  const density = gramsPerMillilitre(facts, form, reference);
  if (!density.ok) return density;
  const value = perGram.figure.value * density.figure.value;
  return known(
    computed(`${facts.name} per millilitre`, value, 'mol/mL', 'mol per gram × density', [perGram.figure, density.figure]),
  );
}

/**
 * Density of what stands in the bottle, g/mL, best source first; never extrapolated.
 * @param celsius temperature it is wanted for, °C: a density measured on the bottle, or given with the material, then
 * holds only near its own. Left out, what was measured or given stands as it is, and tables are read at 20 °C.
 */
export function gramsPerMillilitre(facts: Facts, form: Form, reference: Reference, celsius?: number): Maybe<'g/mL'> {
  if (form.kind === 'unknown') return unknown('unknown strength', { material: facts.name });
  const measured = measuredDensity(facts.name, form);
  if (measured && (celsius === undefined || isNear(celsius, form.density?.celsius))) return known(measured);
  if (form.kind === 'neat') {
    const liquid = neatDensity(facts, reference, celsius);
    if (liquid) return known(liquid);
    return unknown(facts.usuallyDissolved ? 'usually a solution' : 'no density', { material: facts.name });
  }
  const fraction = solutionFraction(facts, form, reference);
  return fraction.ok ? solutionDensity(facts, form, fraction.figure.value * 100, reference, celsius) : fraction;
}

function isNear(celsius: number, other: number | undefined): boolean {
  return other !== undefined && Math.abs(celsius - other) <= TEMPERATURE_MARGIN;
}

/**
 * The same strength on another basis. Round trips agree to 1e-12 relative.
 * % w/v, % v/v, mol/L and g/L need a density; % v/v also that of the pure liquid at 20 °C.
 */
export function strengthOn(basis: PlainBasis, facts: Facts, form: Solution, reference: Reference): Maybe<''> {
  const plain = plainStrength(form.strength);
  if (basis === plain.basis) return known(entered(`strength of ${facts.name}`, plain.value, '', basis));
  const fraction = solutionFraction(facts, form, reference);
  if (!fraction.ok) return fraction;
  const w = fraction.figure.value;
  const done = (value: number, of: readonly Figure[]): Maybe<''> =>
    known(computed(`${facts.name}, ${basis}`, value, '', `strength on ${basis}`, of));
  if (basis === '% w/w') return done(w * 100, [fraction.figure]);
  const mass = facts.molarMass;
  if (basis === 'mol/kg') {
    if (!mass) return unknown('no molar mass', { material: facts.name });
    return w >= 1
      ? unknown('no solvent', { material: facts.name })
      : done((1000 * w) / (mass.value * (1 - w)), [fraction.figure, mass]);
  }
  const density = gramsPerMillilitre(facts, form, reference);
  if (!density.ok) return density;
  const gramsPerMl = w * density.figure.value;
  if (basis === '% w/v') return done(gramsPerMl * 100, [fraction.figure, density.figure]);
  if (basis === 'g/L') return done(gramsPerMl * 1000, [fraction.figure, density.figure]);
  if (basis === 'mol/L')
    return mass
      ? done((gramsPerMl * 1000) / mass.value, [fraction.figure, density.figure, mass])
      : unknown('no molar mass', { material: facts.name });
  const pure = pureDensity(facts, form, reference);
  return pure.ok ? done((gramsPerMl / pure.figure.value) * 100, [fraction.figure, density.figure, pure.figure]) : pure;
}

/**
 * Equivalents per litre of a solution, eq/L (normality), for a use in which a mole has so many equivalents: protons
 * of an acid, hydroxide of a base, electrons of a redox reagent.
 * @param equivalentsPerMole > 0; never guessed, since it depends on the use.
 */
export function equivalentsPerLitre(facts: Facts, form: Solution, equivalentsPerMole: number, reference: Reference): Maybe<''> {
  if (!(equivalentsPerMole > 0))
    throw new RangeError(`equivalentsPerLitre needs equivalents per mole above 0 (got ${equivalentsPerMole})`);
  const molar = strengthOn('mol/L', facts, form, reference);
  if (!molar.ok) return molar;
  const per = entered('equivalents per mole', equivalentsPerMole, '', 'as stated');
  return known(
    computed(`${facts.name}, eq/L`, molar.figure.value * equivalentsPerMole, '', 'mol/L × equivalents per mole', [
      molar.figure,
      per,
    ]),
  );
}

const fractions = remember((_facts: Facts, _reference: Reference) => new WeakMap<Form, Maybe<'g/g'>>());

/** A strength by volume is solved for once: a plan asks for the same strengths at every keystroke. */
function solutionFraction(facts: Facts, form: Solution, reference: Reference): Maybe<'g/g'> {
  const found = fractions(facts, reference);
  let fraction = found.get(form);
  if (!fraction) found.set(form, (fraction = fractionOf(facts, form, reference)));
  return fraction;
}

function fractionOf(facts: Facts, form: Solution, reference: Reference): Maybe<'g/g'> {
  const { value, basis } = plainStrength(form.strength);
  const strength = strengthFigure(facts, form.strength);
  const fraction = (w: number, how: string, of: readonly Figure[]): Maybe<'g/g'> =>
    w > 0 && w <= 1
      ? known(computed(`mass fraction of ${facts.name}`, w, 'g/g', how, of))
      : unknown('impossible strength', { material: facts.name, value, basis });
  if (basis === '% w/w') return fraction(value / 100, 'strength ÷ 100', [strength]);
  if (basis === 'mol/kg') {
    if (!facts.molarMass) return unknown('no molar mass', { material: facts.name });
    const solute = value * facts.molarMass.value;
    return fraction(solute / (1000 + solute), 'solute ÷ (solvent + solute)', [strength, facts.molarMass]);
  }
  const perMillilitre = gramsOfActivePerMillilitre(facts, form, strength, reference);
  if (!perMillilitre.ok) return perMillilitre;
  const measured = measuredDensity(facts.name, form);
  if (measured)
    return fraction(perMillilitre.figure.value / measured.value, 'g/mL of active ÷ density', [perMillilitre.figure, measured]);
  return fractionFromTable(facts, form, perMillilitre.figure, reference);
}

/** Grams of active material per millilitre of solution, from a strength by volume. */
function gramsOfActivePerMillilitre(facts: Facts, form: Solution, strength: Figure, reference: Reference): Maybe<'g/mL'> {
  const { value, basis } = plainStrength(form.strength);
  const label = `${facts.name} in a millilitre`;
  if (basis === '% w/v') return known(computed(label, value / 100, 'g/mL', 'strength ÷ 100', [strength]));
  if (basis === 'g/L') return known(computed(label, value / 1000, 'g/mL', 'strength ÷ 1000', [strength]));
  if (basis === 'mol/L') {
    if (!facts.molarMass) return unknown('no molar mass', { material: facts.name });
    return known(
      computed(label, (value * facts.molarMass.value) / 1000, 'g/mL', 'strength × molar mass', [strength, facts.molarMass]),
    );
  }
  const pure = pureDensity(facts, form, reference);
  return pure.ok
    ? known(
        computed(label, (value / 100) * pure.figure.value, 'g/mL', 'volume fraction × density of the pure liquid', [
          strength,
          pure.figure,
        ]),
      )
    : pure;
}

/** The mass fraction w at which w · density(w) is the wanted g/mL; the product grows with w in every table. */
function fractionFromTable(facts: Facts, form: Solution, wanted: Figure<'g/mL'>, reference: Reference): Maybe<'g/g'> {
  const curve = densityCurve(facts, solventOf(form), STANDARD_CELSIUS, reference);
  if (!curve) return unknown('no density table', { material: facts.name });
  const percent = percentHolding(wanted.value, curve);
  if (percent === null) return unknown('outside density table', { material: facts.name, from: curve.from, to: curve.to });
  const density = solutionDensity(facts, form, percent, reference);
  if (!density.ok) return density;
  return known(
    computed(`mass fraction of ${facts.name}`, percent / 100, 'g/g', 'solved from the density table', [wanted, density.figure]),
  );
}

/** What a strength at the very end of a table may be off by, relative, once it was converted to another basis. */
const ROUNDING = 1e-12;

/**
 * Mass percent at which percent/100 · density is `wanted` g/mL, within the table; null outside it. The false position
 * is halved where it sticks (Illinois), so it converges to the last digit in a few rounds.
 */
function percentHolding(wanted: number, curve: DensityCurve): number | null {
  const excess = (percent: number): number =>
    (percent / 100) * (pieceAt(curve, percent)?.density(percent) ?? Number.NaN) - wanted;
  let low = curve.from;
  let high = curve.to;
  let below = excess(low);
  let above = excess(high);
  if (below > 0 || above < -wanted * ROUNDING) return null;
  let percent = below === 0 ? low : high;
  for (let round = 0; round < 200 && below < 0 && above > 0 && high - low > 1e-15 * high; round += 1) {
    const next = (low * above - high * below) / (above - below);
    const there = excess(next);
    const settled = next === percent;
    percent = next;
    if (there === 0 || settled) break;
    if (there < 0) {
      low = next;
      below = there;
      above /= 2;
    } else {
      high = next;
      above = there;
      below /= 2;
    }
  }
  return percent;
}

/** Density of the pure liquid at 20 °C: the table's last row where it reaches 100 %, else the neat liquid's own. */
function pureDensity(facts: Facts, form: Solution, reference: Reference): Maybe<'g/mL'> {
  const curve = densityCurve(facts, solventOf(form), STANDARD_CELSIUS, reference);
  if (curve?.to === 100)
    return solutionDensity(facts, { kind: 'solution', strength: { value: 100, basis: '% w/w' } }, 100, reference);
  const liquid = neatDensity(facts, reference, STANDARD_CELSIUS) ?? facts.liquidDensity;
  return liquid ? known(liquid) : unknown('no density', { material: facts.name });
}

/** A strength as it is counted on: eq/L already divided by its equivalents. */
function strengthFigure(facts: Facts, strength: Strength): Figure {
  const { value, basis } = plainStrength(strength);
  const where = strength.titrated === undefined ? 'strength' : `titrated ${strength.titrated}`;
  if (strength.basis !== 'eq/L') return entered(`strength of ${facts.name}, ${basis}`, value, '', where, EXACT);
  const stated = entered(`strength of ${facts.name}, eq/L`, strength.value, '', where, EXACT);
  const per = entered('equivalents per mole', strength.equivalentsPerMole ?? 1, '', 'as stated', EXACT);
  return computed(`strength of ${facts.name}, mol/L`, value, '', 'eq/L ÷ equivalents per mole', [stated, per]);
}
