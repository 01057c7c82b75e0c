import { describe, expect, test } from 'vitest';
import { largestServing, vesselOf } from '../../src/core/plan/batches/vessel-build.ts';
import type { Operation } from '../../src/core/route/route.ts';
import { draw, planOf, route, settings, step, stepOf } from './build.ts';

describe('the vessel of a stage', () => {
  test.each<[string, number, string]>([
    ['', 390, '500 mL flask'],
    ['', 590, '1 L flask'],
    ['round-bottomed flask, condenser', 100, '100 mL flask'],
    ['conical flask, open, in a bath of boiling water', 100, '100 mL Erlenmeyer'],
    ['beaker, glass rod, ice', 390, '400 mL beaker'],
    // No conical flask is that large: another flask serves, never a beaker.
    ['conical flask', 2500, '4 L flask'],
    ['beaker', 2500, '4 L flask'],
  ])('for “%s” and %d mL', (apparatus, needed, name) => {
    expect(vesselOf(apparatus, needed, settings)?.name).toBe(name);
  });

  test('a separating funnel is no vessel for a reaction; a flask with a dropping funnel is', () => {
    const flask = { name: '500 mL flask, dropping funnel', nominal: 500 };
    const both = { ...settings, vessels: [flask, { name: '1 L separating funnel', nominal: 1000 }] };
    expect(vesselOf('', 800, both)?.name).toBe(flask.name);
    expect(largestServing('beaker', both).name).toBe(flask.name);
  });

  test('a laboratory that has only beakers uses them', () => {
    const only = { ...settings, vessels: [{ name: '600 mL beaker', nominal: 600 }] };
    expect(vesselOf('round-bottomed flask', 100, only)?.name).toBe('600 mL beaker');
    expect(largestServing('', only).name).toBe('600 mL beaker');
  });

  test('batches fill what may serve: a large beaker does not make one batch of a reaction', () => {
    const more: Operation[] = [
      { do: 'charge', id: 's', stage: 'reaction', material: 's', rule: { kind: 'volumes', millilitresPerGram: 10 } },
    ];
    const materials = {
      a: { name: 'a', formula: 'C6H6', state: 'solid' as const },
      b: { name: 'b', formula: 'C6H12' },
      s: { name: 's', state: 'liquid' as const },
    };
    const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', more })]);
    const vessels = [
      { name: '100 mL flask', nominal: 100 },
      { name: '2 L beaker', nominal: 2000 },
    ];
    const { batches } = stepOf(planOf(one, [draw('b', 20)], [], { settings: { ...settings, vessels } }), '1');
    expect(batches.count).toBeGreaterThan(2);
    expect(batches).toMatchObject({ why: 'vessel', reason: '100 mL flask', stages: [{ vessel: { name: '100 mL flask' } }] });
  });
});
