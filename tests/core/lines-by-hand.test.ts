import { describe, expect, test } from 'vitest';
import { addCharge } from '../../src/core/procedure/add-charge.ts';
import { readChargeLine, withSaid } from '../../src/core/procedure/charge-line.ts';
import { publishedStep } from '../../src/core/procedure/published.ts';
import { chargesOf } from '../../src/core/procedure/step-charges.ts';
import { materialChoices } from '../../src/core/route/choose-material.ts';
import { factsOfRoute } from '../../src/core/route/edit-materials.ts';
import type { Route } from '../../src/core/route/route.ts';
import { formWords } from '../../src/core/words/form-words.ts';
import { reference } from '../reference/tables.ts';
import { route, step } from './build.ts';

// Lines of our own in the manner of printed procedures (old and new journals, patents, theses). Moles are worked out by
// hand with molar masses from formulas and densities of the handbooks; null: no moles can be told from the line.

const empty = route(
  { basis: { name: 'starter', formula: 'C6H12O6', state: 'solid' }, product: { name: 'p', formula: 'C6H10O5', state: 'solid' } },
  [step({ id: 's', basis: 'basis', product: 'product' })],
);

function added(line: string, to: Route): Route {
  const read = readChargeLine(line);
  if (!read.ok) throw new Error(read.words);
  const [choice] = materialChoices(read.name, to, reference);
  if (!choice) throw new Error('no material');
  const found = addCharge(to, 's', choice.choice, withSaid(read, choice.said), reference);
  if (!found.ok) throw new Error(found.problems.map((one) => one.words).join('; '));
  return found.route;
}

function chargeOf(line: string, basis = 'starter 180.156 g') {
  const made = added(line, added(basis, empty));
  const [only] = made.steps;
  if (!only) throw new Error('the route needs its step');
  const facts = factsOfRoute(made, reference);
  const charge = chargesOf(only).at(-1);
  const published = charge && publishedStep(only, { facts, reference }).charges.get(charge.id);
  return {
    name: facts.get(charge?.material ?? '')?.name,
    moles: published?.moles?.value ?? null,
    form: charge?.form ? formWords(charge.form) : null,
    note: charge?.note,
    rule: charge?.rule,
  };
}

