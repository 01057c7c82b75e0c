import { describe, expect, test } from 'vitest';
import { readChargeLine } from '../../src/core/procedure/charge-line.ts';

/** Lines as procedures print them, with what is read in them. */
const LINES: readonly (readonly [line: string, read: Readonly<Record<string, unknown>>])[] = [
  ['benzaldehyde 20.0 g (0.188 mol)', { name: 'benzaldehyde', printed: '20.0 g (0.188 mol)', stage: null, note: null }],
  ['benzaldehyde (20.0 g, 188 mmol, 1.0 equiv)', { name: 'benzaldehyde', printed: '(20.0 g, 188 mmol, 1.0 equiv)' }],
  ['68 % w/w nitric acid 35 mL', { name: 'nitric acid', printed: '35 mL of 68 % w/w' }],
  ['35 mL of 68 % w/w nitric acid', { name: 'nitric acid', printed: '35 mL of 68 % w/w' }],
  ['nitric acid 68% w/w, 35 mL', { name: 'nitric acid', printed: '35 mL of 68 % w/w' }],
  ['ethanol 3 × 40 mL, wash', { name: 'ethanol', printed: '3 × 40 mL', stage: 'work-up', note: 'wash' }],
  ['3 x 40 mL ethanol, wash', { name: 'ethanol', printed: '3 x 40 mL', stage: 'work-up' }],
  ['20.0 g (0.188 mol) of benzaldehyde', { name: 'benzaldehyde', printed: '20.0 g (0.188 mol)' }],
  ['20.0 g benzaldehyde (0.188 mol)', { name: 'benzaldehyde', printed: '20.0 g (0.188 mol)' }],
  ['2,4-dinitrophenylhydrazine 3.5 g', { name: '2,4-dinitrophenylhydrazine', printed: '3.5 g' }],
  ['1,2-dichloroethane 100 mL, recrystallisation', { name: '1,2-dichloroethane', stage: 'purification' }],
  ['2 M HCl 20 mL, quench', { name: 'HCl', printed: '20 mL of 2 mol/L', stage: 'quench' }],
  ['toluene to 0.5 mol/L', { name: 'toluene', printed: 'to 0.5 mol/L' }],
  ['toluene 10 volumes', { name: 'toluene', printed: '10 volumes' }],
  ['acetic anhydride 10 % excess', { name: 'acetic anhydride', printed: '10 % excess' }],
  ['palladium acetate 2 mol %', { name: 'palladium acetate', printed: '2 mol %' }],
  [
    'thionyl chloride 15 mL over 30 min at 0–5 °C, dropwise',
    { name: 'thionyl chloride', printed: '15 mL', overMinutes: 30, temperature: { from: 0, to: 5 }, note: 'dropwise' },
  ],
  ['acetyl chloride 5 mL at 0-5 C', { name: 'acetyl chloride', printed: '5 mL', temperature: { from: 0, to: 5 } }],
  ['n-BuLi 2.5 M in hexane 40 mL', { name: 'n-BuLi', printed: '40 mL of 2.5 mol/L', solvent: 'hexane' }],
  ['2 M HCl in diethyl ether 20 mL', { name: 'HCl', printed: '20 mL of 2 mol/L', solvent: 'diethyl ether' }],
  ['21.2 g. (0.1 mole) of benzoin', { name: 'benzoin', printed: '21.2 g (0.1 mol)' }],
  ['100 cc. of concentrated nitric acid', { name: 'nitric acid', printed: '100 mL', named: 'concentrated' }],
  ['sat. NaHCO3 50 mL, wash', { name: 'NaHCO3', named: 'saturated', stage: 'work-up' }],
  ['bromine 5,2 mL over 1,5 h', { name: 'bromine', printed: '5,2 mL', overMinutes: 90 }],
  ['conc. sulfuric acid 10 mL', { name: 'sulfuric acid', printed: '10 mL', named: 'concentrated' }],
  ['glacial acetic acid 50 mL', { name: 'acetic acid', named: 'glacial' }],
  ['4-nitroaniline 1.2 equiv', { name: '4-nitroaniline', printed: '1.2 equiv' }],
  ['H2O2 30 % w/w 5 mL', { name: 'H2O2', printed: '5 mL of 30 % w/w' }],
  ['sodium hydroxide 20 mL each batch, rinse', { name: 'sodium hydroxide', printed: '20 mL each batch', stage: 'work-up' }],
  ['α-phenylcinnamic acid 2.0 g', { name: 'α-phenylcinnamic acid', printed: '2.0 g' }],
  // What is done with it, without a comma: a note and its stage, never a part of the name.
  ['water 2 x 25 mL wash', { name: 'water', printed: '2 x 25 mL', stage: 'work-up', note: 'wash' }],
  ['wash with 2 x 25 mL water', { name: 'water', printed: '2 x 25 mL', stage: 'work-up', note: 'wash' }],
  ['washed with brine (2 × 25 mL)', { name: 'brine', printed: '(2 × 25 mL)', stage: 'work-up', note: 'washed' }],
  ['extract with EtOAc (3 × 30 mL)', { name: 'EtOAc', printed: '(3 × 30 mL)', stage: 'work-up' }],
  ['wash: ethanol 2 x 5 mL', { name: 'ethanol', printed: '2 x 5 mL', stage: 'work-up', note: 'wash' }],
  ['dry over MgSO4 5 g', { name: 'MgSO4', printed: '5 g', stage: 'work-up', note: 'dry' }],
  ['recrystallise from ethanol (50 mL)', { name: 'ethanol', printed: '(50 mL)', stage: 'purification' }],
  ['recrystallised from ethanol/water (1:1, 50 mL)', { name: 'ethanol/water 1:1', printed: '(50 mL)' }],
  ['Add 6 mL of acetic anhydride', { name: 'acetic anhydride', printed: '6 mL', note: null }],
  // Portions in words.
  ['aniline 3 portions of 3.1 g', { name: 'aniline', printed: '3 × 3.1 g' }],
  ['two 25-mL. portions of ether', { name: 'ether', printed: '2 × 25 mL' }],
  ['NaBH4 (1.9 g, 50 mmol) in 5 portions over 30 min', { printed: '(1.9 g, 50 mmol)', note: 'in 5 portions', overMinutes: 30 }],
  // Words in the bracket of the amount.
  ['NH4Cl (sat. aq., 50 mL), quench', { name: 'NH4Cl', printed: '(50 mL)', named: 'saturated', stage: 'quench' }],
  ['Mg (turnings, 0.24 g)', { name: 'Mg', printed: '(0.24 g)', note: 'turnings' }],
  ['NaOH (aq., 2 M, 20 mL)', { name: 'NaOH', printed: '(20 mL) of 2 mol/L', note: 'aq.' }],
  ['aqueous ammonia (25 % w/w) 10 mL', { printed: '10 mL of 25 % w/w' }],
  ['sulphuric acid conc. 1 mL', { name: 'sulphuric acid', named: 'concentrated' }],
  ['dil. HCl 30 mL', { name: 'HCl', named: 'dilute' }],
  // A solvent by its formula or with a number in its name, and a dispersion.
  ['PhMgBr (3.0 M in Et2O, 3.3 mL)', { name: 'PhMgBr', printed: '(3.3 mL) of 3.0 mol/L', solvent: 'Et2O' }],
  ['HCl (4 M in 1,4-dioxane, 10 mL)', { name: 'HCl', printed: '(10 mL) of 4 mol/L', solvent: '1,4-dioxane' }],
  ['NaH (60 % w/w dispersion in mineral oil, 0.40 g)', { name: 'NaH', printed: '(0.40 g) of 60 % w/w', solvent: 'mineral oil' }],
  // How warm and how long; what is no number of degrees or minutes stays in its words.
  [
    'thionyl chloride 7.3 mL at rt',
    { name: 'thionyl chloride', printed: '7.3 mL', temperature: { bath: 'room temperature' }, note: null },
  ],
  ['thionyl chloride 7.3 mL below 10 °C', { temperature: null, note: 'below 10 °C' }],
  ['thionyl chloride 7.3 mL, 0 °C', { temperature: { from: 0, to: 0 }, note: null }],
  ['thionyl chloride 7.3 mL within 1 h 30 min', { overMinutes: 90 }],
  ['thionyl chloride 7.3 mL over half an hour', { overMinutes: 30 }],
  ['thionyl chloride 7.3 mL over 1–2 h', { overMinutes: null, note: 'over 1–2 h' }],
  ['benzyl bromide 1.19 mL 10.0 mmol', { name: 'benzyl bromide', printed: '1.19 mL, 10.0 mmol' }],
  ['methylene chloride (10 mL × 2)', { name: 'methylene chloride', printed: '(2 × 10 mL)' }],
  ['acetic anhydride (9.4 mL = 10.2 g = 0.1 mol)', { printed: '(9.4 mL, 10.2 g, 0.1 mol)' }],
  ['benzaldehyde 10.6 g freshly distilled', { name: 'benzaldehyde', printed: '10.6 g', note: 'freshly distilled' }],
  ['water 50 mL (ice cold)', { name: 'water', printed: '50 mL', note: 'ice cold' }],
  ['hot water (90 °C, 100 mL)', { name: 'hot water', printed: '(100 mL)', temperature: { from: 90, to: 90 } }],
  // Beside grams the metal that the support holds, alone a loading.
  ['5 wt% Pd/C 0.5 g', { name: 'Pd/C', printed: '0.5 g of 5 % w/w' }],
  ['Pd/C 5 wt%', { name: 'Pd/C', printed: '5 wt%' }],
  ['ethanol ~5 mL', { name: 'ethanol', printed: '~5 mL' }],
  ['DCM 10 V', { name: 'DCM', printed: '10 V' }],
  ['N,N-dimethylformamide 25 mL', { name: 'N,N-dimethylformamide', printed: '25 mL' }],
];

