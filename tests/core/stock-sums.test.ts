import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Form } from '../../src/core/matter/form.ts';
import type { PlanResult } from '../../src/core/plan/result.ts';
import type { Operation, Route } from '../../src/core/route/route.ts';
import type { Bottle } from '../../src/core/shelf/shelf.ts';
import { bottle, draw, planOf, route, step } from './build.ts';

// What a plan takes from a shelf, on shelves and routes at random.
const NAOH = 39.997; // g/mol, CIAAW 2021 conventional values
const percent = (value: number): Form => ({ kind: 'solution', strength: { value, basis: '% w/w' } });
const STRENGTHS = [10, 20, 30, 50];
const ASSAYS = [0, 95, 99];

interface Asked {
  readonly material: 'lye' | 'salt';
  /** % w/w of the lye asked for, or the least assay of the salt. */
  readonly level: number;
  readonly equivalents: number;
}

const asked: fc.Arbitrary<Asked> = fc.oneof(
  fc.record({
    material: fc.constant('lye' as const),
    level: fc.constantFrom(...STRENGTHS),
    equivalents: fc.integer({ min: 1, max: 40 }).map((n) => n / 10),
  }),
  fc.record({
    material: fc.constant('salt' as const),
    level: fc.constantFrom(...ASSAYS),
    equivalents: fc.integer({ min: 1, max: 40 }).map((n) => n / 10),
  }),
);

const STATES = ['good', 'good', 'good', 'good', 'past', 'held', 'held by hand'] as const;
const stocked = fc.record({
  material: fc.constantFrom('lye' as const, 'salt' as const),
  neat: fc.boolean(),
  strength: fc.constantFrom(...STRENGTHS),
  assay: fc.constantFrom(90, 96, 99.5, 100),
  left: fc.oneof(fc.integer({ min: 1, max: 400 }), fc.double({ min: 1e-6, max: 50, noNaN: true })),
  state: fc.constantFrom(...STATES),
  day: fc.integer({ min: 1, max: 28 }),
  first: fc.boolean(),
});

function formOf(one: { material: string; neat: boolean; strength: number; assay: number }): Form {
  if (one.material === 'salt') return { kind: 'neat', assayPercent: one.assay };
  return one.neat ? { kind: 'neat' } : percent(one.strength);
}

function setting(wants: readonly Asked[], stock: readonly { readonly [K in keyof typeof example]: (typeof example)[K] }[]) {
  const charges = wants.map(
    ({ material, level, equivalents }, at): Operation => ({
      do: 'charge',
      id: `w${at}`,
      stage: 'reaction',
      material,
      rule: { kind: 'equivalents', equivalents },
      ...(material === 'lye' ? { form: percent(level) } : { leastAssayPercent: level }),
    }),
  );
  const one: Route = route(
    {
      a: 'C6H6',
      b: 'C6H6',
      lye: { name: 'sodium hydroxide', formula: 'NaOH', cas: '1310-73-2', state: 'solid' },
      salt: { name: 'salt', formula: 'NaCl', state: 'solid' },
    },
    [step({ id: '1', basis: 'a', product: 'b', more: charges })],
  );
  const bottles = stock.map(
    (each, at): Bottle =>
      bottle(each.material, each.left, 'g', formOf(each), {
        id: `B${at}`,
        lot: `L${at}`,
        useBy: each.state === 'past' ? '2026-01-01' : `2027-05-${String(each.day).padStart(2, '0')}`,
        ...(each.state === 'held' ? { heldBack: true } : {}),
      }),
  );
  const ids = (keep: (at: number) => boolean): string[] => bottles.flatMap(({ id }, at) => (keep(at) ? [id] : []));
  const ask = { holdBack: ids((at) => stock[at]?.state === 'held by hand'), useFirst: ids((at) => stock[at]?.first === true) };
  return { one, bottles, ask, result: planOf(one, [draw('b', 1, 'mol')], bottles, { ask }) };
}
const example = { material: 'lye', neat: true, strength: 10, assay: 100, left: 1, state: 'good', day: 1, first: false } as {
  material: 'lye' | 'salt';
  neat: boolean;
  strength: number;
  assay: number;
  left: number;
  state: (typeof STATES)[number];
  day: number;
  first: boolean;
};

/** What is taken of each bottle, as it stands and for make-ups. */
function takenOf(result: PlanResult): ReadonlyMap<string, number> {
  const taken = new Map<string, number>();
  const all = [
    ...result.fetch.flatMap((line) => line.bottles),
    ...result.makeUps.flatMap((one) => one.parts.map((part) => part.from)),
  ];
  for (const { bottle: id, amount } of all) taken.set(id, (taken.get(id) ?? 0) + amount);
  return taken;
}

