import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { solutionOrder } from '../../src/core/bench/solution-order.ts';
import { type Facts, factsOf } from '../../src/core/matter/facts.ts';
import { type Form, NEAT, type StrengthBasis } from '../../src/core/matter/form.ts';
import { integralHeat } from '../../src/core/matter/heat-of-dilution.ts';
import { hydrateOf } from '../../src/core/matter/hydrate.ts';
import { makeSolution, type SolutionAsk, type SolutionPlan } from '../../src/core/matter/make-solution.ts';
import { blend, dilute, mix, stockFor, volumeWhenDiluted } from '../../src/core/matter/mixing.ts';
import { replaceStrength } from '../../src/core/matter/replace-strength.ts';
import { gramsPerMillilitre, massFraction } from '../../src/core/matter/solution.ts';
import type { Governed } from '../../src/core/plan/amounts.ts';
import { entered } from '../../src/core/quantity/figure.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import type { Maybe } from '../../src/core/words/why.ts';
import { reference } from '../reference/tables.ts';

const facts = (name: string, cas: string): Facts => factsOf({ name, cas }, reference);
const sulfuric = facts('sulfuric acid', '7664-93-9');
const lye = facts('sodium hydroxide', '1310-73-2');
const salt = facts('sodium chloride', '7647-14-5');
const acetic = facts('acetic acid', '64-19-7');
const nitric = facts('nitric acid', '7697-37-2');
const vitriol = facts('copper(II) sulfate pentahydrate', '7758-99-8');

type Solution = Form & { kind: 'solution' };
const solution = (value: number, basis: StrengthBasis = '% w/w', solvent?: string): Solution => ({
  kind: 'solution',
  strength: { value, basis },
  ...(solvent === undefined ? {} : { solvent }),
});
const grams = (value: number): Governed => ({ by: 'g', figure: entered('wanted', value, 'g', 'test') });
const millilitres = (value: number): Governed => ({ by: 'mL', figure: entered('wanted', value, 'mL', 'test') });

function value(maybe: Maybe<'g' | 'mL' | 'mol' | 'kJ' | 'kJ/mol' | 'K' | '°C' | 'g/g' | 'g/mL' | 'mol/L'>): number {
  if (!maybe.ok) throw new Error(maybe.why.code);
  return maybe.figure.value;
}

function make(source: Facts, from: Form, form: Solution, amount: Governed, more: Partial<SolutionAsk> = {}): SolutionPlan {
  const ask = { solute: source, form, amount, source: { facts: source, form: from }, weaker: null, celsius: 20 };
  return makeSolution({ ...ask, ...more }, reference);
}

const percent = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const amount = fc.double({ min: 0.01, max: 1e5, noNaN: true });
const close = (found: number, wanted: number, within = 1e-9): void =>
  expect(Math.abs(found - wanted)).toBeLessThanOrEqual(within * Math.max(1, Math.abs(wanted)));

describe('mixing on numbers', () => {
  test('mass and solute are conserved, and what was mixed can be split again', () => {
    fc.assert(
      fc.property(amount, percent(0, 1), percent(0, 1), percent(0, 1), (total, a, b, at) => {
        fc.pre(Math.abs(a - b) > 1e-6);
        const [weak, strong] = [Math.min(a, b), Math.max(a, b)];
        const to = weak + at * (strong - weak);
        const parts = blend(total, { strong, weak, to });
        expect(parts.strong).toBeGreaterThanOrEqual(0);
        close(parts.strong + parts.weak, total);
        const again = mix([
          { amount: parts.strong, strength: strong },
          { amount: parts.weak, strength: weak },
        ]);
        close(again.amount, total);
        close(again.strength, to, 1e-7);
      }),
    );
  });

  test('a dilution is a mixing cross with water; volumes of stock go both ways', () => {
    fc.assert(
      fc.property(amount, percent(0.01, 1), percent(0.05, 0.95), (total, from, part) => {
        const to = from * part;
        const { strong, solvent } = dilute(total, from, to);
        const cross = blend(total, { strong: from, weak: 0, to });
        close(strong, cross.strong);
        close(solvent, cross.weak);
        close(volumeWhenDiluted(stockFor(total, to, from), from, to), total);
      }),
    );
  });

  test.each<[string, () => unknown]>([
    ['blend needs', () => blend(1, { strong: 0.1, weak: 0.2, to: 0.15 })],
    ['blend needs', () => blend(1, { strong: 0.5, weak: 0.1, to: 0.6 })],
    ['blend needs', () => blend(-1, { strong: 0.5, weak: 0.1, to: 0.2 })],
    ['mix needs', () => mix([])],
    ['volumeWhenDiluted needs', () => volumeWhenDiluted(1, 1, 2)],
    ['stockFor needs', () => stockFor(1, 2, 1)],
  ])('outside its domain: %s …', (words, act) => expect(act).toThrow(words));
});

