import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { uncountedOf } from '../../src/core/paper/session.ts';
import { benchNumbers } from '../../src/core/bench/bench-numbers.ts';
import type { BenchLine, BenchSection } from '../../src/core/bench/bench-section.ts';
import { boundProtons } from '../../src/core/matter/acidity.ts';
import type { Form } from '../../src/core/matter/form.ts';
import type { Material } from '../../src/core/matter/material.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { ChargeRule, Operation, PlainRule, Step } from '../../src/core/route/route.ts';
import { type Bottle, EMPTY_SHELF } from '../../src/core/shelf/shelf.ts';
import { lineText } from '../../src/core/words/bench-number-words.ts';
import { bottle, chargeOf, draw, planOf, route, settings, shelfOf, step, stepOf, TODAY } from './build.ts';
import { reference } from '../reference/tables.ts';

const percent = (value: number): Form => ({ kind: 'solution', strength: { value, basis: '% w/w' } });
const charge = (id: string, material: string, rule: ChargeRule, more: Partial<Operation & { do: 'charge' }> = {}): Operation => ({
  do: 'charge',
  id,
  stage: 'work-up',
  material,
  rule,
  ...more,
});
const to = (endPH: number, excessPercent?: number): PlainRule => ({
  kind: 'to neutralise',
  endPH,
  ...(excessPercent === undefined ? {} : { excessPercent }),
});
const equiv = (equivalents: number): PlainRule => ({ kind: 'equivalents', equivalents });

const materials: Readonly<Record<string, Material>> = {
  amide: { name: '4-nitroacetanilide', formula: 'C8H8N2O3', state: 'solid' },
  amine: { name: '4-nitroaniline', cas: '100-01-6' },
  acetic: { name: 'acetic acid', cas: '64-19-7' },
  water: { name: 'water', cas: '7732-18-5', utility: true },
  sulfuric: { name: 'sulfuric acid', cas: '7664-93-9' },
  phosphoric: { name: 'phosphoric acid', cas: '7664-38-2' },
  citric: { name: 'citric acid', cas: '77-92-9' },
  lye: { name: 'sodium hydroxide', cas: '1310-73-2' },
  bicarbonate: { name: 'sodium hydrogen carbonate', cas: '144-55-8' },
  soda: { name: 'sodium carbonate', cas: '497-19-8' },
  ether: { name: 'diethyl ether', cas: '60-29-7' },
  hydrochloric: { name: 'hydrogen chloride', cas: '7647-01-0' },
  thionyl: { name: 'thionyl chloride', cas: '7719-09-7' },
  toluene: { name: 'toluene', cas: '108-88-3' },
  xylene: { name: 'p-xylene', cas: '106-42-3' },
};

// Hydrolysis in three moles of 70 % sulfuric acid: C8H8N2O3 + H2O → C6H6N2O2 + C2H4O2.
const EQUATION: Partial<Step> = {
  equation: {
    uses: ['amide', 'water'].map((material) => ({ material, coefficient: 1 })),
    makes: ['amine', 'acetic'].map((material) => ({ material, coefficient: 1 })),
  },
};
const liquor = (more: readonly Operation[]): Step =>
  step({
    id: '1',
    basis: 'amide',
    product: 'amine',
    more: [
      charge('s', 'sulfuric', equiv(3), { stage: 'reaction', form: percent(70) }),
      charge('w', 'water', { kind: 'molar volume', millilitresPerMole: 500 }, { stage: 'quench' }),
      ...more,
    ],
    extra: EQUATION,
  });
/** An inert basis, one mole, with what is charged to it. */
const inert = (more: readonly Operation[]): Step => step({ id: '1', basis: 'toluene', product: 'xylene', more });

