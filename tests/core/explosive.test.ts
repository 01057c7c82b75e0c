import { describe, expect, test } from 'vitest';
import { planText } from '../../src/core/words/plan-text.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { bottle, draw, planOf, route, step } from './build.ts';

/** Neutral structures with statements of their own: what they are does not matter here. */
const named = (name: string, hazards: readonly string[]) => ({ name, formula: 'C8H8O2', hazards: [...hazards] });
const chain = (made: readonly string[], charged: readonly string[] = []) =>
  route({ a: 'C8H8O2', b: named('intermediate', made), c: 'C8H8O2', r: named('reagent', charged) }, [
    step({ id: '1', basis: 'a', product: 'b', yieldPercent: 80 }),
    step({ id: '2', basis: 'b', product: 'c', yieldPercent: 80, equivalents: { r: 1 } }),
  ]);
const refusals = (result: ReturnType<typeof planOf>) => result.notices.filter((one) => one.code === 'explosive not scaled');

describe('a step classed as explosive is not scaled', () => {
  test.each(['H200', 'H201', 'H203', 'H206', 'H211', 'H240', 'H241'])(
    'its product carries %s: no amounts at all, and the reason',
    (code) => {
      const result = planOf(chain([code]), [draw('c', 10)]);
      expect(result.solved).toBe(false);
      expect(result.steps).toEqual([]);
      expect(result.fetch).toEqual([]);
      const [notice] = refusals(result);
      expect(notice).toMatchObject({ level: 'error', at: { step: '1', material: 'b' } });
      expect(notice && sentence(notice)).toMatch(
        new RegExp(`makes intermediate, which is classed as explosive \\(${code}\\).*licensed people`),
      );
      // Nothing with a unit of amount is printed for any step.
      expect(planText(result, { kind: 'unknown' }, () => [])).not.toMatch(/\d\s*(g|mL|mol)\b.*intermediate/);
    },
  );

  test.each(['H202', 'H205'])('a charge that is an explosive (%s) makes the mixture one', (code) => {
    const result = planOf(chain([], [code]), [draw('c', 10)]);
    expect(refusals(result)[0]).toMatchObject({ at: { step: '2', material: 'r' }, values: { how: 'charged' } });
  });

  test('joined codes are looked at one by one', () => {
    expect(refusals(planOf(chain(['H240+H301']), [draw('c', 10)]))).toHaveLength(1);
  });

  test.each(['H224', 'H242', 'H271', 'H272', 'H300'])('%s alone is told of, not refused', (code) => {
    const result = planOf(chain([code], [code]), [draw('c', 10)]);
    expect(refusals(result)).toEqual([]);
    expect(result.solved).toBe(true);
  });

  test('left out, or covered by stock, the rest can be planned', () => {
    const one = chain(['H240']);
    expect(planOf(one, [draw('c', 10)], [], { ask: { leaveOut: ['1'] } }).solved).toBe(true);
    expect(planOf(one, [draw('c', 10)], [bottle('b', 500)]).solved).toBe(true);
  });
});
