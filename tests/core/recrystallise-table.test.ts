import { describe, expect, test } from 'vitest';
import { benchNumbers } from '../../src/core/bench/bench-numbers.ts';
import { plan } from '../../src/core/plan/plan.ts';
import { readRecrystallise, recrystalliseText } from '../../src/core/route/recrystallise-text.ts';
import type { Recrystallise } from '../../src/core/route/route.ts';
import { EMPTY_SHELF } from '../../src/core/shelf/shelf.ts';
import { lineText } from '../../src/core/words/bench-number-words.ts';
import { reference } from '../reference/tables.ts';
import { draw, route, settings, step, TODAY } from './build.ts';

describe('solubilities of the built-in table', () => {
  const section = (formula: string, recrystallise: Partial<Recrystallise>, material: object = {}) => {
    const one = route({ a: 'C6H7N', b: { name: 'the product', formula, state: 'solid', ...material } }, [
      step({
        id: '1',
        basis: 'a',
        product: 'b',
        yieldPercent: 80,
        extra: {
          recrystallise: {
            solvent: 'water',
            per: '100 g solvent',
            points: [],
            hotCelsius: 100,
            coldCelsius: 20,
            ...recrystallise,
          },
        },
      }),
    ]);
    const input = {
      route: one,
      ask: { name: 'p', draws: [draw('b', 50)] },
      shelf: EMPTY_SHELF,
      settings,
      reference,
      asOf: TODAY,
    };
    const found = benchNumbers(input, plan(input), '1').find((each) => each.kind === 'recrystallise');
    if (!found) throw new Error('no section');
    const said = found.lines.map((line) => lineText('recrystallise', line).replaceAll('\u00a0', ' ')).join('\n');
    const number = (code: string): number => {
      const line = found.lines.find((each) => each.code === code);
      return line?.shown.kind === 'figure' ? line.shown.figure.value : Number.NaN;
    };
    return { said, number, found };
  };

  // A reagent supplier's table (sigmaaldrich.com, "Solubility Table of Compounds in Water at Temperature", read), g per
  // 100 g of water at 0, 20, 40, 60, 80, 100 °C; the built-in table is the CRC Handbook's.
  test.each([
    ['NH4Cl', [29.7, 37.56, 46, 55.3, 65.6, 77.3]],
    ['NH4Br', [60.6, 75.5, 91.1, 107.8, 126.7, 145.6]],
  ] as const)('%s: crystals as from another handbook', (formula, grams) => {
    const temperatures = [0, 20, 40, 60, 80, 100];
    const [cold, hot] = [grams[1], grams[3]];
    const { number, said } = section(formula, { hotCelsius: temperatures[3] ?? 0, coldCelsius: temperatures[1] ?? 0 });
    // By hand: 50 g need 100·50/hot of water; cold/hot of them stay in it.
    expect(number('least') / ((100 * 50) / hot)).toBeGreaterThan(0.95);
    expect(number('least') / ((100 * 50) / hot)).toBeLessThan(1.05);
    expect(Math.abs(number('crystals') - 50 * (1 - cold / hot))).toBeLessThan(50 * 0.03);
    expect(said).toContain('built-in table: CRC Handbook');
  });

  test('potassium nitrate: 91.46 % between 100 and 10 °C by an old textbook (246 and 21 g, issuhub.com 5371 p 53, read)', () => {
    const { number } = section('KNO3', { coldCelsius: 10 });
    expect(Math.abs(number('recovery') - 91.46)).toBeLessThan(0.5);
  });

  test('oxalic acid, from memory: as an encyclopedia’s 95.5 and 426 g/L at 20 and 60 °C (read); its mark is on the screen', () => {
    const { number, said } = section('C2H2O4', { hotCelsius: 60 }, { cas: '144-62-7' });
    expect(Math.abs(number('least') - (1000 * 50) / 426)).toBeLessThan((1000 * 50) / 426 / 20);
    expect(Math.abs(number('recovery') - 100 * (1 - 95.5 / 426))).toBeLessThan(2);
    expect(said).toContain('(from memory)');
  });

  test('a hydrate brings its water along: blue vitriol from the anhydrous column', () => {
    // By hand with the handbook's 20.05 and 77.0 g of CuSO4 per 100 g of water at 20 and 100 °C, M = 249.68 and 159.60:
    // 100 g of water at 20 °C hold 20.05·1.5644 = 31.37 g of the hydrate, of which 11.32 g are water: 35.4 g per 100 g poured on.
    const { number, said } = section('CuSO4·5H2O', { hotCelsius: 100 });
    const [hot, cold] = [(100 * 76.99 * 1.5644) / (100 - 76.99 * 0.5644), (100 * 20.05 * 1.5644) / (100 - 20.05 * 0.5644)];
    expect(cold).toBeCloseTo(35.37, 1);
    expect(number('least')).toBeCloseTo((100 * 50) / hot, 1);
    expect(number('recovery')).toBeCloseTo(100 * (1 - cold / hot), 1);
    expect(said).toContain('turned into the hydrate with 5 H₂O');
  });

  test('one’s own points go first; none and no row is said, with what to do', () => {
    const own = [
      { celsius: 20, grams: 10 },
      { celsius: 100, grams: 100 },
    ];
    expect(section('KNO3', { points: own }).number('least')).toBeCloseTo(50, 9);
    expect(section('KNO3', { points: own }).said).not.toContain('built-in table');
    expect(section('C14H10O2', {}, { cas: '134-81-6' }).said).toMatch(
      /not known\. The built-in table has no solubility of the product in water/,
    );
    expect(section('C14H10O2', {}, { cas: '134-81-6' }).found.plot).toBeNull();
  });

  test('sodium sulfate: the change of the solid is told, and that cooling goes past it', () => {
    const { said, found } = section('Na2SO4', {});
    expect(said).toMatch(/near 3\d °C\) the solubilities break/);
    expect(section('Na2SO4', { hotCelsius: 35, coldCelsius: 20 }).said).toMatch(/Cooling goes past 3\d °C/);
    expect(found.plot?.lines.filter((line) => !line.dashed)).toHaveLength(2);
  });

  test('the solvent’s boiling and freezing point, the product’s melting point', () => {
    const own = [
      { celsius: 0, grams: 10 },
      { celsius: 110, grams: 100 },
    ];
    expect(section('C8H9NO', { points: own, hotCelsius: 105 }).said).toContain(
      'water boils at 100 °C: at 105 °C it is no liquid without pressure',
    );
    expect(section('C8H9NO', { points: own }).said).not.toContain('boils');
    expect(section('C8H9NO', { points: own, solvent: 'ethanol', hotCelsius: 85 }).said).toContain('ethanol boils at 78');
    expect(section('C8H9NO', { points: own, coldCelsius: -5 }).said).toContain('water freezes at 0 °C');
    expect(section('C8H9NO', { points: own, solvent: 'ethanol/water 1:1' }).said).toContain(
      'boiling point of ethanol/water 1:1 is not known here',
    );
    const acetanilide = { cas: '103-84-4' };
    expect(section('C8H9NO', { points: own, hotCelsius: 115 }, acetanilide).said).toMatch(
      /melts at 11\d(\.\d)? °C when pure: at 115 °C it may melt/,
    );
    expect(section('C8H9NO', { points: own, hotCelsius: 100 }, acetanilide).said).not.toContain('melts');
  });

  test('excess of hot solvent: more stays in the liquor (by hand)', () => {
    const points = [
      { celsius: 0, grams: 0.53 },
      { celsius: 100, grams: 5.5 },
    ];
    const { number, said } = section('C8H9NO', { points, per: '100 mL solvent', coldCelsius: 0, excessPercent: 20 });
    expect(number('least')).toBeCloseTo(909.09, 1);
    expect(number('taken')).toBeCloseTo(1090.9, 1);
    expect(number('liquor')).toBeCloseTo(5.7818, 3);
    expect(number('recovery')).toBeCloseTo(88.436, 2);
    expect(said).toContain('Hot water with 20 % over the least');
  });

  test('the picture: shaded from point to point, dashed beyond, hot and cold marked, the same as a table', () => {
    const points = [
      { celsius: 10, grams: 10 },
      { celsius: 50, grams: 30 },
      { celsius: 90, grams: 70 },
    ];
    const { plot } = section('C8H9NO', { points, hotCelsius: 100, coldCelsius: 0 }).found;
    expect(plot?.inside).toEqual({ from: 10, to: 90 });
    expect(plot?.lines.map((line) => [line.dashed, line.at[0]?.x, line.at.at(-1)?.x])).toEqual([
      [false, 10, 90],
      [true, 0, 10],
      [true, 90, 100],
    ]);
    expect(plot?.marks.map((one) => one.x)).toEqual([0, 100]);
    expect(plot?.table.rows.map((row) => row.slice(0, 2))).toEqual([
      [10, 10],
      [50, 30],
      [90, 70],
    ]);
  });
});

test('excess, change and the built-in table as they are typed', () => {
  const read = readRecrystallise('from water; hot 95 °C, cold 5 °C, excess 20 %, change 32.4 °C');
  expect(read).toMatchObject({ ok: true, value: { solvent: 'water', points: [], excessPercent: 20, changeCelsius: 32.4 } });
  expect(read.ok && readRecrystallise(recrystalliseText(read.value))).toEqual(read);
  expect(readRecrystallise('from ethanol 95 %; hot 75, cold 5')).toMatchObject({ ok: true, value: { solvent: 'ethanol 95 %' } });
});