function planned(one: Step, target = 'amine', moles = 1) {
  return planOf(route(materials, [one]), [draw(target, moles, 'mol')]);
}
function linesOf(
  one: Step,
  target: string,
  lab = settings,
  known: Readonly<Record<string, Material>> = materials,
  bottles: readonly Bottle[] = [],
  section: BenchSection['kind'] = 'neutralise',
): readonly BenchLine[] {
  const made = route(known, [one]);
  const input = {
    route: made,
    ask: { name: 'test', draws: [draw(target, 1, 'mol')], batches: { 1: 1 } },
    shelf: shelfOf(made, bottles),
    settings: lab,
    reference,
    asOf: TODAY,
  };
  return benchNumbers(input, plan(input), '1').find(({ kind }) => kind === section)?.lines ?? [];
}
/** Carbon dioxide is said once, with the gases. */
const gasOf = (one: Step): readonly BenchLine[] => {
  expect(linesOf(one, 'xylene').map((line) => line.code)).not.toContain('gas at most');
  return linesOf(one, 'xylene', settings, materials, [], 'gas');
};

function valueOf(lines: readonly BenchLine[], code: string, operation: string | null = 'n'): number {
  const shown = lines.find((line) => line.code === code && line.operation === operation)?.shown;
  if (shown?.kind === 'from to') return shown.to.value;
  return shown?.kind === 'figure' ? shown.figure.value : Number.NaN;
}

describe('protons on an acid at a pH', () => {
  // Phosphoric acid at pH 7, by hand: 10^5.32 : 10^5.53 : 10^0.69 of HPO4, H2PO4, H3PO4 to 1 of PO4 make 1.6186.
  test('of phosphoric, citric, sulfuric acid and ammonia', () => {
    expect(boundProtons([2.16, 7.21, 12.32], 7)).toBeCloseTo(1.6186, 4);
    expect(boundProtons([3.13, 4.76, 6.4], 7)).toBeCloseTo(0.2028, 4);
    expect(boundProtons([-3, 1.99], 7)).toBeCloseTo(0, 4);
    expect(boundProtons([9.25], 9.25)).toBeCloseTo(0.5, 12);
    expect(boundProtons([], 7)).toBe(0);
  });
  test('never more than there are, and fewer the higher the pH', () => {
    const pKa = fc.array(fc.double({ min: -15, max: 50, noNaN: true }), { maxLength: 6 });
    fc.assert(
      fc.property(
        pKa,
        fc.double({ min: 0, max: 13, noNaN: true }),
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        (all, pH, more) => {
          const held = boundProtons(all, pH);
          expect(held).toBeGreaterThanOrEqual(0);
          expect(held).toBeLessThanOrEqual(all.length + 1e-9);
          expect(boundProtons(all, pH + more)).toBeLessThanOrEqual(held + 1e-9);
        },
      ),
    );
  });
});