describe('a solution from a bottle', () => {
  const cases = fc.constantFrom<[Facts, number, number]>(
    [sulfuric, 98, 1],
    [lye, 50, 1],
    [nitric, 68, 1],
    [salt, 26, 1],
    [acetic, 99, 1],
  );

  test('conserves mass and solute, by mass and by volume alike', () => {
    fc.assert(
      fc.property(cases, percent(0.02, 0.98), amount, ([of, most], part, wanted) => {
        const to = most * part;
        const plan = make(of, solution(most), solution(to), grams(wanted));
        expect(plan.problem).toBeNull();
        close(value(plan.source.grams) + value(plan.rest.grams), wanted);
        close((value(plan.source.grams) * most) / 100, (wanted * to) / 100);
        close(value(plan.solute), (wanted * to) / 100);
        const density = value(gramsPerMillilitre(of, solution(to), reference));
        const byVolume = make(of, solution(most), solution(to), millilitres(wanted / density));
        close(value(byVolume.grams), wanted);
        close(value(byVolume.source.grams), value(plan.source.grams));
        close(value(byVolume.rest.grams), value(plan.rest.grams), 1e-8);
        close(value(byVolume.heat.given), value(plan.heat.given), 1e-6);
      }),
    );
  });

  test('two strengths to a third: mass and solute conserved', () => {
    fc.assert(
      fc.property(percent(1, 40), percent(0.01, 0.99), percent(60, 98), amount, (weak, at, strong, wanted) => {
        const to = weak + at * (strong - weak);
        const plan = make(sulfuric, solution(strong), solution(to), grams(wanted), {
          weaker: { facts: sulfuric, form: solution(weak) },
        });
        expect(plan.problem).toBeNull();
        const [a, b] = [value(plan.source.grams), value(plan.rest.grams)];
        close(a + b, wanted);
        close(a * strong + b * weak, wanted * to, 1e-8);
      }),
    );
  });

  test('a volume without a density: the solid is known, the water is what fills up', () => {
    const unlisted = factsOf({ name: 'a dye', formula: 'C16H18ClN3S', state: 'solid' }, reference);
    const plan = make(unlisted, { kind: 'neat', assayPercent: 90 }, solution(1, '% w/v'), millilitres(250));
    close(value(plan.source.grams), 2.5 / 0.9);
    expect(plan.toTheMark).toBe(true);
    expect(plan.rest.grams).toMatchObject({ ok: false, why: { code: 'no density table' } });
    expect(plan.heat.boils).toBeNull();
    const byMass = make(unlisted, NEAT, solution(1, 'mol/L'), grams(250));
    expect(byMass.problem?.code).toBe('no density table');
  });

  test('water of crystallisation counts: the same copper from either crystal', () => {
    const anhydrous = hydrateOf(vitriol, reference);
    expect([anhydrous?.anhydrous.cas, anhydrous?.water]).toEqual(['7758-98-7', 5]);
    const blue = anhydrous?.anhydrous ?? vitriol;
    const wanted = { solute: blue };
    const fromHydrate = make(vitriol, NEAT, solution(10), grams(1000), wanted);
    const fromAnhydrous = make(blue, NEAT, solution(10), grams(1000));
    close(value(fromHydrate.moles), value(fromAnhydrous.moles));
    // 249.68 and 159.60 g/mol: five waters make the difference.
    close(value(fromHydrate.source.grams) - value(fromAnhydrous.source.grams), value(fromHydrate.moles) * 5 * 18.015, 1e-5);
    close(value(fromHydrate.source.grams) + value(fromHydrate.rest.grams), 1000);
    // Counted as the hydrate: 10 % w/w is then of the blue crystals themselves; its density is the solution's own.
    const crystals = make(vitriol, NEAT, solution(10), grams(1000));
    close(value(crystals.source.grams), 100);
    close(value(crystals.solute), 100);
    const same = make(blue, NEAT, solution((10 * 159.602) / 249.677), grams(1000));
    close(value(crystals.density), value(same.density), 1e-5);
    // A strength in mol/L is the same however it is counted.
    const [one, other] = [vitriol, blue].map((solute) =>
      make(vitriol, NEAT, solution(0.5, 'mol/L'), millilitres(250), { solute }),
    );
    close(value(one?.source.grams ?? crystals.source.grams), value(other?.source.grams ?? crystals.grams));
    expect(one?.toTheMark).toBe(false);
  });

  test.each<[string, SolutionPlan]>([
    ['source too weak', make(sulfuric, solution(50), solution(70), grams(10))],
    ['source too weak', make(sulfuric, solution(1, 'mol/L'), solution(2, 'mol/L'), millilitres(10))],
    ['already this strength', make(sulfuric, solution(70), solution(70), grams(10))],
    [
      'already this strength',
      make(sulfuric, solution(96), solution(20), grams(10), { weaker: { facts: sulfuric, form: solution(20) } }),
    ],
    ['another solvent', make(acetic, solution(50, '% w/w', 'ethanol'), solution(10), grams(10))],
    ['gas not weighed', make(facts('ammonia', '7664-41-7'), NEAT, solution(10), grams(10))],
    ['impossible strength', make(lye, NEAT, solution(120), grams(10))],
    ['unknown strength', make(lye, { kind: 'unknown' }, solution(10), grams(10))],
    [
      'second too strong',
      make(sulfuric, solution(96), solution(10), grams(10), { weaker: { facts: sulfuric, form: solution(20) } }),
    ],
    [
      'another substance',
      make(sulfuric, solution(96), solution(50), grams(10), { weaker: { facts: nitric, form: solution(20) } }),
    ],
  ])('says why not: %s', (code, plan) => {
    expect(plan.problem?.code).toBe(code);
    expect(plan.source.grams.ok || plan.rest.grams.ok || plan.heat.given.ok).toBe(false);
    expect(solutionOrder(plan, reference)).toEqual([]);
    expect(plan.problem && sentence(plan.problem)).not.toMatch(/undefined|NaN|No sentence/);
  });
});

