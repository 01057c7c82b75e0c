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
  charge({ id: 'dish', wholeDish: 10 }),
]);
const start: RunEntry = { kind: 'started', by };

/** A basis of 11.75 g, 6.00 g of a bottle and the rest of a dish; a reagent of 10 g, 8 g of one bottle and 2 g of another. */
const share = (bottle: string, amount: number) => ({ bottle, lot: '', place: '', amount, unit: 'g' as const });
const several = sheetOf([
  charge({
    id: 'basis',
    isBasis: true,
    exact: 11.75,
    target: 11.75,
    low: null,
    high: null,
    bottles: [share('B1', 6)],
    wholeDish: 5.75,
    restMolesPerUnit: 1 / 210.232,
  }),
  charge({ id: 'reagent', bottles: [share('B1', 8), share('B2', 2)] }),
]);

function fromSeveral(id: string, ...weighings: readonly (readonly [string, string | null])[]): readonly RunEntry[] {
  const entries: RunEntry[] = [start];
  for (const [line, code] of weighings) {
    const state = foldRun(several, recorded(several, entries)).charges.find((one) => one.charge.id === id);
    if (!state) throw new Error(`no charge ${id}`);
    const bottle =
      code === null ? null : { id: code, material: id, form: { kind: 'neat' as const }, left: 50, unit: 'g' as const };
    const at = { charge: state, by, secondCheck: false, bottle, material: { name: id }, reference, dish: 1.02 };
    const got = weighLine(line, at);
    if (got.ok) entries.push(got.entry);
  }
  return entries.slice(1);
}

describe('a charge from several sources', () => {
  test('what the first gives is a part, though a basis has no range; with the last it is complete', () => {
    expect(fromSeveral('basis', ['6.00 g', 'B1'])).toMatchObject([{ kind: 'charged', net: 6, complete: false }]);
    const both = fromSeveral('basis', ['6.00 g', 'B1'], ['5.80 g', null]);
    expect(both[1]).toMatchObject({ kind: 'charged', net: 5.8, portion: 2, bottle: null, complete: true });
    // Less than its share from the first bottle: still a part.
    expect(fromSeveral('basis', ['2.10 g', 'B1'])).toMatchObject([{ kind: 'charged', complete: false }]);
    // All of it from the first, or from another bottle: nothing more follows.
    expect(fromSeveral('basis', ['11.70 g', 'B1'])).toMatchObject([{ kind: 'charged', complete: true }]);
    expect(fromSeveral('basis', ['11.70 g', 'B9'])).toMatchObject([{ kind: 'charged', complete: true }]);
  });
  test('a dish that goes in whole after a bottle: “all” counts what it holds, in proportion to the step before', () => {
    const [, all] = fromSeveral('basis', ['6.00 g', 'B1'], ['all', null]);
    // By hand: 5.75 g, begun with 1.02 times its basis; C14H10O2 210.232 g/mol.
    expect(all).toMatchObject({
      kind: 'charged',
      net: 5.865,
      moles: expect.closeTo((5.75 * 1.02) / 210.232, 7) as number,
      portion: 2,
      bottle: null,
      deviation: NOT_WEIGHED,
      complete: true,
    });
    // While the bottle is still to come, “all” is no answer.
    expect(fromSeveral('basis', ['all', 'B1'])).toEqual([]);
    expect(fromSeveral('basis', ['all', null])).toEqual([]);
  });
  test('against a range: near its share it is a part, else a reading; the whole of it in the end', () => {
    expect(fromSeveral('reagent', ['8.02 g', 'B1'])).toMatchObject([{ kind: 'charged', complete: false }]);
    expect(fromSeveral('reagent', ['7.10 g', 'B1'])).toMatchObject([{ kind: 'reading' }]);
    const both = fromSeveral('reagent', ['8.02 g', 'B1'], ['1.97 g', 'B2']);
    expect(both[1]).toMatchObject({ kind: 'charged', net: 1.97, complete: true });
    expect(fromSeveral('reagent', ['8.02 g', 'B1'], ['1.50 g', 'B2'])[1]).toMatchObject({ kind: 'reading' });
  });
});

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
  test('a tare begins a new weighing: what was refused before it no longer waits to be taken', () => {
    const entries: RunEntry[] = [start];
    for (const line of ['4.00 g', 'T 10.12 g']) {
      const state = foldRun(sheet, recorded(sheet, entries)).charges.find((one) => one.charge.id === 'salt') ?? expect.fail();
      const about = { charge: state, by, secondCheck: false, bottle: null, material: { name: 'salt' }, reference, dish: null };
      const got = weighLine(line, about);
      if (got.ok) entries.push(got.entry);
    }
    const [now] = foldRun(sheet, recorded(sheet, entries)).charges;
    expect(entries).toHaveLength(3);
    expect(now).toMatchObject({ tare: 10.12, reading: null });
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
    expect(typed('dish', ['all'], { dish: 1.02 })).toMatchObject({
      kind: 'charged',
      net: 10.2,
      moles: expect.closeTo(0.102, 12) as number,
      text: 'all',
      deviation: NOT_WEIGHED,
      complete: true,
    });
    expect(typed('salt', ['all'])).toBe('reading not understood');
    expect(typed('dish', ['all'], { dish: 1, secondCheck: true })).toMatchObject({ kind: 'reading', what: 'net', text: 'all' });
    const begun = [taken('dish', 5, { complete: false })];
    expect(typed('dish', ['all'], { dish: 1, before: begun })).toBe('dish not whole');
    // Half of a dish is planned here: all of it would be twice what the other charges are for.
    expect(typed('salt', ['all'], { dish: 1 })).toBe('dish not whole');
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