describe('a sulfuric acid hydrolysis neutralised by 15 % w/w sodium hydroxide', () => {
  const one = liquor([charge('n', 'lye', to(7), { form: percent(15) })]);
  const found = chargeOf(planned(one), '1', 'lye');

  // By hand: 3 mol H2SO4 give 6.0000 mol to pH 7 (pKa 1.99), 1 mol of acetic acid 0.9943 (pKa 4.756), nitroaniline
  // (pKa 1.02) nothing: 6.9943 mol of NaOH, × 39.997 = 279.75 g, ÷ 0.15 = 1865.0 g, ÷ 1.1640 g/mL = 1602 mL.
  test('the amount', () => {
    expect(found.moles?.value).toBeCloseTo(6.9943, 3);
    expect(found.grams?.value).toBeCloseTo(1865, 0);
    expect(found.millilitres?.value).toBeCloseTo(1865 / 1.164, -1);
    expect(found.rule).toBe('to neutralise');
  });

  // 6.9943 × 55.815 + 3 × 22.0 (second proton, almost all of it) + 0.994 × 0.41 = 456.6 kJ; all at once from 20 °C.
  test('heat, temperature, vessel, time at 60 W, and what the excess costs', () => {
    const lines = linesOf(one, 'amine', { ...settings, coolingWatts: 60 });
    expect(valueOf(lines, 'acid there')).toBeCloseTo(6.9943, 3);
    expect(valueOf(lines, 'mass')).toBeCloseTo(1865, 0);
    expect(valueOf(lines, 'heat')).toBeCloseTo(456.6, 0);
    const dilution = valueOf(lines, 'dilution');
    // In 11 mol of water sulfuric acid has given 67.4 of 96.2 kJ/mol (Felder and Rousseau, Table B.11), and 22.0 of the rest
    // is the second proton, counted above: 3 × 6.4 kJ, and 7 × 0.3 for the hydroxide.
    expect(dilution).toBeGreaterThan(17);
    expect(dilution).toBeLessThan(25);
    // 180.16 g basis and 420.3 g of acid and 499.1 g of water and 1865 g of lye; water 126.1 − 18.0 + 499.1 + 1585.3 g.
    const capacity = (126.09 - 18.015 + 499.1 + 1585.3) * 4.18 + (279.8 + 294.2 + 138.1 + 60.05) * 1;
    expect(valueOf(lines, 'temperature')).toBeCloseTo(20 + ((456.6 + dilution) * 1000) / capacity, 0);
    expect(valueOf(lines, 'time by cooling')).toBeCloseTo(((456.6 + dilution) * 1000) / 60 / 60, 0);
    // Of 3 mol none is used: 6.0000 mol NaOH, 1600 g of 15 %, and 3 mol Na2SO4 at 142.04 g.
    expect(valueOf(lines, 'excess base', null)).toBeCloseTo(1599.9, 0);
    expect(valueOf(lines, 'excess salt', null)).toBeCloseTo(3 * 142.04, 0);
    const said = lines.map((line) => lineText('neutralise', line)).join('\n');
    expect(said).toContain('For information');
    expect(said).not.toMatch(/\bsafe\b|\bOK\b|may be added|take less|use less/);
  });

  test('what is in the vessel takes its room, and the batches follow', () => {
    const stage = stepOf(planned(one), '1').batches.stages.find((each) => each.stage === 'work-up');
    expect((stage?.volume.value ?? 0) * stepOf(planned(one), '1').batches.count).toBeGreaterThan(1602 + 500 + 200);
  });

  test('it is fetched, made up, and knows where its numbers come from', () => {
    const result = planOf(route(materials, [one]), [draw('amine', 1, 'mol')], [bottle('lye', 5000, 'g', percent(50))]);
    expect(result.makeUps[0]?.formWords).toBe('15 % w/w');
    expect(result.makeUps[0]?.grams.value).toBeGreaterThanOrEqual(1865);
    const moles = chargeOf(result, '1', 'lye').moles;
    expect(JSON.stringify(moles)).toContain('course table of acid constants');
  });

  test('k times the draw is k times the base; more by the excess', () => {
    const twice = chargeOf(planned(one, 'amine', 2.5), '1', 'lye').moles?.value;
    expect(twice).toBeCloseTo(2.5 * 6.9943, 2);
    const more = liquor([charge('n', 'lye', to(7, 10), { form: percent(15) })]);
    expect(chargeOf(planned(more), '1', 'lye').moles?.value).toBeCloseTo(1.1 * 6.9943, 3);
  });

  test('the estimate of an "until" is worked out in the same way', () => {
    const until: ChargeRule = { kind: 'until', endPoint: 'pH 7 on paper', estimate: to(7), atMost: 1.2 };
    const last = chargeOf(planned(liquor([charge('n', 'lye', until, { form: percent(15) })])), '1', 'lye');
    expect([last.moles?.value, last.endPoint, last.atMost]).toEqual([expect.closeTo(6.9943, 3), 'pH 7 on paper', 1.2]);
  });
});

describe('polyprotic acids and bicarbonate', () => {
  const quench = (acid: string, endPH: number, base = 'bicarbonate'): Step =>
    inert([charge('a', acid, equiv(1), { form: percent(20) }), charge('n', base, to(endPH))]);

  // To pH 7 phosphoric acid gives 3 − 1.6186 = 1.3814 mol, citric acid 2.7972 mol; each takes one hydrogen carbonate.
  test.each([
    ['phosphoric', 1.3814, 84.006],
    ['citric', 2.7972, 84.006],
  ])('%s acid: %f mol', (acid, moles, mass) => {
    const one = quench(acid, 7);
    expect(chargeOf(planned(one, 'xylene'), '1', 'bicarbonate').grams?.value).toBeCloseTo(moles * mass, 1);
    expect(valueOf(gasOf(one), 'largest')).toBeCloseTo(moles * 24.465, 1);
  });

  test('carbonate takes two protons each, and frees half the gas', () => {
    const one = quench('phosphoric', 7, 'soda');
    expect(chargeOf(planned(one, 'xylene'), '1', 'soda').moles?.value).toBeCloseTo(1.3814 / 2, 3);
    expect(valueOf(gasOf(one), 'largest')).toBeCloseTo((1.3814 / 2) * 24.465, 1);
  });

  test('bicarbonate does not pass pH 8.3: refused in words, and the charge has no amount', () => {
    const result = planned(quench('phosphoric', 9), 'xylene');
    const notice = stepOf(result, '1').notices.find((one) => one.code === 'bicarbonate limit');
    expect(notice?.level).toBe('error');
    expect(chargeOf(result, '1', 'bicarbonate').moles).toBeNull();
    expect(chargeOf(planned(quench('phosphoric', 8.3), 'xylene'), '1', 'bicarbonate').moles?.value).toBeGreaterThan(1.9);
  });
});

