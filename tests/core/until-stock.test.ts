import { describe, expect, test } from 'vitest';
import { sessionOf } from '../../src/core/paper/session.ts';
import { type Bottle } from '../../src/core/shelf/shelf.ts';
import { bottle, chargeOf, draw, planOf, route, step } from './build.ts';

/** C6H12, g/mol (CIAAW 2021, conventional); M(HCl) = 36.458. */
const M = 84.162;
const HCL = 36.458;

/** 1 mol of acid or solid until an end point, twice as much at most. */
const until = (material: string, form: object = {}) =>
  route({ a: 'C6H12', b: 'C6H12', q: 'C6H12', hcl: { name: 'hydrochloric acid', formula: 'HCl', cas: '7647-01-0' } }, [
    step({
      id: '1',
      basis: 'a',
      product: 'b',
      more: [
        {
          do: 'charge',
          id: 'u',
          stage: 'quench',
          material,
          ...form,
          rule: { kind: 'until', endPoint: 'clear', estimate: { kind: 'equivalents', equivalents: 1 }, atMost: 2 },
        },
      ],
    }),
  ]);
const lineOf = (bottles: readonly Bottle[], one = until('q'), material = 'q') => {
  const result = planOf(one, [draw('b', 1, 'mol')], bottles);
  const line = result.fetch.find((found) => found.material === material);
  return { result, line };
};

describe('what is added until an end point is there at its largest, or it is short', () => {
  test('1.5 mol for an estimate of 1 mol and 2 mol at most: 0.5 mol short, and the estimate is allocated', () => {
    const { result, line } = lineOf([bottle('q', 1.5 * M)]);
    expect(line?.status).toBe('short');
    expect(line?.short?.value).toBeCloseTo(0.5 * M, 9);
    expect(chargeOf(result, '1', 'q').supply).toMatchObject({ kind: 'bottles', bottles: [{ amount: expect.closeTo(M, 9) }] });
    const session = sessionOf(result, [{ step: '1', batch: 1 }]).lines.find((one) => one.line.material === 'q');
    expect(session?.status).toBe('short');
  });

  test('2 mol are enough; in a session of one of two batches 1 mol is', () => {
    expect(lineOf([bottle('q', 2 * M + 1e-6)]).line?.status).toBe('enough');
    const halves = planOf(until('q'), [draw('b', 1, 'mol')], [bottle('q', 1.2 * M)], { ask: { batches: { 1: 2 } } });
    const status = (batches: readonly number[]) =>
      sessionOf(
        halves,
        batches.map((batch) => ({ step: '1', batch })),
      ).lines.find((one) => one.line.material === 'q')?.status;
    expect(status([1])).toBe('enough');
    expect(status([1, 2])).toBe('short');
  });

  test('a bottle past its date that would give the rest is named for it', () => {
    const old = { ...bottle('q', M), id: 'old', lot: 'old', useBy: '2020-01-01' };
    expect(lineOf([bottle('q', 1.5 * M), old]).line?.status).toBe('out of date');
  });

  test('made up is as much as may be needed', () => {
    const six = { form: { kind: 'solution', strength: { value: 6, basis: 'mol/L' } } };
    const strong = bottle('hcl', 1000, 'mL', { kind: 'solution', strength: { value: 37, basis: '% w/w' } });
    const { result, line } = lineOf([strong], until('hcl', six), 'hcl');
    expect(line?.status).toBe('make up');
    const taken = (result.makeUps[0]?.parts[0]?.takeGrams.value ?? 0) * 0.37;
    expect(taken).toBeCloseTo(2 * HCL * 1.05, 2);
  });
});
