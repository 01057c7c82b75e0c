import { describe, expect, test } from 'vitest';
import type { Material } from '../../src/core/matter/material.ts';
import { isFrozen, isSlush } from '../../src/core/matter/frozen.ts';
import type { PlainRule } from '../../src/core/route/route.ts';
import { draw, planOf, route, step } from './build.ts';

const ICE: Material = { name: 'ice', formula: 'H2O', utility: true };
const taken = (material: Material, rule: PlainRule) => {
  const one = route({ a: 'C6H6', b: 'C6H6', x: material }, [
    step({ id: 's', basis: 'a', product: 'b', more: [{ do: 'charge', id: 'x', stage: 'quench', material: 'x', rule }] }),
  ]);
  const [plan] = planOf(one, [draw('b', 20.72)]).steps;
  const charge = plan?.operations.find((each) => each.kind === 'charge' && each.id === 'x');
  return charge?.kind === 'charge' ? charge.perBatch : null;
};

describe('what is handled frozen is weighed', () => {
  // 7.407 g/g × 20.72 g = 153.5 g: by hand; a balance of 1 g is fine enough within ±10 %.
  test('ice by mass: grams on a balance, not millilitres of water in a cylinder', () => {
    expect(taken(ICE, { kind: 'mass ratio', gramsPerGram: 7.407 })).toMatchObject({ by: 'mass', unit: 'g', target: 153 });
    expect(taken(ICE, { kind: 'mass ratio', gramsPerGram: 7.407 })?.device).toMatch(/balance|scale/);
  });

  test('ice by volume is weighed too; water is measured', () => {
    expect(taken({ ...ICE, name: 'crushed ice' }, { kind: 'volumes', millilitresPerGram: 5 })?.by).toBe('mass');
    expect(taken({ ...ICE, name: 'water' }, { kind: 'mass ratio', gramsPerGram: 5 })?.by).toBe('volume');
  });

  test('ice water: weighed by mass, poured by volume', () => {
    const slush = { ...ICE, name: 'ice/water' };
    expect(taken(slush, { kind: 'mass ratio', gramsPerGram: 5 })?.by).toBe('mass');
    expect(taken(slush, { kind: 'volumes', millilitresPerGram: 5 })?.by).toBe('volume');
  });

  test('dry ice is weighed on a balance, not metered as a gas', () => {
    const dry: Material = { name: 'dry ice', cas: '124-38-9', formula: 'CO2' };
    expect(taken(dry, { kind: 'mass ratio', gramsPerGram: 2 })?.device).toMatch(/balance|scale/);
    expect(taken({ ...dry, name: 'carbon dioxide' }, { kind: 'mass ratio', gramsPerGram: 2 })?.device).not.toMatch(
      /balance|scale/,
    );
  });

  test('names', () => {
    expect(['ice', 'Crushed ice', 'dry-ice', 'snow'].every(isFrozen)).toBe(true);
    expect(['ice-cold water', 'ice water', 'licorice', 'ice bath'].some(isFrozen)).toBe(false);
    expect(['ice water', 'ice/water', 'water/ice', 'ice and water'].every(isSlush)).toBe(true);
  });
});
