import { expect, test } from 'vitest';
import { NEAT } from '../../src/core/matter/form.ts';
import type { Form } from '../../src/core/matter/form.ts';
import type { Operation } from '../../src/core/route/route.ts';
import { solution } from '../reference/amounts.ts';
import { draw, planOf, route, step, stepOf } from './build.ts';

// Hydrochloric acid and ammonia are gases as pure substances, but are poured as solutions: those fill the vessel.

const MATERIALS = {
  a: { name: 'a', formula: 'C6H12', state: 'liquid' as const },
  b: { name: 'b', formula: 'C6H12O', state: 'liquid' as const },
  acid: { name: 'hydrochloric acid', cas: '7647-01-0' },
  ammonia: { name: 'ammonia', cas: '7664-41-7' },
};

function volumeWith(material: string, form: Form): number {
  const charge: Operation = {
    do: 'charge',
    id: 'x',
    stage: 'reaction',
    material,
    rule: { kind: 'per batch', amount: 50, unit: 'g' },
    form,
  };
  const one = route(MATERIALS, [step({ id: '1', basis: 'a', product: 'b', more: [charge] })]);
  return stepOf(planOf(one, [draw('b', 0.001, 'mol')]), '1').batches.stages[0]?.volume.value ?? Number.NaN;
}

test('a solution of a gas takes its own volume in the vessel', () => {
  // 50 g of 37 % hydrochloric acid at 1.1837 g/mL (CRC Handbook, 20 °C), 25 % ammonia at 0.9070 g/mL; cyclohexane 0.11 mL.
  const alone = volumeWith('acid', NEAT);
  expect(volumeWith('acid', solution(37, '% w/w')) - alone).toBeCloseTo(42.23, 1);
  expect(volumeWith('ammonia', solution(25, '% w/w')) - alone).toBeCloseTo(55.1, 0);
});

test('a gas that is let in takes no room', () => {
  expect(volumeWith('acid', NEAT)).toBeLessThan(0.2);
});
