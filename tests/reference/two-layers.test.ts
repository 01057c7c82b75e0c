import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { azeotropeKey } from '../../src/core/reference.ts';
import { reference } from './tables.ts';

// Two liquids that do not mix boil where their vapour pressures together make 1 atm. Constants of ln p = c₁ + c₂/T + c₃·ln T +
// c₄·T^c₅, Pa and K: Perry's Chemical Engineers' Handbook, 8th ed., Table 2-8, read in the data files of CalebBell/chemicals.

const CONSTANTS = new Map(
  readFileSync(new URL('vapour-pressures.csv', import.meta.url), 'utf8')
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => {
      const [cas = '', ...numbers] = line.split(',');
      return [cas, numbers.map(Number)] as const;
    }),
);
const WATER = '7732-18-5';

function pressure(cas: string, kelvin: number): number {
  const [a = Number.NaN, b = 0, c = 0, d = 0, e = 0] = CONSTANTS.get(cas) ?? [];
  return Math.exp(a + b / kelvin + c * Math.log(kelvin) + d * kelvin ** e);
}

function boilsTogether(...all: readonly string[]): number {
  let [low, high] = [250, 420];
  while (high - low > 1e-6) {
    const middle = (low + high) / 2;
    if (all.reduce((sum, cas) => sum + pressure(cas, middle), 0) > 101_325) high = middle;
    else low = middle;
  }
  return low - 273.15;
}

test('water by itself boils at 100 °C by these constants', () => {
  expect(boilsTogether(WATER)).toBeCloseTo(100, 0);
});

const others = [...CONSTANTS.keys()].filter((cas) => cas !== WATER);
test.each(others)('water with %s', (cas) => {
  const row = reference.azeotrope.get(azeotropeKey(WATER, cas));
  expect(row?.source).toMatch(/^Computed/);
  expect(Math.abs((row?.celsius ?? Number.NaN) - boilsTogether(WATER, cas))).toBeLessThan(0.06);
});
