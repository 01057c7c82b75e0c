import { expect, test } from 'vitest';
import { unreadPrints } from '../../src/core/procedure/unread-prints.ts';
import { readRoute } from '../../src/core/route/read-route.ts';
import type { Route } from '../../src/core/route/route.ts';
import { publishedText } from '../../src/core/words/published-text.ts';
import { unreadPrintsText } from '../../src/core/words/unread-print-words.ts';
import { reference } from '../reference/tables.ts';
import { draw, planOf, route, step } from './build.ts';

/** A route as a file may bring it: one print that is read, three that are not. */
function filed(): Route {
  const one = step({ id: '1', basis: 'a', product: 'b', equivalents: { c: 1.2 } });
  const printed = ['75 g (0.9 mol)', '12 gg (0.1 mol)'];
  return route({ a: 'C6H12', b: 'C6H10', c: 'C7H8' }, [
    {
      ...one,
      operations: one.operations.map((operation, at) =>
        operation.do === 'charge' ? { ...operation, printed: printed[at] ?? '' } : operation,
      ),
      printed: { product: 'plenty', yield: '120 %' },
    },
  ]);
}

test('a file with prints that cannot be read is taken in whole, and every one is named with its place', () => {
  const read = readRoute(JSON.stringify(filed()));
  expect(read).toEqual({ ok: true, value: filed() });
  expect(unreadPrints(filed()).map(({ of, text, problem }) => [of, text, problem.at])).toEqual([
    [{ operation: 'c2', name: 'c' }, '12 gg (0.1 mol)', 3],
    ['product', 'plenty', 0],
    ['yield', '120 %', 0],
  ]);
});

test('it is said in words, in the plan as text too; the ratios beside it are planned with', () => {
  expect(unreadPrintsText(unreadPrints(filed()))).toContain('Step 1, c: “12 gg (0.1 mol)” cannot be read after “12”: ');
  expect(publishedText(filed(), reference)).toContain('yield as printed: “120 %” cannot be read: a yield needs to be over 0');
  expect(planOf(filed(), [draw('b', 82.146)]).steps[0]?.basis.moles.value).toBeCloseTo(1, 3);
});

test('a route whose prints can all be read says nothing', () => {
  const one = step({ id: '1', basis: 'a', product: 'b' });
  expect(unreadPrintsText(unreadPrints(route({ a: 'C6H12', b: 'C6H10' }, [one])))).toBe('');
});