describe('what is there, and what is not', () => {
  test('acid that went away with the aqueous layer is not neutralised again', () => {
    const wash: Operation = {
      do: 'removal',
      id: 'r',
      stage: 'work-up',
      how: 'separate',
      takes: [{ what: 'aqueous layer', percent: 98 }],
    };
    const with_ = (more: readonly Operation[]) =>
      inert([
        charge('a', 'sulfuric', equiv(1), { form: percent(20) }),
        ...more,
        charge('n', 'lye', to(7), { form: percent(10) }),
      ]);
    const moles = (more: readonly Operation[]) => chargeOf(planned(with_(more), 'xylene'), '1', 'lye').moles?.value;
    expect(moles([])).toBeCloseTo(2, 4);
    expect(moles([wash])).toBeCloseTo(0.04, 6);
    // Nothing of it left by what is charged: what clings to the layer is not known, and not 0 mol either.
    expect(moles([{ ...wash, takes: [{ what: 'sulfuric', percent: 100 }] } as Operation])).toBeUndefined();
    expect(moles([{ ...wash, takes: [{ what: 'sulfuric', percent: 99.999 }] } as Operation])).toBeUndefined();
    expect(moles([{ ...wash, takes: [{ what: 'organic layer', percent: 100 }] } as Operation])).toBeCloseTo(2, 4);
  });

  test('nothing to neutralise is said, and no amount is worked out: no list calls it enough', () => {
    const result = planned(inert([charge('w', 'water', equiv(5)), charge('n', 'lye', to(7), { form: percent(10) })]), 'xylene');
    expect(chargeOf(result, '1', 'lye').moles).toBeNull();
    expect(chargeOf(result, '1', 'lye').perBatch.by).toBe('unknown');
    expect(result.fetch.filter(({ material }) => material === 'lye')).toEqual([]);
    expect(uncountedOf(result)).toEqual([{ material: 'sodium hydroxide', form: '10 % w/w', step: 1 }]);
    expect(stepOf(result, '1').notices.map((one) => one.code)).toContain('nothing to neutralise');
    const lines = linesOf(inert([charge('n', 'lye', to(7), { form: percent(10) })]), 'xylene');
    // Said once, with the plan.
    expect(lines).toEqual([]);
  });

  test('no draw, no charge: zero volume is no trouble', () => {
    const input = {
      route: route(materials, [liquor([charge('n', 'lye', to(7), { form: percent(15) })])]),
      shelf: EMPTY_SHELF,
      settings,
      reference,
      asOf: TODAY,
    };
    const none = { ...input, ask: { name: 't', draws: [draw('amine', 0, 'mol')] } };
    const result = plan(none);
    expect(result.steps[0]?.active).toBe(false);
    expect(benchNumbers(none, result, '1')).toEqual([]);
  });

  test('what nobody knows the pKa of makes the amount unknown, with what to enter; entered, it counts', () => {
    const strange = (acidity?: Material['acidity']) => {
      const odd: Material = { name: 'odd acid', formula: 'C9H9NO4', state: 'solid', ...(acidity ? { acidity } : {}) };
      const one = inert([charge('a', 'odd', equiv(1)), charge('n', 'lye', to(7), { form: percent(10) })]);
      return planOf(route({ ...materials, odd }, [one]), [draw('xylene', 1, 'mol')]);
    };
    expect(chargeOf(strange(), '1', 'lye').moles).toBeNull();
    expect(stepOf(strange(), '1').notices.map((one) => one.code)).toContain('no pKa');
    expect(stepOf(strange({ pKa: [], protons: 0 }), '1').notices.map((one) => one.code)).toContain('nothing to neutralise');
    expect(chargeOf(strange({ pKa: [4], protons: 1 }), '1', 'lye').moles?.value).toBeCloseTo(1 / (1 + 1e-3), 6);
  });

  test('all that lack a pKa are named at once, with where to enter it', () => {
    const strange = Object.fromEntries(
      ['odd acid', 'odd base'].map((name) => [name, { name, formula: 'C9H9NO4', state: 'solid' as const }]),
    );
    const more = Object.keys(strange).map((name) => charge(name, name, equiv(1)));
    const one = inert([...more, charge('n', 'lye', to(7), { form: percent(10) })]);
    const lines = linesOf(one, 'xylene', settings, { ...materials, ...strange });
    const said = lines.map((line) => lineText('neutralise', line)).join(' ');
    expect(said).toMatch(/not known\. No pKa of odd acid, odd base is known here: enter it in Routes, Materials/);
  });

  test('strengths on the shelf that are not the one asked for: what they would come to', () => {
    const acid = charge('a', 'sulfuric', equiv(1), { form: percent(20) });
    const one = inert([acid, charge('n', 'lye', to(7, 10), { form: percent(15) })]);
    const bottles = [bottle('lye', 5000, 'g', percent(10)), bottle('lye', 50, 'g', percent(15), { id: 'same' })];
    const lines = linesOf(one, 'xylene', settings, materials, bottles).filter((line) => line.code.startsWith('on hand'));
    // 2 mol × 1.1 × 39.997 g/mol ÷ 0.10, density 1.109 g/mL at 20 °C (CRC Handbook).
    expect(valueOf(lines, 'on hand')).toBeCloseTo(2 * 1.1 * 399.97, 0);
    expect(valueOf(lines, 'on hand volume')).toBeCloseTo((2 * 1.1 * 399.97) / 1.109, -1);
    expect(new Set(lines.map((line) => line.values.form))).toEqual(new Set(['10 % w/w']));
  });

  test('above pH 8.3 the least carbonate is said beside the most: by how much carbon dioxide leaves', () => {
    const acid = charge('a', 'hydrochloric', equiv(1), { form: percent(20) });
    const lines = linesOf(inert([acid, charge('n', 'soda', to(9))]), 'xylene');
    // 1 mol of acid: half a mole where all gas leaves, 105.99 g/mol; about one where none does.
    expect(valueOf(lines, 'carbonate least')).toBeCloseTo(53.0, 1);
    expect(valueOf(lines, 'mass')).toBeGreaterThan(105);
    expect(valueOf(lines, 'mass')).toBeLessThan(115);
    expect(linesOf(inert([acid, charge('n', 'soda', to(8))]), 'xylene').map((line) => line.code)).not.toContain(
      'carbonate least',
    );
  });

  test('a halide counts as hydrolysed, its heat with water as unknown', () => {
    const one = inert([
      charge('t', 'thionyl', equiv(1), { stage: 'reaction' }),
      charge('w', 'water', { kind: 'molar volume', millilitresPerMole: 500 }, { stage: 'quench' }),
      charge('n', 'lye', to(7), { form: percent(10) }),
    ]);
    // 2 HCl, and H2SO3 (1.85, 7.2) gives 1 + 10^(7 − 7.2)/(1 + 10^(7 − 7.2)) = 1.3868 at pH 7.
    expect(chargeOf(planned(one, 'xylene'), '1', 'lye').moles?.value).toBeCloseTo(3.3868, 3);
    const heat = linesOf(one, 'xylene').find((line) => line.code === 'heat');
    expect(heat?.shown.kind).toBe('unknown');
  });

  test('a base takes an acid; a base charged by equivalents is held against what is there', () => {
    const acid = inert([
      charge('b', 'lye', equiv(2), { form: percent(20) }),
      charge('n', 'hydrochloric', to(7), { form: percent(20) }),
    ]);
    expect(chargeOf(planned(acid, 'xylene'), '1', 'hydrochloric').moles?.value).toBeCloseTo(2, 4);
    const little = inert([charge('a', 'sulfuric', equiv(1), { form: percent(20) }), charge('n', 'bicarbonate', equiv(1.5))]);
    expect(valueOf(linesOf(little, 'xylene'), 'too little')).toBeCloseTo(75, 2);
  });

  // The heat does not ask which of the two was in the vessel first. 55.815 kJ/mol is the ionisation of water.
  test.each([
    ['hydrochloric', 55.815],
    ['sulfuric', 55.815 + 22.4 / 2],
    ['acetic', 55.815 + 0.41],
  ])('a hydroxide that %s acid neutralises gives all of its heat', (acid, heat) => {
    const one = inert([charge('b', 'lye', equiv(1), { form: percent(10) }), charge('n', acid, to(7), { form: percent(20) })]);
    const lines = linesOf(one, 'xylene');
    expect(valueOf(lines, 'base there')).toBeCloseTo(1, 4);
    expect(valueOf(lines, 'heat')).toBeCloseTo(heat, 0);
  });

  // Heats of formation, CODATA: H₂SO₄(l) −813.99, SO₄²⁻ −909.34, OH⁻ −230.015, H₂O −285.83 kJ/mol: sulfuric acid and much
  // thin hydroxide give 813.99 − 909.34 − 2 × 285.83 + 2 × 230.015 = −207.0; nothing is counted twice.
  test.each([96, 70, 30])(
    'sulfuric acid of %d %% and hydroxide: neutralisation, dilution and what its own water gave',
    (strength) => {
      const one = inert([
        charge('s', 'sulfuric', equiv(1), { form: percent(strength) }),
        charge('n', 'lye', to(7), { form: percent(1) }),
      ]);
      const lines = linesOf(one, 'xylene');
      // Felder and Rousseau, Table B.11: what the acid's own water has given before, per mole.
      const water = ((100 - strength) / strength) * (98.08 / 18.015);
      const before = strength === 96 ? 8 : strength === 70 ? 44.2 : water > 10 ? 68.3 : Number.NaN;
      expect(valueOf(lines, 'heat') + valueOf(lines, 'dilution') + before).toBeGreaterThan(203);
      expect(valueOf(lines, 'heat') + valueOf(lines, 'dilution') + before).toBeLessThan(211);
    },
  );

  test('a second base gives the heat of what the first left, not that of all the acid again', () => {
    const one = inert([
      charge('a', 'hydrochloric', equiv(1), { form: percent(10) }),
      charge('l', 'lye', equiv(0.9), { form: percent(10) }),
      charge('n', 'lye', to(7), { form: percent(10) }),
    ]);
    const lines = linesOf(one, 'xylene');
    expect(valueOf(lines, 'acid there')).toBeCloseTo(0.1, 4);
    expect(valueOf(lines, 'heat')).toBeCloseTo(5.58, 2);
    expect(valueOf(lines, 'heat', 'l')).toBeCloseTo(0.9 * 55.815, 2);
    const weak = inert([
      charge('a', 'acetic', equiv(1)),
      charge('w', 'water', equiv(20)),
      charge('l', 'lye', equiv(0.5), { form: percent(10) }),
      charge('n', 'lye', to(7), { form: percent(10) }),
    ]);
    // 1/2 mol of acetic acid is left, 0.4943 of it to pH 7, at 55.815 + 0.41 kJ/mol.
    expect(valueOf(linesOf(weak, 'xylene'), 'heat')).toBeCloseTo(0.4943 * 56.225, 1);
  });

  test('all at once past boiling: said, with the liquid that boils first', () => {
    const one = inert([
      charge('e', 'ether', { kind: 'molar volume', millilitresPerMole: 300 }),
      charge('a', 'sulfuric', equiv(1), { form: percent(50) }),
      charge('n', 'lye', to(7), { form: percent(30) }),
    ]);
    const boils = linesOf(one, 'xylene').find((line) => line.code === 'boils');
    expect(boils?.level).toBe('caution');
    expect(boils && lineText('neutralise', boils)).toContain('diethyl ether');
  });
});
