import { describe, expect, test } from 'vitest';
import type { RunEntry } from '../../src/core/run/entry.ts';
import { chargeInHand, type InHand } from '../../src/core/run/in-hand.ts';
import { runOutcome } from '../../src/core/run/outcome.ts';
import { foldRun } from '../../src/core/run/state.ts';
import { takenEntry, verdictAt, weighLine } from '../../src/core/run/weigh-line.ts';
import type { Bottle } from '../../src/core/shelf/shelf.ts';
import { reference } from '../reference/tables.ts';
import { by, charge, recorded, sheetOf } from './run-fixture.ts';

/**
 * Nitric acid by hand, HNO3 63.01 g/mol; densities as given with the bottles: 68 % w/w 1.405 g/mL, 65 % w/w 1.391 g/mL.
 * 10.8 mL · 1.405 · 0.68 / 63.01 = 163.76 mmol; 5.0 mL of it bring 75.81 mmol; (163.76 − 75.81) mmol · 63.01 / 0.65 / 1.391
 * = 6.13 mL of the 65 %.
 */
const PER_ML = (1.405 * 0.68) / 63.013;
const acid = (id: string, percent: number | null, density: number): Bottle => ({
  id,
  material: 'nitric',
  form:
    percent === null
      ? { kind: 'unknown' }
      : { kind: 'solution', strength: { value: percent, basis: '% w/w' }, density: { gramsPerMillilitre: density, celsius: 20 } },
  left: 500,
  unit: 'mL',
});
const B68 = acid('B-34', 68, 1.405);
const B65 = acid('B-35', 65, 1.391);
const UNKNOWN = acid('B-36', null, 0);
const material = { name: 'nitric acid', formula: 'HNO3' };
const volume = { by: 'volume', unit: 'mL', decimals: 1, exact: 10.8, target: 10.8, low: 10.6, high: 11 } as const;
const shares = [{ bottle: 'B-34', lot: '', place: '', amount: 10.8, unit: 'mL' as const }];
const sheet = sheetOf([
  charge({ id: 'nitric', ...volume, gramsPerMillilitre: 1.405, molesPerUnit: PER_ML, bottles: shares }),
  charge({ id: 'drops', ...volume, portions: 2, gramsPerMillilitre: 1.405, molesPerUnit: PER_ML, bottles: shares }),
  charge({ id: 'salt', molesPerUnit: 1 / 58.44, bottles: [{ bottle: 'S1', lot: '', place: '', amount: 10, unit: 'g' }] }),
]);

/** Parts of a charge that were taken, each from its bottle; the charge as it then stands. */
function begun(id: string, ...parts: readonly (readonly [net: number, bottle: Bottle | null])[]) {
  const entries: RunEntry[] = [{ kind: 'started', by }];
  const now = () => foldRun(sheet, recorded(sheet, entries)).charges.find((one) => one.charge.id === id) ?? expect.fail();
  for (const [net, bottle] of parts) {
    const at = { charge: now(), by, secondCheck: false, bottle, material, reference, dish: null };
    entries.push(takenEntry(at, { net, unit: at.charge.charge.unit, text: `${net}` }, { complete: false }));
  }
  const balance = () => runOutcome(sheet, foldRun(sheet, recorded(sheet, entries))).balance;
  return { now, balance };
}
const inHand = (bottle: Bottle | null, elsewhere = false, of = material): InHand => ({
  bottle,
  elsewhere,
  margin: 0,
  material: of,
  reference,
});

