import { test } from 'vitest';
import { expectFileIdentity, expectIdentityAfterActs, expectTableIdentity } from '../main/shelf-identity.ts';

const RUNS = 200;
/** Each is forty acts and three files. */
const ACTED = 15;

test.each(['csv', 'xlsx'] as const)('export → import is the identity for any shelf: %s', (as) => expectTableIdentity(as, RUNS));

test('export → import is the identity for any shelf: JSON', () => expectFileIdentity(RUNS));

test('export → import is the identity after any acts on bottles: CSV, XLSX, JSON', () => expectIdentityAfterActs(ACTED));
