import { describe, expect, test } from 'vitest';
import { benchNumbers } from '../../src/core/bench/bench-numbers.ts';
import { windowText } from '../../src/core/paper/amounts.ts';
import { plan } from '../../src/core/plan/plan.ts';
import { readChargeLine } from '../../src/core/procedure/charge-line.ts';
import { BATHS, usualOf } from '../../src/core/route/bath.ts';
import type { Hold, Operation, TemperatureWindow } from '../../src/core/route/route.ts';
import { readWindow, windowText as typed } from '../../src/core/route/text-field.ts';
import { makeRunSheet } from '../../src/core/run/make-run-sheet.ts';
import { EMPTY_SHELF } from '../../src/core/shelf/shelf.ts';
import { solution } from '../reference/amounts.ts';
import { reference } from '../reference/tables.ts';
import { demoContext } from './demo-fixture.ts';
import { draw, route, settings, step, TODAY } from './build.ts';
import { each, quenchCharge, quenchOf } from './quench-fixture.ts';

describe('the word of a bath', () => {
  test.each([
    ['ice bath', 'ice bath'],
    ['in an ice-water bath', 'ice bath'],
    ['salt–ice', 'ice–salt bath'],
    ['dry ice/acetone', 'dry ice–acetone bath'],
    ['rt', 'room temperature'],
    ['at reflux', 'reflux'],
  ])('%s', (text, bath) => expect(readWindow(text)).toEqual({ ok: true, value: { bath } }));

  test.each(['ice', 'acetone', 'snow', 'a cold bath'])('%s is none', (text) => expect(readWindow(text).ok).toBe(false));

  test('is written as it is read', () => {
    for (const bath of BATHS) expect(readWindow(typed({ bath }))).toEqual({ ok: true, value: { bath } });
  });

  test('in a charge’s line, and not where ice or acetone is what is charged', () => {
    expect(readChargeLine('bromine 5 mL, dropwise in a dry ice-acetone bath')).toMatchObject({
      name: 'bromine',
      temperature: { bath: 'dry ice–acetone bath' },
      note: 'dropwise',
    });
    expect(readChargeLine('sodium hydroxide 10 g, in an ice bath, over 30 min')).toMatchObject({
      temperature: { bath: 'ice bath' },
    });
    for (const line of ['ice 100 g', 'ice water 100 mL', 'acetone 50 mL', 'dry ice 50 g'])
      expect(readChargeLine(line)).toMatchObject({ ok: true, temperature: null });
  });

  test('stands on paper with what it usually comes to and where that comes from', () => {
    expect(windowText({ bath: 'ice bath' }, '.')).toBe('in an ice bath (usually 0–5\u00a0°C: common practice, no source)');
    expect(windowText({ bath: 'reflux' }, '.')).toBe('at reflux');
    for (const bath of BATHS) {
      const usual = usualOf(bath);
      if (usual) expect(`${usual.source} ${usual.mark}`.length).toBeGreaterThan(10);
    }
  });
});

describe('what it counts for', () => {
  const materials = {
    a: { name: 'a', formula: 'C6H12', state: 'liquid' as const },
    b: { name: 'b', formula: 'C6H12', state: 'liquid' as const },
    water: { name: 'water', cas: '7732-18-5', utility: true },
    ethanol: { name: 'ethanol', cas: '64-17-5' },
    strange: { name: 'a strange liquid', formula: 'C9H9NO4', state: 'liquid' as const, acidity: { pKa: [], protons: 0 } },
    acid: { name: 'sulfuric acid', cas: '7664-93-9' },
    lye: { name: 'sodium hydroxide', cas: '1310-73-2' },
  };
  const held = (temperature: TemperatureWindow): Operation => ({
    do: 'hold',
    id: 'held',
    stage: 'reaction',
    until: 'done',
    temperature,
  });
  const quench = (solvent: string, ...more: readonly Operation[]) => {
    const all = [quenchCharge(solvent, each(500, 'g')), quenchCharge('acid', each(10, 'g'), solution(20, '% w/w')), ...more];
    const lye = quenchCharge('lye', { kind: 'to neutralise', endPH: 7 }, solution(15, '% w/w'));
    const lines = quenchOf(materials, [...all, lye]).flatMap((section) => section.lines);
    return lines.find(({ code, operation }) => code.startsWith('temperature') && operation === 'lye')?.shown;
  };

  test('a flask that was last at reflux is as hot as its solvent boils, as an estimate', () => {
    expect(quench('ethanol', held({ bath: 'reflux' }))).toMatchObject({ from: { value: 78.2, from: { mark: 'estimate' } } });
  });

  test('where nobody knows what boils, the temperature is not known: never the room’s', () => {
    expect(quench('strange', held({ bath: 'reflux' }))).toMatchObject({ kind: 'unknown', why: { code: 'reflux not known' } });
  });

  test('the room is the room', () => {
    expect(quench('water', held({ bath: 'room temperature' }))).toMatchObject({ from: { value: 20 } });
  });

  test('the highest temperature of the procedure is the usual one, with its mark', () => {
    const one = step({
      id: '1',
      basis: 'a',
      product: 'b',
      more: [held({ bath: 'ice bath' })],
      extra: { heat: { kilojoulesPerMole: 50 } },
    });
    const input = { route: route(materials, [one]), ask: { name: 't', draws: [draw('b', 1, 'mol')] }, shelf: EMPTY_SHELF };
    const all = { ...input, settings, reference, asOf: TODAY };
    const lines = benchNumbers(all, plan(all), '1').flatMap((section) => section.lines);
    const rise = lines.find(({ code }) => code === 'rise')?.shown;
    expect(rise).toMatchObject({ kind: 'from to', from: { value: 5 } });
    expect(JSON.stringify(rise)).toContain('common practice, no source');
  });

  test('is no window of the run: no reading is outside of it', () => {
    const hold: Hold = { do: 'hold', id: 'h', stage: 'reaction', until: 'cold', temperature: { bath: 'ice bath' } };
    const window: Hold = { ...hold, id: 'w', temperature: { from: 0, to: 5 } };
    const one = step({ id: '1', basis: 'a', product: 'b', more: [hold, window] });
    const all = { route: route(materials, [one]), ask: { name: 't', draws: [draw('b', 1, 'mol')] }, shelf: EMPTY_SHELF };
    const input = { ...all, settings, reference, asOf: TODAY };
    const context = { ...demoContext, result: plan(input), bench: () => [], cautions: () => new Map() };
    expect(makeRunSheet(input, context, '1', 1).temperatures).toEqual([
      { operation: 'w', window: { from: 0, to: 5 }, limit: null },
    ]);
  });
});
