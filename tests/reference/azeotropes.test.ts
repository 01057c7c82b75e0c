import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { azeotropeKey } from '../../src/core/reference.ts';
import { reference } from './tables.ts';

// Two liquids that mix boil together at the lowest bubble point of the pair at 1 atm. Activities: NRTL fitted to measured
// liquid–vapour data (DECHEMA, 1 atm; cal/mol), read in the ChemSep file of CalebBell/thermo. Vapour pressures:
// log₁₀ p = a − b/(T + c), Pa and K: Poling, Prausnitz and O’Connell, read in the data files of CalebBell/chemicals.

const rows = (name: string): readonly (readonly string[])[] =>
  readFileSync(new URL(name, import.meta.url), 'utf8')
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(','));
const ANTOINE = new Map(rows('antoine.csv').map(([cas = '', ...numbers]) => [cas, numbers.map(Number)] as const));
const PAIRS = rows('nrtl.csv').map(([cas = '', other = '', ...numbers]) => ({ cas, other, numbers: numbers.map(Number) }));
const [GAS_CONSTANT, ATMOSPHERE] = [1.987_21, 101_325];

function pressure(cas: string, kelvin: number): number {
  const [a = Number.NaN, b = 0, c = 0] = ANTOINE.get(cas) ?? [];
  return 10 ** (a - b / (kelvin + c));
}

type Pair = (typeof PAIRS)[number];

/** Pressure over a mixture with mole fraction x of the first, Pa. */
function pressureOver({ cas, other, numbers: [a12 = 0, a21 = 0, alpha = 0] }: Pair, x: number, kelvin: number): number {
  const [t12, t21] = [a12 / GAS_CONSTANT / kelvin, a21 / GAS_CONSTANT / kelvin];
  const [g12, g21] = [Math.exp(-alpha * t12), Math.exp(-alpha * t21)];
  const y = 1 - x;
  const first = y * y * (t21 * (g21 / (x + y * g21)) ** 2 + (t12 * g12) / (y + x * g12) ** 2);
  const second = x * x * (t12 * (g12 / (y + x * g12)) ** 2 + (t21 * g21) / (x + y * g21) ** 2);
  return x * Math.exp(first) * pressure(cas, kelvin) + y * Math.exp(second) * pressure(other, kelvin);
}

/** °C at which the highest pressure over any mixture is 1 atm. */
function boilsTogether(pair: Pair): number {
  let [low, high] = [280, 400];
  while (high - low > 1e-3) {
    const middle = (low + high) / 2;
    const most = Math.max(...Array.from({ length: 101 }, (_, at) => pressureOver(pair, at / 100, middle)));
    if (most > ATMOSPHERE) high = middle;
    else low = middle;
  }
  return low - 273.15;
}

test.each(PAIRS)('$cas with $other', (pair) => {
  const row = reference.azeotrope.get(azeotropeKey(pair.cas, pair.other));
  expect(row?.source).toMatch(/^computed from liquid–vapour data/);
  expect(row?.mark).toBeNull();
  expect(Math.abs((row?.celsius ?? Number.NaN) - boilsTogether(pair))).toBeLessThan(0.4);
});

test('no row says it was computed so without its pair here', () => {
  const said = reference.rows.azeotropes.filter(({ source }) => source.startsWith('computed from liquid–vapour data'));
  expect(said).toHaveLength(PAIRS.length);
});
