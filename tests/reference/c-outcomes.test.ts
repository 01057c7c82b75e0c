import fc from 'fast-check';
import { expect, test } from 'vitest';
import { factsOf } from '../../src/core/matter/facts.ts';
import { massBalance } from '../../src/core/outcome/metrics.ts';
import { cumulativeYields, overallYield, type PathStep } from '../../src/core/outcome/overall.ts';
import { percentYield, theoryGrams, yieldBetween } from '../../src/core/outcome/yield.ts';
import { entered, type Figure } from '../../src/core/quantity/figure.ts';
import { near } from './amounts.ts';
import { caseById } from './cases.ts';
import { reference } from './tables.ts';

// Topic c: overall yields, linear and converging, and yields of finished work. Sources stand in cases.json.

const percent = (value: number): Figure<'%'> => entered('yield', value, '%', 'the case');
const grams = (value: number): Figure<'g'> => entered('mass', value, 'g', 'the case');
const facts = (formula: string) => factsOf({ name: formula, formula }, reference);

/** A chain from `start` on; its product is named after it. */
const chain = (start: string, yields: readonly number[], joins: readonly string[] = []): readonly PathStep[] =>
  yields.map((value, i) => ({
    id: `${start}${i}`,
    basis: i === 0 ? start : `${start}-${i}`,
    product: `${start}-${i + 1}`,
    uses: [i === 0 ? start : `${start}-${i}`, ...(i === 0 ? joins : [])],
    yield: percent(value),
  }));
const last = (steps: readonly PathStep[]): string => steps.at(-1)?.product ?? '';
const overall = (yields: readonly number[]): number => {
  const steps = chain('a', yields);
  return overallYield(steps, last(steps))?.longest.percent.value ?? Number.NaN;
};

test.each<[string, string, readonly number[]]>([
  ['c01', 'linear overall', [50, 50, 50]],
  ['c03', 'overall', [90, 90, 90, 90, 90]],
  ['c04', 'six steps', [90, 90, 90, 90, 90, 90]],
  ['c04', 'three steps', [90, 90, 90]],
  ['c07', 'overall', [90, 85, 95, 80, 92, 75, 88, 94]],
  ['c09', 'overallYield', [90.5, 93.5, 84.5]],
])('%s %s', (id, name, yields) => {
  near(id, name, overall(yields));
  near(id, name, cumulativeYields(yields.map(percent)).at(-1)?.value ?? Number.NaN);
});

/** Two branches that join in one step, whose basis is the end of the first. */
const joined = (one: readonly number[], other: readonly number[], final: number): readonly PathStep[] => {
  const [a, b] = [chain('a', one), chain('b', other)];
  return [...a, ...b, { id: 'join', basis: last(a), product: 'end', uses: [last(a), last(b)], yield: percent(final) }];
};

test('c01: branches are never multiplied together', () => {
  const found = overallYield(joined([50], [50], 50), 'end');
  near('c01', 'convergent overall (longest linear path)', found?.longest.percent.value ?? Number.NaN);
  expect(found?.byStart).toHaveLength(2);
});

test('c06: each branch by its own start, and which of two equal ones is told', () => {
  const { branchA, branchB } = caseById('c06').inputs as Record<string, number[]>;
  const found = overallYield(joined(branchA ?? [], branchB ?? [], 100), 'end');
  const from = (start: string): number => found?.byStart.find((one) => one.start === start)?.percent.value ?? Number.NaN;
  near('c06', 'branch A overall', from('a'));
  near('c06', 'limiting branch yield', from('b'));
  expect(found?.longest.start).toBe('a');
  expect(overallYield(joined([80], [38], 100), 'end')?.longest.start).toBe('b');
});

test('c13, c15: yields of finished work, with and without assay', () => {
  const start = entered('cyclohexane', 25 / (facts('C6H12').molarMass?.value ?? 1), 'mol', 'the case');
  const theory = theoryGrams(start, 1, facts('C6H10O4')) as Figure<'g'>;
  near('c13', 'theoreticalYield', theory.value);
  near('c13', 'yield', percentYield({ grams: grams(33.5), assayPercent: null }, theory).value);
  const crude = percentYield({ grams: grams(18.4), assayPercent: null }, grams(20));
  near('c15', 'crude yield', crude.value);
  expect(crude.label).toContain('uncorrected');
  near('c15', 'assay-corrected yield', percentYield({ grams: grams(18.4), assayPercent: 92 }, grams(20)).value);
});

test('18.6 g of acetanilide giving 12.67 g of 4-nitroaniline over two steps is 66.66 % (common practice, no source)', () => {
  const start = { facts: facts('C8H9NO'), grams: grams(18.6) };
  const found = yieldBetween(start, { facts: facts('C6H6N2O2'), grams: grams(12.67), assayPercent: null });
  expect(found?.value).toBeCloseTo(66.66, 2);
});

test('a theory of nothing and a mass below zero are refused in words', () => {
  expect(() => percentYield({ grams: grams(1), assayPercent: null }, grams(0))).toThrow('needs a theory above 0 g (got 0 g)');
  expect(() => percentYield({ grams: grams(-1), assayPercent: null }, grams(1))).toThrow('(got -1 g)');
});

const yields = fc.array(fc.double({ min: 1, max: 100, noNaN: true }), { minLength: 1, maxLength: 60 });
test('a chain: the product of its yields, whatever their order; a join never yields more than its own branch', () => {
  fc.assert(
    fc.property(yields, yields, fc.double({ min: 1, max: 100, noNaN: true }), (one, other, final) => {
      const plain = one.reduce((product, value) => (product * value) / 100, 100);
      expect(overall(one)).toBeCloseTo(plain, 9);
      expect(overall(one.toReversed())).toBeCloseTo(plain, 9);
      const found = overallYield(joined(one, other, final), 'end');
      const longer = one.length === other.length ? null : one.length > other.length ? 'a' : 'b';
      if (longer) expect(found?.longest.start).toBe(longer);
      for (const path of found?.byStart ?? []) expect(path.percent.value).toBeLessThanOrEqual(final * (1 + 1e-12));
    }),
    { numRuns: 1000 },
  );
});

test('of two makers of one material each is a path of its own', () => {
  const found = overallYield(
    [...chain('a', [80, 50]), { id: 'x', basis: 'b', product: 'a-2', uses: ['b'], yield: percent(90) }],
    'a-2',
  );
  expect(found?.longest.percent.value).toBeCloseTo(40, 12);
  expect(found?.byStart.map((one) => one.start)).toEqual(['a', 'b']);
});

test('a loop is walked once, and ends', () => {
  const steps: readonly PathStep[] = [
    { id: '1', basis: 'a', product: 'b', uses: ['a', 'c'], yield: percent(80) },
    { id: '2', basis: 'b', product: 'c', uses: ['b'], yield: percent(50) },
  ];
  expect(overallYield(steps, 'c')?.longest.percent.value).toBeCloseTo(40, 12);
});

test('a mass balance closes to what was found', () => {
  const balance = massBalance(grams(100), grams(40), grams(10), grams(45));
  expect(balance.missing.value).toBeCloseTo(5, 12);
  expect(balance.closedPercent.value).toBeCloseTo(95, 12);
});
