import fc from 'fast-check';
import { expect, test } from 'vitest';
import { inPairs } from '../../src/renderer/paper/in-pairs.ts';

test('two short lines stand beside each other, a long one alone', () => {
  const long = 'x'.repeat(100);
  expect(inPairs(['a', 'b', long, 'c', long, 'd', 'e', 'f'])).toEqual([['a', 'b'], [long], ['c'], [long], ['d', 'e'], ['f']]);
});

test('every line once and in order, whatever their lengths', () => {
  fc.assert(
    fc.property(fc.array(fc.string({ maxLength: 120 }), { maxLength: 40 }), (lines) => {
      expect(inPairs(lines).flat()).toEqual(lines);
    }),
  );
});
