import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gasLitres } from '../../src/core/bench/gas.ts';
import { hazardsOf } from '../../src/core/bench/hazards.ts';
import { takeOf } from '../../src/core/bench/take.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import type { Form } from '../../src/core/matter/form.ts';
import { entered } from '../../src/core/quantity/figure.ts';
import type { Operation } from '../../src/core/route/route.ts';
import { caseById, expected } from '../reference/cases.ts';
import { reference } from '../reference/tables.ts';
import { draw, planOf, route, settings, step, stepOf } from './build.ts';

const solution = (value: number): Form => ({ kind: 'solution', strength: { value, basis: '% w/w' } });
const statements = (cas: string, form: Form): readonly string[] | null =>
  hazardsOf(factsOf({ name: cas, cas }, reference), form, reference)?.statements ?? null;

describe('hazard statements by strength (CLP Annex VI, specific concentration limits)', () => {
  const NAOH = '1310-73-2';
  const NITRIC = '7697-37-2';
  test.each<[string, number, readonly string[], readonly string[]]>([
    [NAOH, 50, ['H314'], ['H315', 'H319']],
    [NAOH, 3, ['H314'], ['H315', 'H319']],
    [NAOH, 1, ['H315', 'H319'], ['H314']],
    [NAOH, 0.4, [], ['H314', 'H315', 'H319']],
    [NITRIC, 68, ['H272', 'H314', 'H331'], ['H330']],
    [NITRIC, 60, ['H314', 'H331'], ['H272']],
    [NITRIC, 99, ['H272', 'H314', 'H330'], []],
  ])('%s at %d %% w/w', (cas, percent, has, hasNot) => {
    const found = statements(cas, solution(percent));
    for (const code of has) expect(found).toContain(code);
    for (const code of hasNot) expect(found).not.toContain(code);
  });
  test('without an entry there is null, which is said, never an empty list', () => {
    expect(statements('119-53-9', { kind: 'neat' })).toBeNull();
  });
  test('at an unknown strength nothing is ruled out', () => {
    expect(statements(NAOH, { kind: 'unknown' })).toEqual(expect.arrayContaining(['H314']));
  });
});

describe('gas volumes', () => {
  test.each<[string, number, number]>([
    ['0 C, 1 atm', 0, 101.325],
    ['0 C, 1 bar', 0, 100],
    ['25 C, 1 atm', 25, 101.325],
    ['25 C, 1 bar', 25, 100],
  ])('one mole at %s', (name, celsius, kilopascal) => {
    const want = expected(caseById('e09'), name);
    expect(Math.abs(gasLitres(1, celsius, kilopascal) - want.value)).toBeLessThanOrEqual(want.within);
  });
  test('below absolute zero or without pressure is refused', () => {
    expect(() => gasLitres(1, -274)).toThrow('absolute zero');
    expect(() => gasLitres(1, 25, 0)).toThrow('above 0');
  });
});

