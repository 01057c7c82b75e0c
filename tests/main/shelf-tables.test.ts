import { test } from 'vitest';
import { expectFileIdentity, expectTableIdentity } from './shelf-identity.ts';

// Many more of them in tests/long/shelf-identity.test.ts.
const RUNS = 12;

test.each(['csv', 'xlsx'] as const)('export → import is the identity for any shelf: %s', (as) => expectTableIdentity(as, RUNS));

test('export → import is the identity for any shelf: JSON', () => expectFileIdentity(RUNS));