type ByHand = readonly [line: string, name: string, moles: number | null, form?: string];
const BY_HAND: readonly ByHand[] = [
  // Old journals: atoms and gram-moles, points behind units.
  ['149 g. (1 mole) of phthalic anhydride', 'phthalic anhydride', 149 / 148.117],
  ['0.1 gram-mole of aniline (9.3 g)', 'aniline', 9.3 / 93.129],
  ['sodium (2.3 g, 0.1 g-atom)', 'sodium', 2.3 / 22.99],
  ['sodium (freshly cut, 2.3 g., 0.1 gram atom)', 'sodium', 2.3 / 22.99],
  ['magnesium turnings (2.67 g, 110 mg-atom)', 'magnesium', 2.67 / 24.305],
  ['6.5 gms. of ethyl acetoacetate', 'ethyl acetoacetate', 6.5 / 130.143],
  ['cold water 200 c.c.', 'water', (200 * 0.9982) / 18.015],
  ['ethyl acetoacetate (65 g.; 0.50 mol.)', 'ethyl acetoacetate', 65 / 130.143],
  ['57.2 mL (60 g, 1.0 mol) of glacial acetic acid', 'acetic acid', 60 / 60.052],
  ['benzoic acid, 2,5 g', 'benzoic acid', 2.5 / 122.123],
  // Weight per cent beside grams: what the material holds, where the moles say so.
  ['mCPBA (77 wt%, 2.46 g, 11 mmol)', '3-chloroperoxybenzoic acid', (2.46 * 0.77) / 172.564, '77 % w/w'],
  ['potassium hydroxide (85 wt%, 6.6 g, 100 mmol)', 'potassium hydroxide', (6.6 * 0.85) / 56.106, '85 % w/w'],
  ['benzyl bromide (98 wt%, 17.5 g, 100 mmol)', 'benzyl bromide', (17.5 * 0.98) / 171.037, '98 % w/w'],
  ['formalin (37 wt%, 8.1 g, 0.10 mol)', 'formaldehyde', (8.1 * 0.37) / 30.026, '37 % w/w'],
  ['aqueous NaOH (50 wt %; 8.0 g; 0.10 mol)', 'sodium hydroxide', (8 * 0.5) / 39.997, '50 % w/w'],
  ['sodium methoxide (30 wt % in methanol, 18.0 g, 0.10 mol)', 'sodium methoxide', (18 * 0.3) / 54.024, '30 % w/w in methanol'],
  ['sodium hypochlorite (12.5 wt% aq., 60 g, 0.10 mol)', 'sodium hypochlorite', (60 * 0.125) / 74.44, '12.5 % w/w'],
  ['sodium hydroxide (20 % w/w aqueous solution, 44 kg, 220 mol)', 'sodium hydroxide', (44000 * 0.2) / 39.997, '20 % w/w'],
  ['NaOH (50 % w/w aq. solution, 8.0 g, 100 mmol)', 'sodium hydroxide', (8 * 0.5) / 39.997, '50 % w/w'],
  ['KOH pellets (85 % w/w, 6.6 g, 0.10 mol)', 'potassium hydroxide', (6.6 * 0.85) / 56.106, '85 % w/w'],
  ['acetic anhydride 98 % w/w (10.4 g, 0.10 mol)', 'acetic anhydride', (10.4 * 0.98) / 102.089, '98 % w/w'],
  ['hydrobromic acid (48 wt% in water, 11.3 mL, 100 mmol)', 'hydrogen bromide', (11.3 * 1.488 * 0.48) / 80.912],
  ['hydrogen peroxide (30 wt. % in H2O, 11.3 mL, 0.11 mol)', 'hydrogen peroxide', (11.3 * 1.111 * 0.3) / 34.014],
  ['60 g. (0.99 mole) of 28% w/w aqueous ammonia', 'ammonia', (60 * 0.28) / 17.031],
  // Densities that were read last.
  ['0.5 ml. of piperidine', 'piperidine', (0.5 * 0.8627) / 85.15],
  ['BBr3 (0.95 mL, 10 mmol)', 'boron tribromide', (0.95 * 2.645) / 250.52],
  ['Cbz-Cl (1.43 mL, 10 mmol)', 'benzyl chloroformate', (1.43 * 1.212) / 170.59],
  ['DIC (1.57 mL, 10 mmol)', "N,N'-diisopropylcarbodiimide", (1.57 * 0.806) / 126.2],
  ['TMEDA (1.5 mL, 10 mmol)', "N,N,N',N'-tetramethylethylenediamine", (1.5 * 0.7765) / 116.21],
  // A strength named beside its figure: the figure holds.
  ['conc. hydrochloric acid (12 M, 8.3 mL)', 'hydrogen chloride', 0.0083 * 12, '12 mol/L'],
  ['concentrated aqueous ammonia, 28 % w/w (60 mL)', 'ammonia', (60 * 0.898 * 0.28) / 17.031, '28 % w/w'],
  // Powers with hyphens, dashes and without.
  ['aqueous sodium hydroxide (2 mol dm–3, 30 cm3)', 'sodium hydroxide', 0.06, '2 mol/L'],
  ['aqueous sodium hydroxide (2 mol dm−3; 30 cm³)', 'sodium hydroxide', 0.06, '2 mol/L'],
  ['hydrochloric acid (2 mol dm-3; 50 cm3)', 'hydrogen chloride', 0.1, '2 mol/L'],
  ['hydrochloric acid (2 mol/dm3, 50 mL)', 'hydrogen chloride', 0.1, '2 mol/L'],
  ['HCl (2 mol L-1, 50 mL)', 'hydrogen chloride', 0.1, '2 mol/L'],
  // Solutions of reagents in solvents.
  ['isopropylmagnesium chloride (2.0 M in THF, 27.5 mL, 55.0 mmol)', 'isopropylmagnesium chloride', 0.055, '2 mol/L in THF'],
  ['a 2.5 M solution of n-butyllithium in hexanes (44.0 mL, 110 mmol)', 'butyllithium', 0.11, '2.5 mol/L in hexanes'],
  ['hydrogen chloride (4.0 M solution in 1,4-dioxane, 12.5 mL, 50 mmol)', 'hydrogen chloride', 0.05, '4 mol/L in 1,4-dioxane'],
  ['KOtBu, 1 M in THF (110 mL)', 'potassium tert-butoxide', 0.11, '1 mol/L in THF'],
  ['HCl (2 N in diethyl ether, 50 mL)', 'hydrogen chloride', 0.1, '2 mol/L in diethyl ether'],
  ['20 mL of a 5 M aqueous solution of NaNO2', 'sodium nitrite', 0.1, '5 mol/L'],
  ['0.5 M solution of ZnCl2 in THF, 20 mL', 'zinc chloride', 0.01, '0.5 mol/L in THF'],
  ['100 mL of a solution containing 10 g/L of iodine in ethanol', 'iodine', 1 / 253.809, '10 g/L in ethanol'],
  ['KHMDS (0.5 M in toluene; 22 mL, 11 mmol)', 'KHMDS', 0.011, '0.5 mol/L in toluene'],
  // What is done, where to and how: no part of the name.
  ['To the flask was added 4-nitroaniline (13.8 g, 0.10 mol)', '4-nitroaniline', 13.8 / 138.126],
  ['To a stirred solution was slowly added POCl3 (15.3 g)', 'phosphoryl chloride', 15.3 / 153.33],
  ['N,N-dimethylformamide (4.39 g) via syringe over 5 min', 'N,N-dimethylformamide', 4.39 / 73.095],
  ['acetyl chloride (7.85 g) through a dropping funnel', 'acetyl chloride', 7.85 / 78.5],
  ['POCl3 (15.3 g) added dropwise', 'phosphoryl chloride', 15.3 / 153.33],
  ['ammonia gas (17 g, 1 mol)', 'ammonia', 17 / 17.031, 'neat'],
  ['hydrogen chloride gas (3.65 g)', 'hydrogen chloride', 3.65 / 36.458, 'neat'],
  ['lithium wire (0.69 g, 0.10 mol)', 'lithium', 0.69 / 6.94],
  ['excess iodomethane (11.4 g)', 'iodomethane', 11.4 / 141.938],
  ['HCl aq. 1 M 10 mL', 'hydrogen chloride', 0.01, '1 mol/L'],
  ['an equal volume of water (100 mL)', 'water', (100 * 0.9982) / 18.015],
  ['saturated solution of sodium bicarbonate in water (30 mL)', 'sodium hydrogen carbonate', null, 'strength unknown'],
  ['crushed ice/water (100 g)', 'crushed ice/water', 100 / 18.015],
  // So many times, behind all of it.
  ['wash with 50 mL water twice', 'water', (2 * 50 * 0.9982) / 18.015],
  ['Et2O (30 mL) ×3', 'diethyl ether', (90 * 0.7138) / 74.123],
  ['washed with water (25 mL) three times', 'water', (3 * 25 * 0.9982) / 18.015],
  // Hydrates, brackets in formulas, several amounts.
  ['p-TsOH·H2O (190 mg, 1.0 mmol)', 'p-toluenesulfonic acid monohydrate', 0.19 / 190.21],
  ['Na2CO3·10H2O (28.6 g, 0.1 mol)', 'sodium carbonate decahydrate', 28.6 / 286.14],
  ['TBAF·3H2O (3.15 g, 10 mmol)', 'tetrabutylammonium fluoride trihydrate', 3.15 / 315.51],
  ['sodium acetate·3H2O (13.6 g)', 'sodium acetate trihydrate', 13.6 / 136.08],
  ['CuSO4, 5H2O (2.5 g)', 'copper(II) sulfate pentahydrate', 2.5 / 249.68],
  ['LiOH.H2O (0.42 g)', 'lithium hydroxide monohydrate', 0.42 / 41.96],
  ['(COCl)2 (1.33 g, 10.5 mmol)', 'oxalyl chloride', 1.33 / 126.92],
  ['phosphorus oxychloride (9.3 mL, 15.3 g, 100 mmol)', 'phosphoryl chloride', 15.3 / 153.33],
  ['DBU (15.0 mL, 100 mmol, d = 1.018 g/mL)', '1,8-diazabicyclo[5.4.0]undec-7-ene', (15 * 1.018) / 152.241],
  ['nitric acid (d 1.42, 70 % w/w, 9.0 g, 0.10 mol)', 'nitric acid', (9 * 0.7) / 63.012, '70 % w/w'],
  // What holds no moles that could be told.
  ['brine (2 × 50 mL)', 'brine', null],
  ['sat. aq. Na2S2O3 (50 mL)', 'sodium thiosulfate', null, 'strength unknown'],
  ['acetic acid/water (4:1 v/v, 100 mL)', 'acetic acid/water 4:1 v/v', null],
  ['10 wt% Pd/C (0.50 g)', 'Pd/C', null, '10 % w/w'],
  ['palladium on carbon (10 wt % Pd, 0.5 g)', 'palladium on carbon', null, '10 % w/w'],
  ['Pt/C (5 % w/w Pt, 0.2 g)', 'Pt/C', null, '5 % w/w'],
  ['silica gel (50 g)', 'silica gel', null],
  ['half-saturated NaHCO3 (50 mL)', 'half-saturated NaHCO3', null],
];

