import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { factsOf } from '../../src/core/matter/facts.ts';
import type { Form, PlainBasis, StrengthBasis } from '../../src/core/matter/form.ts';
import { interpolateMonotone } from '../../src/core/matter/interpolate.ts';
import { gramsPerMillilitre, molPerMillilitre, strengthOn } from '../../src/core/matter/solution.ts';
import { strengthDoubt } from '../../src/core/matter/strength-doubt.ts';
import { dilute } from '../../src/core/matter/mixing.ts';
import { reference } from '../reference/tables.ts';

const BASES: readonly PlainBasis[] = ['% w/w', '% w/v', '% v/v', 'mol/L', 'mol/kg', 'g/L'];
const ethanol = factsOf({ name: 'ethanol', cas: '64-17-5' }, reference);
const nitric = factsOf({ name: 'nitric acid', cas: '7697-37-2' }, reference);
const lye = factsOf({ name: 'sodium hydroxide', cas: '1310-73-2' }, reference);
const solution = (value: number, basis: StrengthBasis): Form & { kind: 'solution' } => ({
  kind: 'solution',
  strength: { value, basis },
});

describe('strengths', () => {
  test('every basis to every other and back, to 1e-12', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 95, noNaN: true }),
        fc.constantFrom(...BASES),
        fc.constantFrom(...BASES),
        (percent, from, to) => {
          const first = strengthOn(from, ethanol, solution(percent, '% w/w'), reference);
          if (!first.ok) throw new Error(first.why.code);
          const second = strengthOn(to, ethanol, solution(first.figure.value, from), reference);
          if (!second.ok) throw new Error(second.why.code);
          const back = strengthOn(from, ethanol, solution(second.figure.value, to), reference);
          if (!back.ok) throw new Error(back.why.code);
          expect(Math.abs(back.figure.value / first.figure.value - 1)).toBeLessThan(1e-12);
        },
      ),
      { numRuns: 300 },
    );
  });

  test('OIML R 22: 96 % v/v ethanol is 93.84 % w/w and 0.80742 g/mL at 20 °C', () => {
    // International Alcoholometric Tables, OIML R 22 (1975), Table III b (from memory): 96.0 % vol ↔ 93.84 % mass.
    const form = solution(96, '% v/v');
    const percent = strengthOn('% w/w', ethanol, form, reference);
    expect(percent.ok && percent.figure.value).toBeCloseTo(93.84, 1);
    const density = gramsPerMillilitre(ethanol, form, reference);
    expect(density.ok && density.figure.value).toBeCloseTo(0.8074, 3);
  });

  test('a supplier table of concentrated reagents: 50.5 % w/w lye at 1.53 g/mL is 19.3 mol/L', () => {
    const form: Form = {
      kind: 'solution',
      strength: { value: 50.5, basis: '% w/w' },
      density: { gramsPerMillilitre: 1.53, celsius: 20 },
    };
    const perMl = molPerMillilitre(lye, form, reference);
    expect(perMl.ok && perMl.figure.value * 1000).toBeCloseTo(19.31781, 4);
  });

  test('about 7 mL of 99 % and about 10.5 mL of 68 % nitric acid carry the same acid within 5 % (common practice, no source)', () => {
    const moles = (millilitres: number, percent: number): number => {
      const per = molPerMillilitre(nitric, solution(percent, '% w/w'), reference);
      return per.ok ? per.figure.value * millilitres : Number.NaN;
    };
    expect(Math.abs(moles(7, 99) / moles(10.5, 68) - 1)).toBeLessThan(0.05);
  });

  test('outside the table there is no density, and nothing is extrapolated', () => {
    const density = gramsPerMillilitre(lye, solution(60, '% w/w'), reference);
    expect(density).toMatchObject({ ok: false, why: { code: 'outside density table' } });
    expect(gramsPerMillilitre(lye, solution(30, 'mol/L'), reference)).toMatchObject({ ok: false });
  });

  test('nitric acid without a strength never takes the density of the pure acid', () => {
    expect(gramsPerMillilitre(nitric, { kind: 'neat' }, reference)).toMatchObject({
      ok: false,
      why: { code: 'usually a solution' },
    });
  });

  test('an unknown strength stays unknown', () => {
    expect(molPerMillilitre(nitric, { kind: 'unknown' }, reference)).toMatchObject({
      ok: false,
      why: { code: 'unknown strength' },
    });
  });
});

