import fc from 'fast-check';
import { test } from 'vitest';
import { allMade, twoMakers } from '../core/two-makers-fixture.ts';

test('any network with a choice of makers and loops meets draws from 1 µmol to 100 t', () => {
  fc.assert(fc.property(twoMakers(9), allMade), { numRuns: 20_000 });
});
