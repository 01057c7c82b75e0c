import { describe, expect, test } from 'vitest';
import type { Operation } from '../../src/core/route/route.ts';
import { solution } from '../reference/amounts.ts';
import { each, quenchCharge, quenchOf } from './quench-fixture.ts';

describe('water that hydrolyses, as far as it goes', () => {
  const MATERIALS = {
    a: { name: 'a', formula: 'C6H12', state: 'liquid' as const },
    b: { name: 'b', formula: 'C6H12', state: 'liquid' as const },
    water: { name: 'water', cas: '7732-18-5', utility: true },
    anhydride: { name: 'acetic anhydride', cas: '108-24-7' },
    phosphoryl: { name: 'phosphoryl chloride', cas: '10025-87-3' },
    sulfuric: { name: 'sulfuric acid', cas: '7664-93-9' },
    aluminium: { name: 'aluminium chloride', cas: '7446-70-0' },
    hydride: { name: 'lithium aluminium hydride', cas: '16853-85-3' },
  };
  const of = (...more: readonly Operation[]) => {
    const lines = quenchOf(MATERIALS, more).flatMap((section) => section.lines);
    return (code: string, operation: string): number | null => {
      const shown = lines.find((line) => line.code === code && line.operation === operation)?.shown;
      return shown?.kind === 'figure' ? shown.figure.value : null;
    };
  };
  test('half a millilitre of 96 % acid brings 2 mmol of water: the heat of 1.96 mol of anhydride waits for the quench', () => {
    const found = of(
      quenchCharge('anhydride', each(200, 'g')),
      quenchCharge('sulfuric', each(0.92, 'g'), solution(96, '% w/w')),
      quenchCharge('water', each(200, 'g')),
    );
    expect(found('hydrolysis', 'sulfuric') ?? 0).toBeLessThan(0.2);
    // 200 g ÷ 102.09 g/mol × 58.4 kJ/mol.
    expect(found('hydrolysis', 'water')).toBeCloseTo((200 / 102.09) * 58.4, 0);
  });
  test('three of water for a phosphoryl chloride: 54 g hydrolyse one mole of two', () => {
    const found = of(quenchCharge('phosphoryl', each(2 * 153.33, 'g')), quenchCharge('water', each(3 * 18.015, 'g')));
    expect(found('hydrolysis', 'water')).toBeCloseTo(343.4, 0);
    expect(found('stoichiometric', 'water')).toBeCloseTo(3 * 24.465, 1);
    expect(found('largest', 'water')).toBeCloseTo(6 * 24.465, 1);
  });
  test('aluminium chloride into water: its heat, though it is an acid of its own', () => {
    const found = of(quenchCharge('aluminium', each(13.334, 'g')), quenchCharge('water', each(100, 'g')));
    expect(found('hydrolysis', 'water')).toBeCloseTo(32.84, 1);
  });
  test('a hydride gives its hydrogen once', () => {
    const second = { ...quenchCharge('water', each(30, 'g')), id: 'second' };
    const found = of(quenchCharge('hydride', each(1, 'g')), quenchCharge('water', each(10, 'g')), second);
    expect(found('stoichiometric', 'water')).toBeCloseTo((4 / 37.954) * 24.465, 2);
    expect(found('stoichiometric', 'second')).toBeNull();
  });
  test('acid into water alone is diluted: no heat of neutralisation', () => {
    const found = of(quenchCharge('water', each(100, 'g')), quenchCharge('sulfuric', each(50, 'g'), solution(96, '% w/w')));
    expect(found('neutralisation', 'sulfuric')).toBeNull();
  });
});
