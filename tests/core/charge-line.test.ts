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
    ['a solution of sodium nitrite (7.0 g) in water (20 mL)', 29, 'one charge a line'],
    ['20 g', 0, 'name|material|amount'],
    ['ether 5 mL at 30 to 10 °C', 10, 'rise'],
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
