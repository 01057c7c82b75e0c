import { describe, expect, test } from 'vitest';
import { benchNumbers } from '../../src/core/bench/bench-numbers.ts';
import { reactionStart } from '../../src/core/bench/reaction-start.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { Charge, Operation, Step } from '../../src/core/route/route.ts';
import { EMPTY_SHELF } from '../../src/core/shelf/shelf.ts';
import { reference } from '../reference/tables.ts';
import { draw, route, settings, step, stepOf, TODAY } from './build.ts';

// tert-Butyl carbamates come apart with an acid that the equation does not use: carbon dioxide and isobutene leave then.
const materials = {
  carbamate: { name: 'a carbamate', formula: 'C9H17NO2', smiles: 'CC(C)(C)OC(=O)N1CCC1', state: 'solid' as const },
  amine: { name: 'an amine', formula: 'C4H9N', state: 'liquid' as const },
  dioxide: { name: 'carbon dioxide', cas: '124-38-9' },
  butene: { name: 'isobutene', formula: 'C4H8', state: 'gas' as const },
  solvent: { name: 'dichloromethane', cas: '75-09-2' },
  acid: { name: 'trifluoroacetic acid', cas: '76-05-1' },
  water: { name: 'water', cas: '7732-18-5', utility: true },
  chloride: { name: 'acetyl chloride', cas: '75-36-5' },
  sulfuric: { name: 'sulfuric acid', cas: '7664-93-9' },
  lye: { name: 'sodium hydroxide', cas: '1310-73-2' },
};
const charge = (material: keyof typeof materials, stage: Charge['stage'] = 'reaction'): Operation => ({
  do: 'charge',
  id: material,
  stage,
  material,
  rule: { kind: 'equivalents', equivalents: 5 },
});
const facts = new Map(Object.entries(materials).map(([key, one]) => [key, factsOf(one, reference)]));
const startOf = (one: Step): Charge | null => reactionStart({ step: one, facts, reference });
const hold: Operation = { do: 'hold', id: 'hold', stage: 'reaction', until: 'it is done' };
const made = (...more: readonly Operation[]): Step =>
  step({
    id: '1',
    basis: 'carbamate',
    product: 'amine',
    more,
    extra: {
      equation: {
        uses: [{ material: 'carbamate', coefficient: 1 }],
        makes: [
          { material: 'amine', coefficient: 1 },
          { material: 'dioxide', coefficient: 1, gas: true },
          { material: 'butene', coefficient: 1, gas: true },
        ],
      },
    },
  });

describe('an equation that uses the basis alone', () => {
  const one = made(charge('solvent'), charge('acid'), hold, charge('water', 'quench'));

  test('begins with the last charge that follows at once', () => {
    expect(startOf(one)?.id).toBe('acid');
    // What is held first can be what makes it react: the warning comes too early rather than too late.
    expect(startOf(made(charge('solvent'), hold, charge('acid')))?.id).toBe('solvent');
    expect(startOf(made(charge('water', 'quench')))?.material).toBe('carbamate');
    expect(startOf(made())?.material).toBe('carbamate');
  });

  test('frees its gas there: the caution and the litres stand before the acid', () => {
    const input = { route: route(materials, [one]), ask: { name: 't', draws: [draw('amine', 1, 'mol')], batches: { 1: 1 } } };
    const all = { ...input, shelf: EMPTY_SHELF, settings, reference, asOf: TODAY };
    const result = plan(all);
    const cautions = stepOf(result, '1').operations.flatMap((operation) =>
      operation.kind === 'charge' && operation.before.some(({ code }) => code === 'gas freed') ? [operation.material] : [],
    );
    expect(cautions).toEqual(['acid']);
    const gas = benchNumbers(all, result, '1').flatMap(({ kind, lines }) => (kind === 'gas' ? lines : []));
    const litres = gas.filter(({ code }) => code === 'stoichiometric');
    expect(litres.map(({ operation }) => operation)).toEqual(['acid', 'acid']);
    for (const { shown } of litres) expect(shown.kind === 'figure' && shown.figure.value).toBeCloseTo(24.465, 2);
  });
});

const hydrolysis = (basis: string, ...more: readonly Operation[]): Step => {
  const uses = [basis, 'water'].map((material) => ({ material, coefficient: 1 }));
  const one = step({ id: '1', basis, product: 'amine', more });
  return { ...one, equation: { ...one.equation, uses } };
};

describe('an equation that uses water', () => {
  test('begins with the strong acid or base that follows the water at once, else with the water', () => {
    expect(startOf(hydrolysis('carbamate', charge('water'), charge('sulfuric')))?.id).toBe('sulfuric');
    expect(startOf(hydrolysis('carbamate', charge('water'), charge('lye'), charge('solvent')))?.id).toBe('lye');
    expect(startOf(hydrolysis('carbamate', charge('water'), charge('solvent')))?.id).toBe('water');
    expect(startOf(hydrolysis('carbamate', charge('water'), hold, charge('sulfuric')))?.id).toBe('water');
    expect(startOf(hydrolysis('carbamate', charge('sulfuric'), charge('water')))?.id).toBe('water');
  });

  test('begins with the water where that reacts by itself', () => {
    expect(startOf(hydrolysis('chloride', charge('water'), charge('lye')))?.id).toBe('water');
  });
});

test('an equation with a second reactant begins with it, whatever follows', () => {
  const two = step({ id: '1', basis: 'carbamate', product: 'amine', more: [charge('solvent'), charge('sulfuric')] });
  const uses = ['carbamate', 'solvent'].map((material) => ({ material, coefficient: 1 }));
  expect(startOf({ ...two, equation: { ...two.equation, uses } })?.id).toBe('solvent');
});
