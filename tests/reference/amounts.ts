// Short ways to ask the core for amounts in the reference tests.
import { factsOf } from '../../src/core/matter/facts.ts';
import { type Form, NEAT, type PlainBasis, type StrengthBasis } from '../../src/core/matter/form.ts';
import { equivalentsPerLitre, strengthOn } from '../../src/core/matter/solution.ts';
import { type Amount, amountOf } from '../../src/core/plan/amounts.ts';
import { entered } from '../../src/core/quantity/figure.ts';
import type { Maybe } from '../../src/core/words/why.ts';
import { caseById, expected } from './cases.ts';
import { expect } from 'vitest';
import { reference } from './tables.ts';

export type Solution = Form & { kind: 'solution' };

export function solution(value: number, basis: StrengthBasis, gramsPerMillilitre?: number): Solution {
  const density = gramsPerMillilitre === undefined ? {} : { density: { gramsPerMillilitre, celsius: 20 } };
  return { kind: 'solution', strength: { value, basis }, ...density };
}

/** Without a CAS number, so that nothing but the case's own figures is used. */
const facts = (formula: string) => factsOf({ name: formula, formula }, reference);

export function grams(formula: string, value: number, form: Form = NEAT): Amount {
  return amountOf(facts(formula), form, { by: 'g', figure: entered(formula, value, 'g', 'the case') }, reference);
}
export function millilitres(formula: string, value: number, form: Form): Amount {
  return amountOf(facts(formula), form, { by: 'mL', figure: entered(formula, value, 'mL', 'the case') }, reference);
}
export function moles(formula: string, value: number, form: Form = NEAT): Amount {
  return amountOf(facts(formula), form, { by: 'mol', figure: entered(formula, value, 'mol', 'the case') }, reference);
}
export function on(basis: PlainBasis, formula: string, form: Solution): number {
  return value(strengthOn(basis, facts(formula), form, reference));
}
export function normality(formula: string, form: Solution, equivalents: number): number {
  return value(equivalentsPerLitre(facts(formula), form, equivalents, reference));
}

export function value(maybe: Maybe<'mol' | 'g' | 'mL' | '' | 'g/mL'>): number {
  if (!maybe.ok) throw new Error(maybe.why.code);
  return maybe.figure.value;
}

/** Holds a value against a case's own figure with the tolerance its source allows. */
export function near(id: string, name: string, found: number): void {
  const want = expected(caseById(id), name);
  expect(Math.abs(found - want.value), `${id} ${name}: ${found} against ${want.value} ± ${want.within}`).toBeLessThanOrEqual(
    want.within,
  );
}
