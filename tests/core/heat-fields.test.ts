import { expect, test } from 'vitest';
import { HEAT_FIELDS } from '../../src/core/route/heat-fields.ts';
import { CHARGE_FIELDS } from '../../src/core/route/operation-fields.ts';
import { readRoute } from '../../src/core/route/read-route.ts';
import type { Charge, Route, Step } from '../../src/core/route/route.ts';
import { reference } from '../reference/tables.ts';
import { route, step } from './build.ts';

const one: Route = route({ a: 'C2H4O2', b: 'C4H8O2', water: { name: 'water: ours', formula: 'H2O' } }, [
  { ...step({ id: '1', basis: 'a', product: 'b' }) },
]);
const [plain] = one.steps as [Step];
const base: Step = {
  ...plain,
  equation: { ...plain.equation, makes: [...plain.equation.makes, { material: 'water', coefficient: 1 }] },
};
const context = { route: { ...one, steps: [base] }, typicalHeats: reference.rows.typicalHeats };

function written(name: string, text: string, of: Step = base): Step {
  const field = HEAT_FIELDS.find((each) => each.name === name);
  const found = field?.write(of, text, context);
  if (!field || !found?.ok) throw new Error(found && !found.ok ? found.words : `no field ${name}`);
  // What is typed reads back the same, and the route with it is one its reader takes.
  expect(field.write(found.value, field.read(found.value, context), context)).toEqual(found);
  const read = readRoute(JSON.stringify({ ...context.route, steps: [found.value] }));
  expect(read.ok || read.problems).toBe(true);
  return found.value;
}
const refusal = (name: string, text: string): string => {
  const found = HEAT_FIELDS.find((each) => each.name === name)?.write(base, text, context);
  return found && !found.ok ? found.words : 'taken';
};

test.each([
  ['heat', '85 kJ/mol', { kilojoulesPerMole: 85 }],
  ['heatPer', 'b', { per: 'b' }],
  ['heatTypical', 'esterification of an acid with an alcohol', { typical: 'esterification of an acid with an alcohol' }],
  ['heatTrial', '0,02 mol; 100 g; −12 K; 2', { trial: { moles: 0.02, grams: 100, riseKelvin: -12, joulesPerGramKelvin: 2 } }],
  ['heatFormation', 'a: -484.3\nwater: ours: −285.8 kJ/mol', { formation: { a: -484.3, water: -285.8 } }],
  ['heatMinutes', '2 h', { longestMinutes: 120 }],
  ['accumulation', '30 %', { accumulationPercent: 30 }],
  ['accumulation', '0', { accumulationPercent: 0 }],
  ['highestCelsius', '-5', { highestCelsius: -5 }],
  ['dayToRunaway', '120 °C', { dayToRunawayCelsius: 120 }],
  ['heatSource', 'calorimetry of lot 4', { source: 'calorimetry of lot 4' }],
])('%s takes “%s” in, and an empty text takes it away', (name, text, heat) => {
  const step = written(name, text);
  expect(step.heat).toEqual(heat);
  expect('heat' in written(name, '', step)).toBe(false);
});

test('one entry goes, the others stay', () => {
  const both = written('accumulation', '30', written('heat', '85'));
  expect(written('heat', '', both).heat).toEqual({ accumulationPercent: 30 });
});

test.each([
  ['heat', '0', /0\.001 to .*a heat given off is expected/],
  ['heat', 'much', /a heat given off is expected/],
  ['heatPer', 'gold', /cannot be left empty/],
  ['heatTypical', 'anything', /cannot be left empty/],
  ['heatTrial', '0.02 mol; 100 g', /a trial is expected/],
  ['heatTrial', '0.02 mol; 0 g; 12 K; 2', /a trial is expected/],
  ['heatFormation', 'gold: 5', /of materials of the equation/],
  ['heatFormation', 'a: hot', /one a line/],
  ['accumulation', '101', /from 0 to 100/],
])('%s refuses “%s” in words', (name, text, words) => expect(refusal(name, text)).toMatch(words));

test('every typical heat is offered with its spread, none first', () => {
  const choices = HEAT_FIELDS.find((each) => each.name === 'heatTypical')?.choices?.(base, context) ?? [];
  expect(choices).toHaveLength(reference.rows.typicalHeats.length + 1);
  expect(choices[0]?.words).toContain('not known is not none');
  expect(choices.every(({ value, words }) => value === '' || /\d+ to \d+ kJ per mol of .*the most is taken/.test(words))).toBe(
    true,
  );
});

test('a known addition: its time and its scale', () => {
  const field = CHARGE_FIELDS.find((each) => each.name === 'knownAddition');
  const charge = base.operations[0] as Charge;
  const taken = field?.write(charge, '1.5 h at 0.01 kg of basis', context);
  expect(taken?.ok && taken.value.knownAddition).toEqual({ minutes: 90, basisGrams: 10 });
  expect(taken?.ok && field?.read(taken.value, context)).toBe('90 min at 10 g');
  expect(field?.write(charge, '60 min', context)).toMatchObject({ ok: false });
  expect(field?.write(charge, '60 min at 0 g', context)).toMatchObject({ ok: false });
});
