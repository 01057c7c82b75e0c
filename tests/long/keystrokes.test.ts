import fc from 'fast-check';
import { test } from 'vitest';
import { demoInput } from '../core/demo-fixture.ts';
import { editsOf, expectNothingStale } from '../core/edits-fixture.ts';

test('the demonstration: plan after plan is what each would be by itself', () => {
  fc.assert(
    fc.property(editsOf(demoInput), (edits) => expectNothingStale(demoInput, edits)),
    { numRuns: 30 },
  );
});