const molesIn = (one: Bottle): number =>
  one.form.kind === 'neat'
    ? (one.left * (one.form.assayPercent ?? 100)) / 100
    : one.left * (one.form.kind === 'solution' ? one.form.strength.value / 100 : 0);

/** Whether there is enough for every charge at once: of everything at least so strong, as much as is asked for of it. */
function enoughFor(material: 'lye' | 'salt', wants: readonly Asked[], bottles: readonly Bottle[], molarMass: number): boolean {
  const level = (one: Bottle): number =>
    one.form.kind === 'neat' ? (one.form.assayPercent ?? 100) : one.form.kind === 'solution' ? one.form.strength.value : 0;
  const mine = bottles.filter((one) => one.material === material);
  const own = wants.filter((one) => one.material === material);
  return [...new Set(own.map((one) => one.level))].every((least) => {
    const need = own.filter((one) => one.level >= least).reduce((sum, one) => sum + one.equivalents * molarMass, 0);
    return mine.filter((one) => level(one) >= least).reduce((sum, one) => sum + molesIn(one), 0) >= need * (1 - 1e-9);
  });
}

describe('what a plan takes from the shelf', () => {
  test('never more than is in a bottle, nothing of one that may not be used, and every line is covered or short exactly', () => {
    fc.assert(
      fc.property(fc.array(asked, { minLength: 1, maxLength: 6 }), fc.array(stocked, { maxLength: 7 }), (wants, stock) => {
        const { result, bottles } = setting(wants, stock);
        const taken = takenOf(result);
        for (const [at, one] of bottles.entries()) {
          const most = stock[at]?.state === 'good' ? one.left : 0;
          expect(taken.get(one.id) ?? 0).toBeLessThanOrEqual(most * (1 + 1e-12));
        }
        for (const line of result.fetch.filter(({ material }) => material !== 'a')) {
          const need = line.uses.reduce((sum, use) => sum + (use.amount ?? 0), 0);
          const made = result.makeUps.find((one) => one.id === line.makeUp);
          const fromMade = made
            ? ((line.unit === 'g' ? made.grams : made.millilitres)?.value ?? 0) / (1 + made.excessPercent / 100)
            : 0;
          const covered = line.bottles.reduce((sum, one) => sum + one.worth, 0) + fromMade + (line.short?.value ?? 0);
          expect(Math.abs(covered - need)).toBeLessThan(1e-9 * need);
          if (line.status !== 'enough')
            expect(Math.abs(line.onHand.value - covered + fromMade + (line.short?.value ?? 0))).toBeLessThan(1e-9 * need);
        }
      }),
      { numRuns: 60 },
    );
  });

  test('nothing is short where the shelf has enough of every strength and assay for all charges together, and only then', () => {
    fc.assert(
      fc.property(fc.array(asked, { minLength: 1, maxLength: 6 }), fc.array(stocked, { maxLength: 7 }), (wants, stock) => {
        const { result, bottles } = setting(wants, stock);
        const usable = bottles.filter((_, at) => stock[at]?.state === 'good');
        for (const [material, molarMass] of [
          ['lye', NAOH],
          ['salt', 58.43976928],
        ] as const) {
          const lines = result.fetch.filter((line) => line.material === material);
          const covered = lines.every((line) => line.status === 'enough' || line.status === 'make up');
          expect(covered).toBe(enoughFor(material, wants, usable, molarMass));
        }
      }),
      { numRuns: 60 },
    );
  });

  test('a bottle that holds exactly what is drawn at a purity starts nothing, whatever the doubles say', () => {
    const seed = {
      do: 'charge',
      id: 's',
      stage: 'reaction',
      material: 'a',
      rule: { kind: 'per batch', amount: 1, unit: 'g' },
    } as const;
    const one = route({ a: 'C7H6O2', b: 'C7H6O2' }, [
      step({ id: '1', basis: 'a', product: 'b', yieldPercent: 80, more: [seed] }),
    ]);
    for (let tenths = 1; tenths <= 150; tenths += 1) {
      const held = bottle('b', tenths / 10, 'g', { kind: 'neat', assayPercent: 98 });
      const wanted = draw('b', Number((tenths * 0.098).toFixed(4)), 'g', { leastAssayPercent: 95 });
      expect(
        planOf(one, [wanted], [held])
          .steps.filter((made) => made.active)
          .map((made) => made.id),
        `${tenths / 10} g`,
      ).toEqual([]);
    }
  });
});
