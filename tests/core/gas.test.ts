import { expect, test } from 'vitest';
import { benchNumbers } from '../../src/core/bench/bench-numbers.ts';
import type { BenchLine } from '../../src/core/bench/bench-section.ts';
import type { Form } from '../../src/core/matter/form.ts';
import type { Material } from '../../src/core/matter/material.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { ChargeRule, Operation, Step } from '../../src/core/route/route.ts';
import { EMPTY_SHELF } from '../../src/core/shelf/shelf.ts';
import { lineText } from '../../src/core/words/bench-number-words.ts';
import { METERED } from '../../src/core/words/device-words.ts';
import { draw, route, settings, step, TODAY } from './build.ts';
import { reference } from '../reference/tables.ts';

const materials: Readonly<Record<string, Material>> = {
  benzoic: { name: 'benzoic acid', cas: '65-85-0' },
  thionyl: { name: 'thionyl chloride', cas: '7719-09-7' },
  chloride: { name: 'benzoyl chloride', cas: '98-88-4' },
  sulfurous: { name: 'sulfur dioxide', cas: '7446-09-5' },
  hydrochloric: { name: 'hydrogen chloride', cas: '7647-01-0' },
  water: { name: 'water', cas: '7732-18-5', utility: true },
  hydrogen: { name: 'hydrogen', cas: '1333-74-0' },
  hydride: { name: 'sodium borohydride', cas: '16940-66-2' },
  soda: { name: 'sodium carbonate', cas: '497-19-8' },
  toluene: { name: 'toluene', cas: '108-88-3' },
  xylene: { name: 'p-xylene', cas: '106-42-3' },
};
const charge = (
  id: string,
  material: string,
  equivalents: number,
  more: Partial<Operation & { do: 'charge' }> = {},
): Operation => {
  const rule: ChargeRule = { kind: 'equivalents', equivalents };
  return { do: 'charge', id, stage: 'reaction', material, rule, ...more };
};

/** The gas lines of one batch on one mole of basis. */
function linesOf(one: Step): readonly BenchLine[] {
  const ask = { name: 'test', draws: [draw(one.product, 1, 'mol')], batches: { 1: 1 } };
  const input = { route: route(materials, [one]), ask, shelf: EMPTY_SHELF, settings, reference, asOf: TODAY };
  return benchNumbers(input, plan(input), '1').find((section) => section.kind === 'gas')?.lines ?? [];
}
const found = (lines: readonly BenchLine[], code: string, gas: string, operation: string): number => {
  const shown = lines.find((line) => line.code === code && line.values.gas === gas && line.operation === operation)?.shown;
  return shown?.kind === 'figure' ? shown.figure.value : Number.NaN;
};
const inert = (more: readonly Operation[]): Step => step({ id: '1', basis: 'toluene', product: 'xylene', more });
const MOLAR = 24.465;
const hydrochloric = (value: number): Form => ({ kind: 'solution', strength: { value, basis: '% w/w' } });

test('two moles of thionyl chloride: by the equation one of each gas, two at most, and the rest with water', () => {
  const lines = linesOf(
    step({
      id: '1',
      basis: 'benzoic',
      product: 'chloride',
      more: [charge('t', 'thionyl', 2, { overMinutes: 60 }), charge('w', 'water', 30, { stage: 'quench' })],
      extra: {
        equation: {
          uses: ['benzoic', 'thionyl'].map((material) => ({ material, coefficient: 1 })),
          makes: [
            { material: 'chloride', coefficient: 1 },
            { material: 'sulfurous', coefficient: 1, gas: true },
            { material: 'hydrochloric', coefficient: 1, gas: true },
          ],
        },
      },
    }),
  );
  expect(found(lines, 'stoichiometric', 'sulfur dioxide', 't')).toBeCloseTo(MOLAR, 2);
  expect(found(lines, 'largest', 'sulfur dioxide', 't')).toBeCloseTo(2 * MOLAR, 2);
  expect(found(lines, 'rate', 'hydrogen chloride', 't')).toBeCloseTo(MOLAR / 60, 3);
  expect(found(lines, 'stoichiometric', 'sulfur dioxide', 'w')).toBeCloseTo(MOLAR, 2);
  // Two from each mole of thionyl chloride that is left.
  expect(found(lines, 'stoichiometric', 'hydrogen chloride', 'w')).toBeCloseTo(2 * MOLAR, 2);
  const said = lines.filter((line) => line.shown.kind === 'words').map((line) => lineText('gas', line));
  expect(said.join(' ')).toMatch(/never a closed vessel.*scrubber with base/);
});