describe('what is weighed or measured', () => {
  const take = (by: 'mass' | 'volume', value: number, tolerancePercent: number | null, portions = 1, noLess = false) =>
    takeOf({
      by,
      exact: entered('x', value, by === 'mass' ? 'g' : 'mL', 'a test'),
      tolerancePercent,
      portions,
      noLess,
      moles: 1,
      basisMoles: 0.5,
      settings,
      measureTolerances: reference.rows.measureTolerances,
      dissolves: true,
    });

  test('the coarsest balance that shows a tenth of the range; the finest where none does', () => {
    expect(take('mass', 100, 2).decimals).toBeLessThan(take('mass', 1, 2).decimals);
    expect(take('mass', 1e-4, 2).device).toBe(
      settings.balances.reduce((finest, one) => (one.readability < finest.readability ? one : finest)).name,
    );
  });
  test('the basis has a target and no range; the rest has both', () => {
    expect(take('mass', 10, null)).toMatchObject({ low: null, high: null });
    const { low, high, target } = take('mass', 10, 5);
    expect([low, high]).toEqual([expect.closeTo(target * 0.95, 2), expect.closeTo(target * 1.05, 2)]);
  });
  test('where no less may be used the target is rounded up and nothing under it is accepted', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 5000, noNaN: true }),
        fc.constantFrom<'mass' | 'volume'>('mass', 'volume'),
        fc.integer({ min: 1, max: 5 }),
        (value, by, portions) => {
          const { target, low, high } = take(by, value, 3, portions, true);
          expect(target).toBeGreaterThanOrEqual(value * (1 - 1e-9));
          expect(low).toBe(target);
          expect(high).toBeGreaterThan(target);
        },
      ),
    );
  });
  test('a target is never asked finer than the lines of the measure', () => {
    const cylinder = settings.measures.find((one) => one.name === 'cylinder 25 mL');
    expect(cylinder?.readability).toBe(0.25);
    expect(take('volume', 24.6, 5)).toMatchObject({ device: cylinder?.name, target: 24.5, decimals: 1 });
    expect(take('volume', 24.8, 5)).toMatchObject({ target: 25, decimals: 1 });
  });
  test('the range is the tolerance around the exact amount, not around a target rounded to a line', () => {
    // 11.22 mL ± 3 % is 10.88 to 11.56 mL; a cylinder of 25 mL has a line every 0.5 mL.
    expect(take('volume', 11.22, 3)).toMatchObject({ target: 11, low: 10.9, high: 11.6 });
    fc.assert(
      fc.property(fc.double({ min: 1, max: 2000, noNaN: true }), fc.integer({ min: 1, max: 5 }), (value, portions) => {
        const { target, low, high, decimals, meets } = take('volume', value, 3, portions);
        const shown = 0.5 * 10 ** -decimals + 1e-9;
        if (meets && Math.abs(target - value) <= 0.03 * value) {
          expect(low).toBeGreaterThanOrEqual(value * 0.97 - shown);
          expect(high).toBeLessThanOrEqual(value * 1.03 + shown);
        }
        expect((low ?? 0) <= target && target <= (high ?? 0)).toBe(true);
      }),
    );
  });
  test('moles and equivalents are those of the rounded target', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 5000, noNaN: true }),
        fc.constantFrom<'mass' | 'volume'>('mass', 'volume'),
        fc.integer({ min: 1, max: 5 }),
        (value, by, portions) => {
          const found = take(by, value, 2, portions);
          expect(found.moles).toBeCloseTo(found.target / value, 9);
          expect(found.equivalents).toBeCloseTo((2 * found.target) / value, 9);
          expect(Number(found.target.toFixed(found.decimals))).toBe(found.target);
        },
      ),
    );
  });
});