test.each(LINES)('%s', (line, expected) => {
  expect(readChargeLine(line)).toMatchObject({ ok: true, ...expected });
});

describe('what cannot be read is shown at its place', () => {
  test.each([
    ['', 0, 'a charge is expected'],
    ['benzaldehyde', 12, 'an amount is expected'],
    ['68% nitric acid 35 mL', 1, 'needs its basis'],
    ['benzaldehyde 20.0 x', 18, 'not a unit'],
    ['a solution of sodium nitrite (7.0 g) in water (20 mL)', 37, 'one charge a line'],
    ['20 g', 0, 'name|material|amount'],
    ['ether 5 mL at 30 to 10 °C', 10, 'rise'],
    // Not 500 mL of "toluene 1", and no material "2 x".
    ['toluene 1,500 mL', 9, 'decimal or thousands'],
    ['2 x 25 mL wash', 0, 'material'],
    ['ethanol 5 mL, '.repeat(30), 400, 'charge by charge'],
    ['THF(dry 20 mL', 3, 'one bracket'],
  ])('%s', (line, at, words) => {
    const read = readChargeLine(line);
    expect(read.ok).toBe(false);
    if (read.ok) return;
    expect(read.words).toMatch(new RegExp(words));
    if (line !== '20 g') expect(read.at).toBe(at);
  });
});