describe('what a charge asks for from the bottle in hand', () => {
  test('half of a bottle of 68 %, the rest of 65 %: by hand 6.1 mL, and that is in range', () => {
    const { now } = begun('nitric', [5, B68]);
    // Of the same bottle 10.8 − 5.0 = 5.8 mL, as before.
    expect(chargeInHand(now(), inHand(B68)).target).toEqual({ target: 10.8, low: 10.6, high: 11 });
    const rest = chargeInHand(now(), inHand(B65));
    expect((rest.target.target ?? 0) - 5).toBeCloseTo(6.1, 9);
    // Range by hand: 10.6 mL are 160.73 mmol, 11.0 mL 166.79 mmol: 5.92 and 6.34 mL.
    expect([(rest.target.low ?? 0) - 5, (rest.target.high ?? 0) - 5].map((one) => one.toFixed(1))).toEqual(['5.9', '6.3']);
    expect(verdictAt(rest, { net: 6.1, unit: 'mL', text: '6.1 mL' }, 'B-35')).toEqual({ kind: 'in range' });
    expect(verdictAt(rest, { net: 5.8, unit: 'mL', text: '5.8 mL' }, 'B-35')).toMatchObject({ kind: 'below' });
    // Weighed instead: 6.1 mL · 1.391 = 8.49 g, with the density of the bottle in hand.
    expect(verdictAt(rest, { net: 8.49, unit: 'g', text: '8.49 g' }, 'B-35')).toEqual({ kind: 'in range' });
  });
  test('the mass balance counts each part with the density of its own bottle; of an unknown one the mass is not known', () => {
    // 5.0 mL · 1.405 + 6.1 mL · 1.391 = 7.025 + 8.4851 = 15.5101 g; with the plan's density alone 15.5955 g.
    const { in: into } = begun('nitric', [5, B68], [6.1, B65]).balance();
    expect(into.ok && into.figure.value).toBeCloseTo(15.5101, 9);
    const unknown = begun('nitric', [5, B68], [6.1, UNKNOWN]).balance().in;
    expect(unknown.ok).toBe(false);
    // From no bottle of the shelf it is reckoned as planned.
    const planned = begun('nitric', [5, null]).balance().in;
    expect(planned.ok && planned.figure.value).toBeCloseTo(7.025, 9);
  });
  test('back to the planned bottle, what the other one brought counts', () => {
    // 5.0 mL of the 65 % bring 71.75 mmol; (163.76 − 71.75) mmol are 6.07 mL of the 68 %.
    const { now } = begun('nitric', [5, B65]);
    expect((chargeInHand(now(), inHand(B68)).target.target ?? 0) - 5).toBeCloseTo(6.1, 9);
  });
  test('all of it of the other bottle: 163.76 mmol are 11.4 mL of the 65 %; of two portions each is half', () => {
    const { now } = begun('nitric');
    expect(chargeInHand(now(), inHand(B68)).target.target).toBe(10.8);
    expect(chargeInHand(now(), inHand(B65)).target.target).toBe(11.4);
    const drops = begun('drops', [5.4, B68]);
    // The second: 163.76 mmol less 5.4 mL · 15.163 mmol/mL = 81.88 mmol: 5.7 mL of the 65 %.
    expect((chargeInHand(drops.now(), inHand(B65)).target.target ?? 0) - 5.4).toBeCloseTo(5.7, 9);
    expect((chargeInHand(begun('drops').now(), inHand(B65)).target.target ?? 0) / 2).toBeCloseTo(5.7, 9);
  });
  test('where its strength is not known no number is given, and what is weighed waits for a person', () => {
    const { now } = begun('nitric', [5, B68]);
    for (const source of [inHand(UNKNOWN), inHand(null, true)]) {
      const rest = chargeInHand(now(), source);
      expect(rest).toMatchObject({ untold: true, target: { target: null, low: null, high: null } });
      const at = {
        charge: rest,
        by,
        secondCheck: false,
        bottle: source.bottle as Bottle | null,
        material,
        reference,
        dish: null,
      };
      expect(weighLine('6.1 mL', at)).toMatchObject({ ok: true, entry: { kind: 'reading', amount: 6.1 } });
    }
  });
  test('a pure solid from a tin that is on no shelf asks for the same; a part of unknown strength for nothing', () => {
    const salt = { name: 'salt', formula: 'NaCl' };
    const { now } = begun('salt');
    expect(chargeInHand(now(), inHand(null, true, salt)).target.target).toBe(10);
    const after = begun('nitric', [5, UNKNOWN]);
    expect(chargeInHand(after.now(), inHand(B68))).toMatchObject({ untold: true });
  });
});