test('hydrogen that is charged: mol, and bar·L at 25 °C', () => {
  const lines = linesOf(inert([charge('h', 'hydrogen', 2)]));
  expect(found(lines, 'charged', 'hydrogen', 'h')).toBeCloseTo(2, 9);
  expect(found(lines, 'charged volume', 'hydrogen', 'h')).toBeCloseTo(2 * 0.08314462618 * 298.15, 6);
});

test('a gas that goes in: where to what is not taken up goes, and that it burns', () => {
  const lines = linesOf(inert([charge('h', 'hydrogen', 1, { overMinutes: 60 })]));
  const cautions = lines.filter((line) => line.level === 'caution' && line.operation === 'h').map(({ code }) => code);
  expect(cautions).toEqual(['not taken up', 'burns']);
  const rate = lines.find((line) => line.code === 'rate');
  expect(rate && lineText('gas', rate)).toMatch(/^Hydrogen: average rate/);
});

test('borohydride frees four of hydrogen with water, whichever comes second', () => {
  const four = 4 * MOLAR;
  const into = linesOf(inert([charge('b', 'hydride', 1), charge('w', 'water', 30, { stage: 'quench' })]));
  expect(found(into, 'largest', 'hydrogen', 'w')).toBeCloseTo(four, 2);
  expect(into.some((line) => line.operation === 'b')).toBe(false);
  const onto = linesOf(inert([charge('w', 'water', 30), charge('b', 'hydride', 1)]));
  expect(found(onto, 'largest', 'hydrogen', 'b')).toBeCloseTo(four, 2);
  expect(onto.map((line) => line.code)).toContain('burns');
});

test('what the equation should have used can still be there: the largest is of all that went in, less what was taken out', () => {
  const uses = ['toluene', 'hydride'].map((material) => ({ material, coefficient: 1 }));
  const extra = { equation: { uses, makes: [{ material: 'xylene', coefficient: 1 }] } };
  const quench = charge('w', 'water', 30, { stage: 'quench' });
  const half: Operation = {
    do: 'removal',
    id: 'r',
    stage: 'reaction',
    how: 'wash away',
    takes: [{ what: 'hydride', percent: 50 }],
  };
  const of = (...between: readonly Operation[]): readonly BenchLine[] =>
    linesOf(step({ id: '1', basis: 'toluene', product: 'xylene', more: [charge('b', 'hydride', 3), ...between, quench], extra }));
  expect(found(of(), 'stoichiometric', 'hydrogen', 'w')).toBeCloseTo(8 * MOLAR, 2);
  expect(found(of(), 'largest', 'hydrogen', 'w')).toBeCloseTo(12 * MOLAR, 2);
  expect(found(of(half), 'largest', 'hydrogen', 'w')).toBeCloseTo(6 * MOLAR, 2);
});

test('carbonate and acid: by the acid there, and the most from all of the carbonate', () => {
  const aqueous = { form: { kind: 'solution', strength: { value: 20, basis: '% w/w' } } } as const;
  const lines = linesOf(inert([charge('a', 'hydrochloric', 1, aqueous), charge('s', 'soda', 3, { stage: 'work-up' })]));
  expect(found(lines, 'stoichiometric', 'carbon dioxide', 's')).toBeCloseTo(MOLAR / 2, 2);
  expect(found(lines, 'largest', 'carbon dioxide', 's')).toBeCloseTo(3 * MOLAR, 2);
});

test('no gas, no section', () => {
  expect(linesOf(inert([charge('w', 'water', 1)]))).toEqual([]);
});

test('a gas is metered, not weighed out on a balance, however little; how is said before it, with whose rules decide', () => {
  const one = inert([charge('h', 'hydrogen', 1e-4), charge('s', 'hydrochloric', 1, { form: hydrochloric(36) })]);
  const result = plan({
    route: route(materials, [one]),
    ask: { name: 'test', draws: [draw('xylene', 0.001, 'mol')] },
    shelf: EMPTY_SHELF,
    settings,
    reference,
    asOf: TODAY,
  });
  const [, gas, solution] = result.steps[0]?.operations.filter((operation) => operation.kind === 'charge') ?? [];
  expect(gas?.perBatch).toMatchObject({ by: 'mass', device: METERED, meets: true, stock: null, least: null });
  expect(gas?.perBatch.target).toBeGreaterThan(0);
  expect(solution?.perBatch.device).not.toBe(METERED);
  const said = linesOf(one).filter(({ code }) => code === 'metered');
  expect(said.map(({ operation }) => operation)).toEqual(['h']);
  expect(said.map((line) => lineText('gas', line)).join()).toMatch(/^Hydrogen is metered, not weighed out: .*local rules/);
});