test('no text makes it throw, and a place is always inside the text', () => {
  const pieces = [
    'benz',
    ' ',
    '2',
    '×',
    '%',
    'w/w',
    'mL',
    '(',
    ')',
    ',',
    'of',
    'over',
    'at',
    '°C',
    'equiv',
    '-',
    '–',
    '.',
    'to',
    'M',
  ];
  let seed = 7;
  const next = (): number => {
    seed = (seed * 1103515245 + 12345) % 2147483648;
    return seed;
  };
  for (let index = 0; index < 5000; index += 1) {
    const text = Array.from({ length: next() % 12 }, () => pieces[next() % pieces.length]).join(next() % 2 ? ' ' : '');
    const read = readChargeLine(text);
    if (read.ok) expect(read.name).not.toBe('');
    else expect(read.at >= 0 && read.at <= text.length).toBe(true);
  }
});

describe('an end point behind the amount', () => {
  test.each([
    '20 % w/w sodium hydroxide 110 mL, until pH 8, at most 1.5 ×, quench',
    '20 % w/w sodium hydroxide 110 mL to pH 8 at most 1.5 times, quench',
    '110 mL of 20 % w/w sodium hydroxide (until pH 8), at most 1,5 x, quench',
  ])('%s', (typed) => {
    expect(readChargeLine(typed)).toMatchObject({
      ok: true,
      name: 'sodium hydroxide',
      printed: '110 mL of 20 % w/w',
      stage: 'quench',
      until: { endPoint: 'pH 8', atMost: 1.5 },
    });
  });

  test('a pH without a largest amount is asked for it at its place, with what to type', () => {
    const typed = '20 % w/w sodium hydroxide 110 mL, to pH 8, quench';
    const read = readChargeLine(typed);
    if (read.ok) throw new Error('a largest amount was guessed');
    expect(read.at).toBe(typed.indexOf('to pH 8'));
    expect(read.words).toMatch(/“until pH 8, at most 1\.5 ×”.*“to neutralise, to pH 8”/);
  });

  test('buffer of a pH, and neutralising to a pH, stay what they were', () => {
    expect(readChargeLine('pH 7 buffer 20 mL')).toMatchObject({ ok: true, name: 'pH 7 buffer' });
    expect(readChargeLine('sodium hydroxide to neutralise, to pH 8')).toMatchObject({
      ok: true,
      neutralises: { rule: { endPH: 8 } },
    });
  });
});
