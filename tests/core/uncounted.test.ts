import { describe, expect, test } from 'vitest';
import type { Form } from '../../src/core/matter/form.ts';
import { fetchPaper } from '../../src/core/paper/fetch-list.ts';
import { sessionOf } from '../../src/core/paper/session.ts';
import { dayBefore } from '../../src/core/session/day-before.ts';
import { context } from './paper-fixture.ts';
import { bottle, draw, planOf, route, step } from './build.ts';

// A reagent by equivalents whose strength is written nowhere: no amount can be worked out, and none is "0 g".
const odd = { name: 'butyl reagent', formula: 'C4H9Cl', state: 'liquid' } as const;
const made = (form: Form) =>
  planOf(
    route({ a: 'C6H6', b: 'C6H6', odd }, [
      step({
        id: 's',
        basis: 'a',
        product: 'b',
        more: [
          { do: 'charge', id: 'odd', stage: 'reaction', material: 'odd', rule: { kind: 'equivalents', equivalents: 1.1 }, form },
        ],
      }),
    ]),
    [draw('b', 10)],
    [bottle('a', 50), bottle('odd', 100, 'mL', form)],
  );
const chosen = [{ step: 's', batch: 1 }];

describe('a charge that no list can count', () => {
  const result = made({ kind: 'unknown' });
  const session = sessionOf(result, chosen);

  test('is told by name, with its step, in the session', () => {
    expect(session.lines.map(({ line }) => line.name)).toEqual(['a']);
    expect(session.uncounted).toEqual([{ material: 'butyl reagent', form: expect.stringContaining('unknown'), step: 1 }]);
  });

  test('stands at the head of the fetch list, and is something to do before the day', () => {
    const { before } = fetchPaper(chosen, context(result));
    expect(before.filter(({ words }) => words.startsWith('butyl reagent') && words.includes('step 1'))).toEqual([
      { kind: 'short', words: expect.stringContaining('is not known, so no list counts it') },
    ]);
    expect(dayBefore(result, session, new Map(), '2027-02-25')).toContainEqual(
      expect.objectContaining({ do: 'count', step: 1, what: expect.stringContaining('butyl reagent') }),
    );
  });

  test('what can be counted, or is not chosen, is not told', () => {
    expect(sessionOf(made({ kind: 'neat' }), chosen).uncounted).toEqual([]);
    expect(sessionOf(result, []).uncounted).toEqual([]);
  });
});

describe('a bottle of an intermediate that a draw and a step share', () => {
  // 12 g of b on the shelf: 10 g go into the step (8 g of c at 80 %), 2 g are a draw of their own.
  const chain = route({ a: 'C6H6', b: 'C6H6', c: 'C6H6' }, [
    step({ id: 'ab', basis: 'a', product: 'b' }),
    step({ id: 'bc', basis: 'b', product: 'c', yieldPercent: 80 }),
  ]);
  const result = planOf(chain, [draw('c', 8), draw('b', 2)], [bottle('b', 30)]);

  test('the session fetches what its step takes, not what the draw takes', () => {
    const [line] = fetchPaper([{ step: 'bc', batch: 1 }], context(result)).places.flatMap(({ lines }) => lines);
    expect(line).toMatchObject({ material: 'b', need: '10.00\u00a0g', status: 'enough' });
  });
});
