import { describe, expect, test } from 'vitest';
import type { Figure } from '../../src/core/quantity/figure.ts';
import { bottle, draw, planOf, route, step, stepOf } from './build.ts';

const materials = { a: 'C6H6', b: 'C6H12', c: 'C7H8', d: 'C8H10', e: 'C9H12' };

const factors = (figure: Figure): readonly Figure[] => (figure.from.kind === 'computed' ? figure.from.of : []);
const how = (figure: Figure): string => (figure.from.kind === 'computed' ? figure.from.how : '');
/** What a step is to make: the first factor of its start. */
const toMake = (figure: Figure): Figure => factors(figure)[0] ?? figure;

describe('a figure is what its factors make of it', () => {
  test('where draws ask for a purity the shelf does not have, only what decides is named', () => {
    const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', yieldPercent: 50 })]);
    const poor = bottle('b', 1000, 'g', { kind: 'neat', assayPercent: 90 });
    const pure = bottle('b', 100, 'g', { kind: 'neat', assayPercent: 99 }, { id: 'pure' });
    const result = planOf(
      one,
      [draw('b', 3, 'mol', { leastAssayPercent: 98 }), draw('b', 1, 'mol', { id: 'any' })],
      [poor, pure],
    );
    const made = toMake(stepOf(result, '1').basis.moles);
    expect(how(made)).toBe('draws that ask for a purity − stock that has it');
    const [wanted, stock, ...more] = factors(made);
    expect(more).toEqual([]);
    expect(made.value).toBeGreaterThan(0);
    expect((wanted?.value ?? 0) - (stock?.value ?? 0)).toBeCloseTo(made.value, 12);
  });

  test('a step that is left out makes nothing and says why', () => {
    const one = route(materials, [
      step({ id: '1', basis: 'a', product: 'b' }),
      step({ id: '2', basis: 'b', product: 'c', yieldPercent: 50 }),
    ]);
    const result = planOf(one, [draw('c', 1, 'mol')], [], { ask: { leaveOut: ['1'] } });
    const made = toMake(stepOf(result, '1').basis.moles);
    expect([made.value, how(made), factors(made)]).toEqual([0, 'the step is left out', []]);
  });

  test('a step that runs for its second product alone does not say its product asked for it', () => {
    const one = route(materials, [
      step({
        id: '1',
        basis: 'a',
        product: 'b',
        yieldPercent: 0,
        extra: {
          equation: {
            uses: [{ material: 'a', coefficient: 1 }],
            makes: [
              { material: 'b', coefficient: 1 },
              { material: 'c', coefficient: 1, yieldPercent: 40 },
            ],
          },
        },
      }),
    ]);
    const { moles } = stepOf(planOf(one, [draw('c', 1, 'mol')]), '1').basis;
    expect(moles.value).toBeCloseTo(2.5, 12);
    expect(how(moles)).toContain('other products');
    expect(factors(moles).map((figure) => figure.value)).toContain(1);
  });

  test('what stays behind in the vessels is never more than was made', () => {
    // Step 2 runs for a little d alone, since c is made at less cost in step 1; the film in its flask takes all its c.
    const both = (first: string, second: string, yieldPercent: number) => ({
      uses: [{ material: first === 'b' ? 'a' : 'b', coefficient: 1 }],
      makes: [
        { material: first, coefficient: 1 },
        { material: second, coefficient: 1, yieldPercent },
      ],
    });
    const one = route(materials, [
      step({ id: '1', basis: 'a', product: 'b', yieldPercent: 24, extra: { equation: both('b', 'c', 24) } }),
      step({
        id: '2',
        basis: 'b',
        product: 'c',
        yieldPercent: 37,
        equivalents: { e: 1000 },
        extra: { equation: both('c', 'd', 37), lossPerBatch: { grams: 2, reason: 'film' } },
      }),
    ]);
    const { moles, grams } = stepOf(planOf(one, [draw('c', 1e-6), draw('d', 1e-6)]), '2').product;
    expect([moles.value, grams.value]).toEqual([0, 0]);
    expect(how(moles)).toBe('made − what stays behind in each batch: all of it');
  });
});
