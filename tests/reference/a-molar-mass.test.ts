import { describe, expect, test } from 'vitest';
import { molarMass } from '../../src/core/matter/molar-mass.ts';
import { casesOf, expected } from './cases.ts';
import { reference } from './tables.ts';

// Topic a: formula to molar mass. The source of each case stands beside it in cases.json.
describe.each(casesOf('a'))('$id $title ($source)', (one) => {
  const formulas = formulasOf(one.inputs);
  test.each(one.outputs.map((output) => output.name))('%s', (name) => {
    const formula = name === 'molarMass' ? formulas[0] : formulas.find((text) => text === name);
    const { value, within } = expected(one, name);
    const mass = molarMass(formula ?? '', reference);
    if (!mass.ok) throw new Error(mass.words);
    expect(Math.abs(mass.figure.value - value)).toBeLessThanOrEqual(within);
  });
});

function formulasOf(inputs: Readonly<Record<string, unknown>>): readonly string[] {
  if (typeof inputs.formula === 'string') return [inputs.formula];
  const several = inputs.formulas ?? inputs.elements;
  return Array.isArray(several) ? several.map(String) : Object.keys(several as object);
}
