import { describe, expect, test } from 'vitest';
import { readRoute } from '../../src/core/route/read-route.ts';
import type { Step } from '../../src/core/route/route.ts';
import { chargeOf, draw, planOf, route, step, stepOf } from './build.ts';

// Molar masses by hand, from CIAAW 2021 conventional weights: C6H6 78.114, C6H12 84.162.
const solvent = {
  name: 'toluene',
  formula: 'C7H8',
  state: 'liquid',
  density: { gramsPerMillilitre: 0.867, celsius: 20 },
} as const;
const materials = { a: 'C6H6', b: 'C6H12', c: 'C6H6', t: solvent };

const carried: Partial<Step> = { carriedWith: { material: 't', millilitresPerGram: 5 } };
const first = (more: Partial<Step>): Step => step({ id: '1', basis: 'a', product: 'b', extra: more });
const dilute = (kind: 'to concentration' | 'make up to'): Step =>
  step({
    id: '2',
    basis: 'b',
    product: 'c',
    yieldPercent: 60,
    more: [
      {
        do: 'charge',
        id: 's',
        stage: 'reaction',
        material: 't',
        rule: kind === 'make up to' ? { kind, millilitresPerMole: 1000 } : { kind, molesPerLitre: 1 },
      },
    ],
  });

describe('a product that goes on in solution', () => {
  test.each(['to concentration', 'make up to'] as const)('its solvent counts in “%s”', (kind) => {
    const dry = planOf(route(materials, [first({}), dilute(kind)]), [draw('c', 0.6, 'mol')]);
    const wet = planOf(route(materials, [first(carried), dilute(kind)]), [draw('c', 0.6, 'mol')]);
    // One mole of b is 84.162 g and brings 5 mL of solvent a gram.
    const less = (chargeOf(dry, '2', 't').millilitres?.value ?? 0) - (chargeOf(wet, '2', 't').millilitres?.value ?? 0);
    expect(less).toBeCloseTo(84.162 * 5, 6);
    expect(chargeOf(wet, '2', 'b').carried?.millilitres.value).toBeCloseTo(84.162 * 5, 6);
    expect(chargeOf(wet, '2', 'b').grams?.value).toBeCloseTo(84.162, 6);
  });

  test('it takes room in the vessel', () => {
    const plain = step({ id: '2', basis: 'b', product: 'c' });
    const volume = (one: Step): number =>
      stepOf(planOf(route(materials, [one, plain]), [draw('c', 1, 'mol')]), '2').batches.stages[0]?.volume.value ?? 0;
    expect(volume(first(carried)) - volume(first({}))).toBeCloseTo(84.162 * 5, 6);
  });
});

describe('a yield counted over two steps', () => {
  const two = (yieldPercent: number): string =>
    JSON.stringify(
      route(materials, [
        first({ yieldPercent, yieldCountedIn: '2' }),
        step({ id: '2', basis: 'b', product: 'c', yieldPercent: 60 }),
      ]),
    );

  test('divides once, over both', () => {
    const read = readRoute(two(100));
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const result = planOf(read.value, [draw('c', 0.6, 'mol')]);
    expect(stepOf(result, '1').basis.moles.value).toBeCloseTo(1, 12);
    expect(stepOf(result, '1').yieldCountedIn).toBe('2');
  });

  test('is refused where the first step loses too, or the later one does not take its product', () => {
    expect(readRoute(two(90))).toMatchObject({ ok: false, problems: [{ at: '/steps/0/yieldPercent' }] });
    const wrong = route(materials, [
      first({ yieldPercent: 100, yieldCountedIn: '2' }),
      step({ id: '2', basis: 'a', product: 'c' }),
    ]);
    expect(readRoute(JSON.stringify(wrong))).toMatchObject({ ok: false, problems: [{ at: '/steps/0/yieldCountedIn' }] });
  });
});
