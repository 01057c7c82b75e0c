import { computed, type Figure } from '../quantity/figure.ts';
import type { PlainRule, Step } from '../route/route.ts';
import { unknown, type Why } from '../words/why.ts';
import type { PrintedNumber } from './printed-number.ts';
import type { Printed } from './read-printed.ts';

export type RuleKind = PlainRule['kind'];

/** An amount as charged, and what lies in the vessel before it, mL; null where it cannot be told. */
export interface ChargedAmount {
  readonly name: string;
  readonly moles: Figure<'mol'> | null;
  readonly grams: Figure<'g'> | null;
  readonly millilitres: Figure<'mL'> | null;
  readonly solventsBefore: number;
  readonly allBefore: number;
}

/** Contained basis of the procedure as printed; grams null without a molar mass. */
export interface PrintedBasis {
  readonly moles: Figure<'mol'>;
  readonly grams: Figure<'g'> | null;
  /** What its own charge prints. */
  readonly printed?: Printed;
}

export type RatioReading =
  | { readonly ok: true; readonly rule: PlainRule; readonly ratio: Figure | null }
  | { readonly ok: false; readonly why: Why };

/**
 * The ratio that gives this amount for this basis: the other direction of a charge's rule.
 * @returns the rule, or why the amount cannot be put on it (no moles, no volume, nothing left to add).
 */
export function ratioOf(kind: RuleKind, amount: ChargedAmount, basis: PrintedBasis): RatioReading {
  const { name, moles, grams, millilitres, solventsBefore, allBefore } = amount;
  const say = (value: number, unit: Figure['unit'], how: string, of: readonly (Figure | null)[]): Figure =>
    computed(
      `ratio of ${name}`,
      value,
      unit,
      how,
      of.filter((one) => one !== null),
    );
  const missing = unknown('not on this rule', { material: name, rule: kind });
  switch (kind) {
    case 'basis':
      return { ok: true, rule: { kind }, ratio: null };
    case 'equivalents': {
      if (!moles) return missing;
      const ratio = say(moles.value / basis.moles.value, '', 'moles ÷ moles of basis', [moles, basis.moles]);
      return { ok: true, rule: { kind, equivalents: ratio.value }, ratio };
    }
    case 'mass ratio': {
      if (!grams || !basis.grams) return missing;
      const ratio = say(grams.value / basis.grams.value, 'g/g', 'grams ÷ contained basis', [grams, basis.grams]);
      return { ok: true, rule: { kind, gramsPerGram: ratio.value }, ratio };
    }
    case 'volumes': {
      if (!millilitres || !basis.grams) return missing;
      const ratio = say(millilitres.value / basis.grams.value, 'mL/g', 'millilitres ÷ contained basis', [
        millilitres,
        basis.grams,
      ]);
      return { ok: true, rule: { kind, millilitresPerGram: ratio.value }, ratio };
    }
    case 'molar volume': {
      if (!millilitres) return missing;
      const ratio = say(millilitres.value / basis.moles.value, 'mL/mol', 'millilitres ÷ moles of basis', [
        millilitres,
        basis.moles,
      ]);
      return { ok: true, rule: { kind, millilitresPerMole: ratio.value }, ratio };
    }
    case 'to concentration': {
      if (!millilitres) return missing;
      const litres = (millilitres.value + solventsBefore) / 1000;
      const ratio = say(basis.moles.value / litres, 'mol/L', 'moles of basis ÷ litres of solvent in all', [
        basis.moles,
        millilitres,
      ]);
      return { ok: true, rule: { kind, molesPerLitre: ratio.value }, ratio };
    }
    case 'make up to': {
      if (!millilitres) return missing;
      const value = (millilitres.value + allBefore) / basis.moles.value;
      const ratio = say(value, 'mL/mol', 'volume in all ÷ moles of basis', [millilitres, basis.moles]);
      return { ok: true, rule: { kind, millilitresPerMole: value }, ratio };
    }
    case 'per batch': {
      const fixed = millilitres ?? grams;
      if (!fixed) return missing;
      return { ok: true, rule: { kind, amount: fixed.value, unit: fixed.unit }, ratio: fixed };
    }
    case 'to neutralise':
      return missing;
  }
}

/**
 * The rule a print says outright: "1.2 equiv", "5 mol %", "10 % excess", "5 wt %", "4 mL/g", "to 0.5 mol/L". Null where
 * it gives amounts only.
 * @param basis of the print; needed for "to 250 mL" alone.
 */
export function saidRule(printed: Printed, step: Step, material: string, basis: PrintedBasis | null): RatioReading | null {
  const rule = (made: PlainRule): RatioReading => ({ ok: true, rule: made, ratio: null });
  const is = (one: PrintedNumber | undefined): number => one?.value ?? 0;
  if (printed.equivalents) return rule({ kind: 'equivalents', equivalents: is(printed.equivalents) });
  if (printed.molePercent) return rule({ kind: 'equivalents', equivalents: is(printed.molePercent) / 100 });
  if (printed.excessPercent) {
    const needed = neededPerMole(step, material);
    if (needed === null) return unknown('excess of what', { material });
    return rule({ kind: 'equivalents', equivalents: needed * (1 + is(printed.excessPercent) / 100) });
  }
  if (printed.loadingPercent) return rule({ kind: 'mass ratio', gramsPerGram: is(printed.loadingPercent) / 100 });
  if (printed.gramsPerGram) return rule({ kind: 'mass ratio', gramsPerGram: is(printed.gramsPerGram) });
  if (printed.millilitresPerGram) return rule({ kind: 'volumes', millilitresPerGram: is(printed.millilitresPerGram) });
  if (printed.millilitresPerMole) return rule({ kind: 'molar volume', millilitresPerMole: is(printed.millilitresPerMole) });
  if (printed.toMolesPerLitre) return rule({ kind: 'to concentration', molesPerLitre: is(printed.toMolesPerLitre) });
  if (printed.toMillilitresPerMole) return rule({ kind: 'make up to', millilitresPerMole: is(printed.toMillilitresPerMole) });
  if (printed.toMillilitres && basis)
    return rule({ kind: 'make up to', millilitresPerMole: is(printed.toMillilitres) / basis.moles.value });
  if (printed.toMillilitres) return unknown('no printed basis', { material });
  if (!printed.perBatch) return null;
  const fixed = printed.millilitres ?? printed.grams;
  return fixed ? rule({ kind: 'per batch', amount: fixed.value, unit: printed.millilitres ? 'mL' : 'g' }) : null;
}

/** mol of a material the equation needs per mol of basis; null where it does not use it. */
export function neededPerMole(step: Step, material: string): number | null {
  const of = (key: string): number | undefined => step.equation.uses.find((term) => term.material === key)?.coefficient;
  const own = of(material);
  const basis = of(step.basis);
  return own === undefined || basis === undefined ? null : own / basis;
}