describe('monotone interpolation', () => {
  test('passes through every point, stays between neighbours, gives nothing outside', () => {
    const table = reference.densities.get('7697-37-2 in water')?.[0];
    if (!table) throw new Error('the nitric acid table is needed');
    const { percents, densities } = table;
    percents.forEach((percent, i) =>
      expect(interpolateMonotone(percents, densities, percent)).toBeCloseTo(densities[i] ?? 0, 12),
    );
    for (let i = 0; i + 1 < percents.length; i += 1) {
      for (const part of [0.1, 0.5, 0.9]) {
        const x = (percents[i] ?? 0) * (1 - part) + (percents[i + 1] ?? 0) * part;
        const y = interpolateMonotone(percents, densities, x) ?? Number.NaN;
        expect(y).toBeGreaterThanOrEqual(Math.min(densities[i] ?? 0, densities[i + 1] ?? 0) - 1e-12);
        expect(y).toBeLessThanOrEqual(Math.max(densities[i] ?? 0, densities[i + 1] ?? 0) + 1e-12);
      }
    }
    expect(interpolateMonotone(percents, densities, -0.001)).toBeNull();
    expect(interpolateMonotone(percents, densities, 100.1)).toBeNull();
  });
});

describe('dilution by mass', () => {
  test('balances mass and solute for any strengths', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 1e4, noNaN: true }),
        fc.double({ min: 0.02, max: 1, noNaN: true }),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        (grams, from, part) => {
          const to = from * part;
          const { strong, solvent } = dilute(grams, from, to);
          expect(strong + solvent).toBeCloseTo(grams, 9);
          expect(strong * from).toBeCloseTo(grams * to, 9);
          expect(solvent).toBeGreaterThan(0);
        },
      ),
    );
  });
  test('1000 g of 50 % from 96 % takes 520.8 g of it and 479.2 g of water (mass balance)', () => {
    const { strong, solvent } = dilute(1000, 0.96, 0.5);
    expect(strong).toBeCloseTo(520.8333, 3);
    expect(solvent).toBeCloseTo(479.1667, 3);
  });
  test('thinning to a greater strength is refused', () => {
    expect(() => dilute(1, 0.5, 0.6)).toThrow('0 < to < from');
  });
});

describe('a strength above the pure material', () => {
  const peroxide = { name: 'hydrogen peroxide', cas: '7722-84-1', formula: 'H2O2' };
  const doubt = (material: Parameters<typeof strengthDoubt>[0], form: Form) => strengthDoubt(material, form, reference);

  const mostOf = (found: ReturnType<typeof doubt>) => (found && 'most' in found ? found.most : null);

  test.each([
    [130, '% w/w', 100],
    [101, '% v/v', 100],
    // By hand: 1.45 g/mL (table) × 1000 ÷ 34.01 g/mol = 42.6 mol/L; 1450 g/L; 145 % w/v.
    [50, 'mol/L', 42.6],
    [1500, 'g/L', 1450],
    [150, '% w/v', 145],
  ] as const)('%d %s of hydrogen peroxide: at most %d', (value, basis, most) => {
    expect(mostOf(doubt(peroxide, solution(value, basis)))).toBeCloseTo(most, 1);
    expect(doubt(peroxide, solution(most * 0.999, basis))).toBeNull();
  });

  test('a normality is held against its moles', () => {
    const sulfuric = { name: 'sulfuric acid', cas: '7664-93-9', formula: 'H2SO4' };
    const eq = (value: number): Form => ({ kind: 'solution', strength: { value, basis: 'eq/L', equivalentsPerMole: 2 } });
    // 18.7 mol/L is the pure acid (1.83 g/mL ÷ 98.08 g/mol).
    expect(doubt(sulfuric, eq(36))).toBeNull();
    expect(mostOf(doubt(sulfuric, eq(40)))).toBeCloseTo(37.4, 0);
  });

  test('no more grams in a millilitre than the bottle weighs', () => {
    const acid = { name: 'an acid', formula: 'C2H4O2' };
    const form = { ...solution(1200, 'g/L'), density: { gramsPerMillilitre: 1.05, celsius: 20 } };
    expect(doubt(acid, form)).toMatchObject({ density: 1.05 });
    expect(doubt(acid, solution(1200, 'g/L'))).toBeNull();
  });

  test('every usual strength of the table is let pass, and mol/kg has no end', () => {
    for (const row of reference.rows.usualStrengths) {
      const typed = /^([\d.]+) (.+)$/.exec(row.strength);
      const form = { ...solution(Number(typed?.[1]), typed?.[2] as StrengthBasis), solvent: row.solvent };
      expect([row.strength, doubt({ name: row.cas, cas: row.cas }, form)]).toEqual([row.strength, null]);
    }
    expect(doubt(peroxide, solution(5000, 'mol/kg'))).toBeNull();
  });
});