describe('heat', () => {
  test('grows with the water for sulfuric acid, and starts from nothing', () => {
    expect(value(integralHeat(sulfuric, 0, reference))).toBe(0);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1e6, noNaN: true }), fc.double({ min: 0, max: 1e6, noNaN: true }), (a, b) => {
        const [less, more] = [Math.min(a, b), Math.max(a, b)];
        expect(value(integralHeat(sulfuric, more, reference))).toBeLessThanOrEqual(
          value(integralHeat(sulfuric, less, reference)),
        );
      }),
    );
  });

  test('does not depend on the way: in two steps as in one', () => {
    fc.assert(
      fc.property(percent(2, 30), percent(35, 60), percent(70, 98), (low, middle, high) => {
        const whole = value(make(sulfuric, solution(high), solution(low), grams(1000)).heat.given);
        const second = make(sulfuric, solution(middle), solution(low), grams(1000));
        const first = make(sulfuric, solution(high), solution(middle), grams(value(second.source.grams)));
        close(value(first.heat.given) + value(second.heat.given), whole, 1e-6);
      }),
    );
  });

  test('scales with the amount, the temperature does not', () => {
    const one = make(lye, NEAT, solution(15), grams(100));
    const ten = make(lye, NEAT, solution(15), grams(1000));
    close(value(ten.heat.given), 10 * value(one.heat.given));
    close(value(ten.heat.rise), value(one.heat.rise));
    close(value(one.heat.reached), 20 + value(one.heat.rise));
  });

  test('is unknown in another solvent, never zero', () => {
    const plan = make(acetic, NEAT, solution(10, '% w/w', 'ethanol'), grams(100));
    expect(plan.heat.given).toMatchObject({ ok: false, why: { code: 'heat in water only' } });
  });
});

