import { describe, expect, test } from 'vitest';
import type { RunEntry } from '../../src/core/run/entry.ts';
import { foldRun } from '../../src/core/run/state.ts';
import { weighedText } from '../../src/core/run/reading-text.ts';
import { NOT_WEIGHED, readCelsius, weighLine } from '../../src/core/run/weigh-line.ts';
import { reference } from '../reference/tables.ts';
import { by, charge, recorded, sheetOf, taken } from './run-fixture.ts';

const sheet = sheetOf([
  charge({ id: 'salt', portions: 2 }),
  charge({ id: 'acid', by: 'volume', unit: 'mL', gramsPerMillilitre: 1.4 }),
  charge({ id: 'oil', by: 'volume', unit: 'mL' }),
]);
const start: RunEntry = { kind: 'started', by };

/** Lines typed one after the other at a charge, each written; the last meaning. */
function typed(
  id: string,
  lines: readonly string[],
  { secondCheck = false, before = [] as readonly RunEntry[], dish = null as number | null } = {},
) {
  const entries: RunEntry[] = [start, ...before];
  const meanings = lines.map((line) => {
    const state = foldRun(sheet, recorded(sheet, entries)).charges.find((one) => one.charge.id === id);
    if (!state) throw new Error(`no charge ${id}`);
    const got = weighLine(line, { charge: state, by, secondCheck, bottle: null, material: { name: id }, reference, dish });
    if (got.ok) entries.push(got.entry);
    return got;
  });
  const last = meanings.at(-1);
  return last?.ok ? last.entry : last?.why.code;
}

describe('a line typed at a charge', () => {
  test('in range it is taken, complete with the last portion', () => {
    expect(typed('salt', ['5.02 g'])).toMatchObject({ kind: 'charged', net: 5.02, portion: 1, complete: false });
    expect(typed('salt', ['5.02 g', '4.97 g'])).toMatchObject({ kind: 'charged', net: 4.97, portion: 2, complete: true });
  });
  test('out of range it is a reading; the next one, in range, is taken', () => {
    expect(typed('salt', ['4.50 g'])).toMatchObject({ kind: 'reading', what: 'net', amount: 4.5 });
    expect(typed('salt', ['4.50 g', '5.00 g'])).toMatchObject({ kind: 'charged', net: 5, portion: 1 });
  });
  test('with a second check it waits for it', () => {
    expect(typed('salt', ['5.00 g'], { secondCheck: true })).toMatchObject({ kind: 'reading', what: 'net' });
  });
  test('tare and gross: the net between them; a plain number after a tare is the gross', () => {
    expect(typed('salt', ['T 10.12 g', 'G 15.13 g'])).toMatchObject({ kind: 'charged', net: 5.01, tare: 10.12, gross: 15.13 });
    expect(typed('salt', ['T 10.12 g', '15.13 g'])).toMatchObject({ kind: 'charged', net: 5.01 });
    expect(typed('salt', ['G 15.13 g'])).toBe('gross without tare');
    expect(typed('salt', ['T 10.12 g', 'G 9.00 g'])).toBe('gross not above tare');
  });
  test('a volume weighed instead is judged by its density, or refused', () => {
    expect(typed('acid', ['14.00 g'])).toMatchObject({ kind: 'charged', net: 14, unit: 'g', complete: true });
    expect(typed('acid', ['13.00 g'])).toMatchObject({ kind: 'reading' });
    expect(typed('oil', ['13.00 g'])).toBe('weighed without density');
    expect(typed('oil', ['10 mL'])).toMatchObject({ kind: 'charged', unit: 'mL' });
  });
  test('what was weighed before counts for the last portion', () => {
    const before = [taken('salt', 5.3, { complete: false })];
    expect(typed('salt', ['5.00 g'], { before })).toMatchObject({ kind: 'reading' });
    expect(typed('salt', ['4.70 g'], { before })).toMatchObject({ kind: 'charged', complete: true });
  });
  test('all of a dish, unweighed: counted as planned in proportion to the step before, and the record says so', () => {
    expect(typed('salt', ['all'], { dish: 1.02 })).toMatchObject({
      kind: 'charged',
      net: 10.2,
      moles: expect.closeTo(0.102, 12) as number,
      text: 'all',
      deviation: NOT_WEIGHED,
      complete: true,
    });
    expect(typed('salt', ['all'])).toBe('reading not understood');
    expect(typed('salt', ['all'], { dish: 1, secondCheck: true })).toMatchObject({ kind: 'reading', what: 'net', text: 'all' });
    const begun = [taken('salt', 5, { complete: false })];
    expect(typed('salt', ['all'], { dish: 1, before: begun })).toBe('dish unknown');
  });
  test('a moving balance writes nothing', () => {
    expect(typed('salt', ['5.00 g D'])).toBe('balance unstable');
  });
});

test('temperatures are told from weights', () => {
  expect(['78.5 °C', '−5 °C', '78,5°c', '78.5', '78 g', 'x °C'].map(readCelsius)).toEqual([78.5, -5, 78.5, null, null, null]);
});

test('a reading is shown with the decimals that were typed, and never fewer than it needs', () => {
  const shown: [number, string, string][] = [
    [4, '4.00 g', '4.00'],
    [12.345, 'ST,+00012.345  g', '12.345'],
    [0.25, '250.0 mg', '0.25'],
    [1500, '1.5 L', '1500'],
    [5.01, 'G 15.13 g', '5.01'],
    [12, '', '12'],
  ];
  for (const [amount, text, expected] of shown) expect(weighedText(amount, text, '.'), text).toBe(expected);
  expect(weighedText(4, '4,00 g', ',')).toBe('4,00');
});