describe('moles as worked out by hand', () => {
  for (const [line, name, moles, form] of BY_HAND) {
    test(line, () => {
      const charge = chargeOf(line);
      expect(charge.name).toBe(name);
      if (form !== undefined) expect(charge.form).toBe(form);
      if (moles === null) return expect(charge.moles).toBeNull();
      // Volumes to the last figure of a handbook's density, masses to 0.02 %.
      const slack = /mL|c\.c\./.test(line) && !/ g\b/.test(line) ? 5e-3 : 2e-4;
      expect(Math.abs((charge.moles ?? 0) / moles - 1)).toBeLessThan(slack);
    });
  }
});

describe('what would have to be guessed is asked', () => {
  test.each([
    ['85 wt% KOH (6.60 g)', '85 wt % of potassium hydroxide: what it holds, or what it is of the basis?'],
    ['10% palladium on charcoal (0.5 g)', 'a percentage needs its basis'],
    ['H2O2 (35 %, 10 mL)', 'a percentage needs its basis'],
    ['1 N H2SO4 (100 mL)', 'how many equivalents a mole has'],
    ['sodium nitrite, 7.0 g (0.10 mol) in 20 mL of water', 'one charge a line'],
    ['7.0 g (0.10 mol) NaNO2 in THF (20 mL)', 'one charge a line'],
    ['7.0 g (0.10 mol) of NaNO2 in 20 mL of THF', 'one charge a line'],
    ['7.0 g of NaNO2 dissolved in 20 mL water', 'one charge a line'],
    ['iodine (12.7 g, 50.0 mmol, 1.0 equiv) in THF (50 mL)', 'one charge a line'],
    ['cat. DMAP', 'an amount is expected'],
  ])('%s', (line, words) => {
    expect(() => chargeOf(line)).toThrow(new RegExp(words));
  });

  test('a weight per cent of a solid: a loading where the grams are so much of the basis, a strength where it says so', () => {
    // 18.0 g on 180.156 g of basis are 10 %.
    expect(chargeOf('copper(I) iodide (10 wt%, 18.0 g)').rule).toEqual({ kind: 'mass ratio', gramsPerGram: 0.1 });
    expect(chargeOf('copper(I) iodide (10 wt% loading, 18.0 g)').rule).toEqual({ kind: 'mass ratio', gramsPerGram: 0.1 });
    // 18.0 g × 95 % ÷ 190.45 g/mol = 89.8 mmol.
    expect(chargeOf('copper(I) iodide (95 wt%, 18.0 g, 89.8 mmol)').moles).toBeCloseTo(0.08979, 5);
    // The basis' own line has no loading on itself.
    expect(chargeOf('toluene 5 mL', 'starter (98 wt%, 180.156 g)').rule).toEqual({
      kind: 'volumes',
      millilitresPerGram: expect.closeTo(5 / (180.156 * 0.98), 12),
    });
  });

  test.each([
    ['petroleum ether (40–60 °C, 100 mL)', 'petroleum ether', 'b.p. 40–60 °C'],
    ['light petroleum (bp 60–80°C), 50 mL', 'light petroleum', 'b.p. 60–80°C'],
    ['CsF (1.52 g, 10 mmol), dried at 150 °C', 'caesium fluoride', 'dried at 150 °C'],
    ['4 Å molecular sieves (1 g, activated at 300 °C)', '4 Å molecular sieves', 'activated at 300 °C'],
  ])('how it boils or was dried is not how warm it goes in: %s', (line, name, note) => {
    const read = readChargeLine(line);
    expect(read).toMatchObject({ ok: true, temperature: null, stage: null, note });
    expect(chargeOf(line).name).toBe(name);
  });

  test('a temperature at which it is added stays one', () => {
    expect(readChargeLine('hot petroleum ether (60 °C, 100 mL)')).toMatchObject({ temperature: { from: 60, to: 60 } });
    expect(readChargeLine('acetyl chloride 5 mL at 0–5 °C')).toMatchObject({ temperature: { from: 0, to: 5 } });
  });

  test('a word beside the figure of a strength is a note, and takes no other strength', () => {
    expect(chargeOf('conc. hydrochloric acid (12 M, 8.3 mL)').note).toBe('concentrated');
  });
});
