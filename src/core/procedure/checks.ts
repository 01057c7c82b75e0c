import type { Facts } from '../matter/facts.ts';
import type { Form } from '../matter/form.ts';
import { gramsPerMillilitre, massFraction } from '../matter/solution.ts';
import type { Reference } from '../reference.ts';
import type { Notice, Place } from '../words/notice.ts';
import { hiddenWater, waterUnsaid } from './hidden-water.ts';
import { agreementOf, exactly, productSpan, printedNumber, type Span } from './printed-number.ts';
import type { Printed } from './read-printed.ts';

/** What a printed charge is held against. */
export interface ChargePrint {
  readonly facts: Facts;
  readonly form: Form;
  readonly printed: Printed;
  readonly reference: Reference;
  readonly at: Place;
}

/** A density is read at some room temperature, not at exactly 20 °C: ± so much of it. Common practice, no source. */
const DENSITY_SLACK = 0.01;

/** Densities told of one liquid differ by so many per cent, rarely by more. Common practice, no source. */
const OTHER_DENSITY = 3;

/**
 * A charge's print held against itself: moles against grams or millilitres, grams against millilitres. Only what
 * rounding, cutting off or a coarse print cannot explain is a caution.
 */
export function printChecks(print: ChargePrint): readonly Notice[] {
  return [...molesCheck(print), ...volumeCheck(print), ...unsaidWater(print)];
}

function molesCheck(print: ChargePrint): readonly Notice[] {
  const { facts, printed, at } = print;
  const active = activeGrams(print);
  if (!printed.moles || !active || !facts.molarMass) return [];
  const moles = productSpan([active], [exactly(facts.molarMass.value)]);
  const values = { material: facts.name, printed: printed.moles.value, computed: moles.value };
  const agreement = agreementOf(printed.moles, moles);
  if (agreement === 'cut off') return [{ level: 'note', code: 'printed moles cut off', values, at }];
  if (agreement === 'round number') return [{ level: 'note', code: 'printed moles round', values, at }];
  if (agreement !== 'differs') return [];
  return [{ ...reasonFor(print, active, values), at }];
}

/** The likeliest reason for moles that differ: water not said, the strength not taken into account, another density, or a misprint. */
function reasonFor(print: ChargePrint, active: Span, values: Notice['values']): Omit<Notice, 'at'> {
  const { facts, form, printed, reference } = print;
  const moles = printed.moles;
  const water = moles && form.kind === 'neat' ? hiddenWater(facts, active, moles, reference) : null;
  if (water) {
    const { formula } = water;
    return { level: 'caution', code: 'hidden hydrate', values: { ...values, formula, own: facts.formula ?? '' } };
  }
  const whole = suppliedGrams(print);
  if (moles && whole && facts.molarMass && form.kind === 'solution') {
    const asPure = productSpan([whole], [exactly(facts.molarMass.value)]);
    if (agreementOf(moles, asPure) === 'agrees') return { level: 'caution', code: 'printed as pure', values };
  }
  const off = (100 * (Number(values.printed) - Number(values.computed))) / Number(values.computed);
  const here = printed.grams ? null : gramsPerMillilitre(facts, form, reference);
  if (here?.ok && Math.abs(off) <= OTHER_DENSITY) {
    const density = here.figure.value;
    return {
      level: 'caution',
      code: 'printed by another density',
      values: { ...values, density, implied: density * (1 + off / 100) },
    };
  }
  return { level: 'caution', code: 'printed moles', values: { ...values, off } };
}

function volumeCheck({ facts, form, printed, reference, at }: ChargePrint): readonly Notice[] {
  const { grams, millilitres } = printed;
  if (!grams || !millilitres) return [];
  const known = gramsPerMillilitre(facts, form, reference);
  if (!known.ok) return [];
  const expected = productSpan([grams], [densitySpan(known.figure.value)]);
  const agreement = agreementOf(millilitres, expected);
  if (agreement !== 'differs' && agreement !== 'round number') return [];
  const values = {
    material: facts.name,
    grams: grams.value,
    printed: millilitres.value,
    computed: expected.value,
    density: known.figure.value,
    implied: grams.value / millilitres.value,
  };
  return [{ level: agreement === 'differs' ? 'caution' : 'note', code: 'printed volume', values, at }];
}

/** A name that says nothing of the water its formula counts: shown, because half the readers take it as anhydrous. */
function unsaidWater({ facts, printed, reference, at }: ChargePrint): readonly Notice[] {
  const water = printed.grams ? waterUnsaid(facts, reference) : null;
  if (water === null) return [];
  return [
    { level: 'assumption', code: 'water unsaid', values: { material: facts.name, formula: facts.formula ?? '', water }, at },
  ];
}

/** What the print holds of the active material, g, with what its digits allow; from grams, else from millilitres. */
function activeGrams(print: ChargePrint): Span | null {
  const whole = suppliedGrams(print);
  const fraction = fractionSpan(print);
  return whole && fraction ? productSpan([whole, fraction]) : null;
}

function suppliedGrams({ facts, form, printed, reference }: ChargePrint): Span | null {
  if (printed.grams) return printed.grams;
  const density = printed.millilitres ? gramsPerMillilitre(facts, form, reference) : null;
  return printed.millilitres && density?.ok ? productSpan([printed.millilitres, densitySpan(density.figure.value)]) : null;
}

function densitySpan(density: number): Span {
  return { value: density, low: density * (1 - DENSITY_SLACK), high: density * (1 + DENSITY_SLACK) };
}

/** Mass fraction with the rounding of the strength as it is written: 50 % is anything from 49.5 to 50.5 %. */
function fractionSpan({ facts, form, reference }: ChargePrint): Span | null {
  const fraction = massFraction(facts, form, reference);
  if (!fraction.ok) return null;
  const { value } = fraction.figure;
  const written = form.kind === 'solution' ? form.strength.value : form.kind === 'neat' ? form.assayPercent : undefined;
  if (written === undefined || written === 100) return exactly(value);
  const print = printedNumber(written, writtenDigits(written));
  return { value, low: (value * print.low) / written, high: Math.min(1, (value * print.high) / written) };
}

/** Digits of a number as a file writes it. */
function writtenDigits(value: number): number {
  return Math.max(1, String(value).replace(/e.*$/i, '').replace('.', '').replace(/^0+/, '').length);
}
