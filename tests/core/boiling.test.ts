import { expect, test } from 'vitest';
import { boilsFirst } from '../../src/core/matter/boiling.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import { reference } from '../reference/tables.ts';

const liquid = (name: string, cas?: string) => factsOf({ name, state: 'liquid', ...(cas ? { cas } : {}) }, reference);
const water = liquid('water', '7732-18-5');
const ethyl = liquid('ethyl acetate', '141-78-6');
const heptane = liquid('heptane', '142-82-5');

test('two that boil together boil below either, whichever comes first, with where that is from', () => {
  // Lange's Handbook, 10th ed.: 70.4 °C; ethyl acetate alone 77.1, water 100.
  for (const pair of [
    [water, ethyl],
    [ethyl, water],
  ]) {
    const first = boilsFirst(pair, reference);
    expect(first?.celsius.value).toBe(70.4);
    expect(first?.name).toContain('ethyl acetate');
    expect(first?.name).toContain('water');
    expect(JSON.stringify(first?.celsius.from)).toContain('Lange');
  }
});

test('a liquid that boils lower than every pair stays the first; without a pair the lowest alone; nothing known is null', () => {
  const ether = liquid('diethyl ether', '60-29-7');
  expect(boilsFirst([water, ethyl, ether], reference)?.name).toContain('diethyl ether');
  expect(boilsFirst([ethyl, heptane], reference)?.celsius.value).toBeCloseTo(77, 0);
  expect(boilsFirst([liquid('an oil')], reference)).toBeNull();
  expect(boilsFirst([liquid('an oil'), water], reference)?.celsius.value).toBe(100);
});

test('every pair of the table names two liquids and boils below both', () => {
  expect(reference.rows.azeotropes.length).toBeGreaterThan(50);
  for (const { cas, celsius, source } of reference.rows.azeotropes) {
    expect(source).not.toBe('');
    for (const one of cas) {
      const alone = reference.material.get(one)?.boilingPoint ?? null;
      if (alone !== null) expect(celsius, cas.join()).toBeLessThan(alone);
    }
  }
});