describe('order of work', () => {
  const codes = (plan: SolutionPlan): readonly string[] =>
    solutionOrder(plan, reference).flatMap((operation) => operation.before.map((notice) => notice.code));
  const acts = (plan: SolutionPlan): readonly string[] =>
    solutionOrder(plan, reference).map((one) => (one.do === 'put in' ? `${one.part} ${one.manner}` : one.do));

  test('acid into water, and it says that it boils', () => {
    const plan = make(sulfuric, solution(98), solution(70), grams(1000));
    expect(acts(plan)).toEqual(['rest first', 'source slowly', 'let cool', 'label']);
    expect(codes(plan)).toEqual(['acid slowly into water', 'solution boils']);
  });

  test('a solid in portions into the water; hot for a strong base', () => {
    const plan = make(lye, NEAT, solution(15), grams(1000));
    expect(acts(plan)).toEqual(['rest first', 'source in small portions', 'let cool', 'label']);
    expect(codes(plan)).toEqual(['dissolves hot', 'solution gets hot', 'solubility not checked']);
  });

  test('the stronger into the weaker', () => {
    const plan = make(lye, solution(50), solution(30), grams(1000), { weaker: { facts: lye, form: solution(10) } });
    expect(codes(plan)).toContain('stronger into weaker');
  });

  test('a heat that is not known is said, and cooling comes before the mark', () => {
    const unlisted = factsOf({ name: 'a dye', formula: 'C16H18ClN3S', state: 'solid' }, reference);
    const plan = make(unlisted, NEAT, solution(1, '% w/v'), millilitres(250));
    expect(acts(plan)).toEqual(['start with', 'source in small portions', 'let cool', 'fill up', 'label']);
    expect(codes(plan)).toContain('solution heat unknown');
  });

  test('an oxidising acid in an organic solvent, and what water destroys, are called out', () => {
    expect(codes(make(nitric, NEAT, solution(10, '% w/w', 'ethanol'), grams(10)))).toEqual(
      expect.arrayContaining(['not into this solvent', 'oxidiser meets organic']),
    );
    const chloride = facts('thionyl chloride', '7719-09-7');
    expect(codes(make(chloride, NEAT, solution(10), grams(10)))).toContain('reacts with water');
  });
});

describe('one strength for another', () => {
  test('keeps the moles, and what else changes is the difference both ways', () => {
    fc.assert(
      fc.property(percent(5, 95), percent(5, 95), amount, (a, b, wanted) => {
        const [one, other] = [solution(a), solution(b)];
        const there = replaceStrength(nitric, { form: one, amount: grams(wanted) }, other, reference);
        close(value(there.asked.grams) * a, value(there.instead.grams) * b);
        const back = replaceStrength(nitric, { form: other, amount: grams(value(there.instead.grams)) }, one, reference);
        close(value(back.instead.grams), wanted);
        close(value(back.moreOthers), -value(there.moreOthers), 1e-6);
        close(value(back.moreVolume), -value(there.moreVolume), 1e-6);
      }),
    );
  });

  test('68 % for 65 % nitric acid by hand, and the plain sentence', () => {
    // 100 g of 68 % hold 68 g; 65 % needs 104.615 g for that, of which 36.615 g is water: 4.615 g more than 32 g.
    const found = replaceStrength(nitric, { form: solution(68), amount: grams(100) }, solution(65), reference);
    expect(value(found.instead.grams)).toBeCloseTo(104.615, 3);
    expect(value(found.moreOthers)).toBeCloseTo(4.615, 3);
    expect(value(found.asked.molarity)).toBeGreaterThan(value(found.instead.molarity));
    expect(found.notes.map((note) => note.code)).toEqual(['equal moles only', 'weaker instead']);
    expect(found.notes.map(sentence)[0]).toContain('Equal moles of nitric acid do not mean equal behaviour');
  });

  test('a normality says what becomes of it', () => {
    const normal = { kind: 'solution', strength: { value: 2, basis: 'eq/L', equivalentsPerMole: 2 } } as const;
    const found = replaceStrength(sulfuric, { form: normal, amount: millilitres(100) }, solution(5, 'mol/L'), reference);
    expect([found.asked.normality, found.instead.normality].map((one) => one?.ok && one.figure.value)).toEqual([2, 10]);
    close(value(found.instead.millilitres), 20);
  });

  test('works from a charge in moles and to a neat form', () => {
    const moles: Governed = { by: 'mol', figure: entered('charge', 0.5, 'mol', 'test') };
    const found = replaceStrength(acetic, { form: solution(80), amount: moles }, NEAT, reference);
    expect(value(found.moles)).toBe(0.5);
    close(value(found.instead.grams) * value(massFraction(acetic, NEAT, reference)), 0.5 * (acetic.molarMass?.value ?? 0));
    expect(value(found.moreOthers)).toBeLessThan(0);
  });
});
