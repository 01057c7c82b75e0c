import { describe, expect, test } from 'vitest';
import type { BenchLine } from '../../src/core/bench/bench-section.ts';
import type { Operation, Removal } from '../../src/core/route/route.ts';
import { solution } from '../reference/amounts.ts';
import { each, quenchCharge, quenchOf } from './quench-fixture.ts';

// Two layers: what acid or base has turned into a salt goes with the water. Worked out by hand.

const MATERIALS = {
  a: { name: 'a', formula: 'C6H12', state: 'liquid' as const },
  b: { name: 'b', formula: 'C6H12', state: 'liquid' as const },
  water: { name: 'water', cas: '7732-18-5', utility: true },
  ether: { name: 'diethyl ether', cas: '60-29-7' },
  amine: { name: 'triethylamine', cas: '121-44-8' },
  benzoic: { name: 'benzoic acid', cas: '65-85-0' },
  hydrochloric: { name: 'hydrochloric acid', cas: '7647-01-0' },
  bicarbonate: { name: 'sodium hydrogen carbonate', cas: '144-55-8' },
  lye: { name: 'sodium hydroxide', cas: '1310-73-2' },
  ammonium: { name: 'ammonium hydrogen sulfate', cas: '7803-63-6' },
};
type Key = keyof typeof MATERIALS;
const ether = quenchCharge('ether', each(100, 'mL'));
const amine = quenchCharge('amine', each(10.119, 'g'));
const benzoic = quenchCharge('benzoic', each(12.212, 'g'));
const acid = (grams: number): Operation => quenchCharge('hydrochloric', each(grams, 'g'), solution(10, '% w/w'));
const to = (material: Key, endPH: number, strength: number, id: string = material): Operation => ({
  ...quenchCharge(material, { kind: 'to neutralise', endPH }, solution(strength, '% w/w')),
  id,
});
const layer = (what: 'aqueous layer' | 'organic layer'): Removal => ({
  do: 'removal',
  id: what,
  stage: 'quench',
  how: 'separate',
  takes: [{ what, percent: 100 }],
});
function found(...more: readonly Operation[]): (code: string, operation: string) => number | null {
  const lines: readonly BenchLine[] = quenchOf(MATERIALS, more).flatMap((section) => section.lines);
  return (code, operation) => {
    const shown = lines.find((line) => line.code === code && line.operation === operation)?.shown;
    return shown?.kind === 'figure' ? shown.figure.value : null;
  };
}

describe('an amine that acid takes out of ether', () => {
  test('all of it: nothing is left to neutralise', () => {
    const of = found(ether, amine, to('hydrochloric', 2, 10), layer('aqueous layer'), to('hydrochloric', 2, 10, 'again'));
    expect(of('base there', 'hydrochloric')).toBeCloseTo(0.1, 3);
    expect(of('base there', 'again')).toBeNull();
  });
  test('half of it by half of the acid: the other half stays', () => {
    const of = found(ether, amine, acid(0.05 * 364.6), layer('aqueous layer'), to('hydrochloric', 2, 10, 'again'));
    expect(of('base there', 'again')).toBeCloseTo(0.05, 3);
  });
});

test('an acid that base takes into the water stays there when the ether goes, and is acidified in full', () => {
  const of = found(ether, benzoic, to('bicarbonate', 8, 8), layer('organic layer'), to('hydrochloric', 2, 10));
  // pKa 4.204: at pH 2 99.4 % of the anion has its proton back.
  expect(of('base there', 'hydrochloric')).toBeCloseTo(0.0994, 3);
});

test('carbon dioxide that has left does not leave twice', () => {
  const more = { ...quenchCharge('bicarbonate', each(10.081, 'g')), id: 'salt' };
  // 0.12 mol of hydrogen carbonate on 0.1 mol of acid: 0.02 mol is left for the acid that follows.
  const of = found(quenchCharge('water', each(100, 'g')), benzoic, more, to('hydrochloric', 2, 10));
  expect(of('stoichiometric', 'salt')).toBeCloseTo(0.1 * 24.465, 1);
  expect(of('stoichiometric', 'hydrochloric')).toBeCloseTo(0.02 * 24.465, 1);
});

test('lye to pH 7 takes the acid proton of ammonium hydrogen sulfate: no ammonia is counted; past it there is', () => {
  const salt = quenchCharge('ammonium', each(11.511, 'g'));
  const water = quenchCharge('water', each(100, 'g'));
  expect(found(water, salt, to('lye', 7, 15))('stoichiometric', 'lye')).toBeNull();
  const much = quenchCharge('lye', each(8 / 0.15, 'g'), solution(15, '% w/w'));
  expect(found(water, salt, much)('stoichiometric', 'lye')).toBeCloseTo(0.1 * 24.465, 1);
});
