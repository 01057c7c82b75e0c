import { expect, test } from 'vitest';
import { clashesOf } from '../../src/core/bench/incompatible.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import { reference } from '../reference/tables.ts';

// C&EN 88 (24), 14 June 2010: chlorinated solvents should never come into contact with sodium azide.
const azide = factsOf({ name: 'sodium azide', cas: '26628-22-8' }, reference);
const codes = (cas: string): readonly string[] =>
  clashesOf(azide, factsOf({ name: 'other', cas }, reference), reference).map(({ code }) => code);

test.each([
  ['dichloromethane', '75-09-2'],
  ['chloroform', '67-66-3'],
])('sodium azide and %s are kept apart, for the azides that form', (_name, cas) => {
  expect(codes(cas)).toContain('azide meets chlorinated solvent');
});

test.each([
  ['N,N-dimethylformamide', '68-12-2'],
  ['benzyl bromide', '100-39-0'],
  ['chlorobenzene', '108-90-7'],
])('not so %s', (_name, cas) => expect(codes(cas)).not.toContain('azide meets chlorinated solvent'));