describe('cautions', () => {
  const materials = {
    a: { name: 'benzoin', formula: 'C14H12O2', cas: '119-53-9', state: 'solid' as const },
    b: { name: 'benzil', formula: 'C14H10O2', cas: '134-81-6', state: 'solid' as const },
    nitric: { name: 'nitric acid', formula: 'HNO3', cas: '7697-37-2' },
    water: { name: 'water', formula: 'H2O', cas: '7732-18-5', utility: true },
    ethanol: { name: 'ethanol', formula: 'C2H6O', cas: '64-17-5' },
    bleach: { name: 'sodium hypochlorite', formula: 'NaClO', cas: '7681-52-9' },
    hcl: { name: 'hydrochloric acid', formula: 'HCl', cas: '7647-01-0' },
  };
  const equation = {
    uses: [
      { material: 'a', coefficient: 1 },
      { material: 'nitric', coefficient: 2 },
    ],
    makes: [{ material: 'b', coefficient: 1 }],
  };
  const nitric: Operation = {
    do: 'charge',
    id: 'nitric',
    stage: 'reaction',
    material: 'nitric',
    form: solution(68),
    rule: { kind: 'volumes', millilitresPerGram: 4 },
  };
  const add = (id: string, material: string, stage: Operation['stage'] = 'purification'): Operation => ({
    do: 'charge',
    id,
    stage,
    material,
    rule: { kind: 'volumes', millilitresPerGram: 4 },
  });
  const wash: Operation = {
    do: 'removal',
    id: 'wash',
    stage: 'work-up',
    how: 'filter',
    takes: [{ what: 'all but the product', percent: 99.9 }],
    wasteTo: 'acid waste',
  };
  const said = (more: readonly Operation[], extra = {}) => {
    const result = planOf(route(materials, [step({ id: '1', basis: 'a', product: 'b', more, extra: { equation, ...extra } })]), [
      draw('b', 10),
    ]);
    return {
      result,
      before: (id: string) =>
        stepOf(result, '1').operations.find(
          (one) => (one.kind === 'charge' ? one.id : one.kind === 'removal' ? one.removal.id : one.hold.id) === id,
        )?.before ?? [],
    };
  };
  const codes = (notices: readonly { readonly code: string }[]): readonly string[] => notices.map((notice) => notice.code);

  test('the reaction itself is no accident: the acid of the equation on its basis', () => {
    expect(codes(said([nitric]).before('nitric'))).not.toContain('oxidiser meets organic');
  });
  test('a solvent added to the acid that is still there is an error', () => {
    const caution = said([nitric, add('e', 'ethanol')])
      .before('e')
      .find((notice) => notice.code === 'oxidiser meets organic');
    expect(caution?.level).toBe('error');
  });
  test('after washing, it is a hold: acid-free, and in a new vessel where the route says so', () => {
    expect(codes(said([nitric, wash, add('e', 'ethanol')]).before('e'))).toContain('acid-free first');
    expect(
      codes(said([nitric, wash, add('e', 'ethanol')], { stages: { purification: { newVessel: true } } }).before('e')),
    ).toContain('acid-free, new vessel');
  });
  test('water onto acid: acid into water', () => {
    expect(codes(said([nitric, add('w', 'water', 'quench')]).before('w'))).toContain('acid into water');
  });
  test('acid onto bleach, and bleach onto acid', () => {
    for (const order of [
      ['bleach', 'hcl'],
      ['hcl', 'bleach'],
    ] as const) {
      const more = [add('first', order[0], 'reaction'), add('second', order[1], 'reaction')];
      expect(codes(said(more).before('second'))).toContain('acid frees chlorine');
    }
  });
  test('what frees a poison is among the notices of the plan, not only before its charge', () => {
    const acid = { ...materials, acid: { name: 'acetic acid', formula: 'C2H4O2', cas: '64-19-7' } };
    const more = [add('first', 'acid', 'reaction'), add('second', 'bleach', 'reaction')];
    const notices = (...used: readonly string[]) => {
      const uses = [...equation.uses, ...used.map((material) => ({ material, coefficient: 1 }))];
      const one = step({ id: '1', basis: 'a', product: 'b', more, extra: { equation: { ...equation, uses } } });
      return planOf(route(acid, [one]), [draw('b', 10)]).notices;
    };
    const chlorine = { code: 'acid frees chlorine', at: { step: '1', operation: 'second', material: 'bleach' } };
    expect(notices('bleach')).toContainEqual(expect.objectContaining({ ...chlorine, level: 'error' }));
    // Where the equation brings both together on purpose, the poison is still said.
    expect(notices('acid', 'bleach')).toContainEqual(expect.objectContaining({ ...chlorine, level: 'caution' }));
  });
  test('what is only suspected of harming for life is said before the charge, after what poisons at once', () => {
    const diamine = { ...materials, diamine: { name: 'o-phenylenediamine', formula: 'C6H8N2', cas: '95-54-5' } };
    const one = step({ id: '1', basis: 'a', product: 'b', more: [add('d', 'diamine', 'reaction')] });
    const [charge] = stepOf(planOf(route(diamine, [one]), [draw('b', 10)]), '1').operations.slice(-1);
    const words = String(charge?.before.find((notice) => notice.code === 'hazards')?.values.statements);
    expect(words).toMatch(/^Toxic if swallowed\..*Suspected of causing genetic defects\..*Suspected of causing cancer\./);
  });
  test('the waste bottle is named, and two streams that must not meet in it are an error of the plan', () => {
    expect(codes(said([nitric, wash]).before('wash'))).toContain('oxidising waste');
    const mixed: Operation = {
      do: 'removal',
      id: 'drain',
      stage: 'purification',
      how: 'filter',
      takes: [{ what: 'ethanol', percent: 95 }],
      wasteTo: 'acid waste',
    };
    const { result } = said([nitric, wash, add('e', 'ethanol'), mixed], { stages: { purification: { newVessel: true } } });
    expect(result.notices).toContainEqual(expect.objectContaining({ code: 'waste must not meet', level: 'error' }));
  });
});
