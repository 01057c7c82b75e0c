import { expect, test } from 'vitest';
import { isPyrophoricCatalyst } from '../../src/core/bench/catalyst.ts';
import { NEAT } from '../../src/core/matter/form.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { solution } from '../reference/amounts.ts';
import { reference } from '../reference/tables.ts';
import { draw, planOf, route, step, stepOf } from './build.ts';
import { each, quenchCharge } from './quench-fixture.ts';

const ignites = (name: string, cas?: string): boolean =>
  isPyrophoricCatalyst(factsOf(cas ? { name, cas } : { name }, reference), NEAT);

test.each([
  'palladium on carbon',
  '10 % Pd/C',
  'Palladium (5 %) on activated carbon',
  'platinum on alumina',
  'Raney nickel',
  'Pd(OH)2/C',
])('%s ignites', (name) => expect(ignites(name)).toBe(true));
test('palladium by its number', () => expect(ignites('the catalyst', '7440-05-3')).toBe(true));
test.each(['palladium(II) acetate', 'carbon', 'copper', 'tetrakis(triphenylphosphine)palladium(0)'])('not %s', (name) =>
  expect(ignites(name)).toBe(false),
);
test('not what is dissolved', () =>
  expect(isPyrophoricCatalyst(factsOf({ name: 'palladium', cas: '7440-05-3' }, reference), solution(1, '% w/w'))).toBe(false));

test('it is said before the charge', () => {
  const one = route({ a: 'C6H12', b: 'C6H12', c: { name: 'palladium on carbon', cas: '7440-05-3' } }, [
    step({ id: '1', basis: 'a', product: 'b', more: [quenchCharge('c', each(1, 'g'))] }),
  ]);
  const said = stepOf(planOf(one, [draw('b', 10)]), '1').operations.flatMap(({ before }) => before);
  const found = said.filter(({ code }) => code === 'catalyst ignites');
  expect(found).toHaveLength(1);
  expect(found[0] && sentence(found[0])).toContain('inert gas before it goes in');
});
