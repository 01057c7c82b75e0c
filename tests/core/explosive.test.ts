import { describe, expect, test } from 'vitest';
import { chartGroupsOf } from '../../src/core/bench/chart.ts';
import { explosiveIn } from '../../src/core/bench/explosive.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import type { Form } from '../../src/core/matter/form.ts';
import { indexReference } from '../../src/core/reference.ts';
import { planText } from '../../src/core/words/plan-text.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { reference } from '../reference/tables.ts';
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

  describe('a mixture that the table names as explosive from a strength on', () => {
    const cas = '9999999-99-9';
    const hazards = [
      { cas, statements: ['H201'], pictograms: [], signal: null, fromPercent: 30, toPercent: null, source: 'a test' },
      { cas, statements: ['H302'], pictograms: [], signal: null, fromPercent: null, toPercent: 30, source: 'a test' },
    ];
    const tables = indexReference({ ...reference.rows, hazards: [...reference.rows.hazards, ...hazards] });
    const facts = new Map([['mix', factsOf({ name: 'mixture', cas }, tables)]]);
    const charging = (form: Form | undefined) =>
      explosiveIn(
        step({
          id: '1',
          basis: 'a',
          product: 'b',
          more: [
            {
              do: 'charge',
              id: 'm',
              stage: 'reaction',
              material: 'mix',
              ...(form ? { form } : {}),
              rule: { kind: 'equivalents', equivalents: 1 },
            },
          ],
        }),
        facts,
        tables,
      );
    const percent = (value: number): Form => ({ kind: 'solution', strength: { value, basis: '% w/w' } });

    test('refused at and above it, and where its strength is not known; told of below', () => {
      expect(charging(percent(40))).toMatchObject({ name: 'mixture', codes: 'H201', how: 'charged' });
      expect(charging(undefined)).toMatchObject({ codes: 'H201' });
      expect(charging({ kind: 'unknown' })).toMatchObject({ codes: 'H201' });
      expect(charging(percent(10))).toBeNull();
    });
    test('made by a step it counts as pure, whatever it is isolated as', () => {
      expect(explosiveIn(step({ id: '1', basis: 'a', product: 'mix' }), facts, tables)).toMatchObject({ how: 'made' });
    });
    test('in a waste container or vessel its statement makes it an explosive of the chart', () => {
      const one = facts.get('mix');
      expect(one && chartGroupsOf(one, tables)).toEqual([102]);
    });
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
