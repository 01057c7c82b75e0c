import { test } from 'vitest';
import { expectFileIdentity, expectTableIdentity } from '../main/shelf-identity.ts';

const RUNS = 200;

test.each(['csv', 'xlsx'] as const)('export → import is the identity for any shelf: %s', (as) => expectTableIdentity(as, RUNS));

test('export → import is the identity for any shelf: JSON', () => expectFileIdentity(RUNS));
