import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseFormula } from '../../src/core/matter/formula.ts';
import { structureProblem, structureProblems } from '../../src/core/structure/agreement.ts';
import { drawStructure } from '../../src/core/structure/drawing.ts';
import { readStructure, smilesOf } from '../../src/core/structure/structure.ts';
import { reference } from '../reference/tables.ts';
import { cases } from '../cases.ts';
import { worked } from '../worked.ts';

const ETHANOL = `
  by hand

  3  2  0  0  0  0  0  0  0  0999 V2000
    0.0000    0.0000    0.0000 C   0  0  0  0  0  0  0  0  0  0  0  0
    1.2990    0.7500    0.0000 C   0  0  0  0  0  0  0  0  0  0  0  0
    2.5981   -0.0000    0.0000 O   0  0  0  0  0  0  0  0  0  0  0  0
  1  2  1  0
  2  3  1  0
M  END
`;

function said(text: string): string {
  const read = readStructure(text);
  return read.ok ? read.formula : `${read.at}: ${read.words}`;
}

describe('a SMILES', () => {
  test.each([
    ['CCO', 'C2H6O'],
    ['  CCO ', 'C2H6O'],
    ['[Na+].[OH-]', 'HNaO'],
    ['[Al]', 'Al'],
    ['[S]', 'S'],
    ['[Al].Cl', 'AlClH'],
    ['[HH]', 'H2'],
    ['[13CH4]', '[13C]H4'],
    ['[2H]C([2H])([2H])Cl', 'CD3Cl'],
    ['[D]O[D]', 'D2O'],
    ['[NH4+]', 'H4N⁺'],
    ['[O-]S(=O)(=O)[O-]', 'O4S²⁻'],
    ['O[N+](=O)[O-]', 'HNO3'],
    ['CN(=O)=O', 'CH3NO2'],
    ['c1ccccc1', 'C6H6'],
    ['c1cc[nH]c1', 'C4H5N'],
    ['OCl(=O)(=O)=O', 'ClHO4'],
    ['CC(=O)OI(c1ccccc1)OC(C)=O', 'C10H11IO4'],
    ['[Cu+2].[O-]S(=O)(=O)[O-].O.O.O.O.O', 'CuH10O9S'],
    ['Cl[Al]1(Cl)[Cl][Al](Cl)(Cl)[Cl]1', 'Al2Cl6'],
  ])('%s is %s', (smiles, formula) => expect(said(smiles)).toBe(formula));

  test.each([
    ['', '0: a structure is expected here'],
    ['C(C)(C)(C)(C)(C)C', '0: C cannot have 6 bonds'],
    ['CCN(C)(C)C', '2: N cannot have 4 bonds'],
    ['CCl(C)C', '1: Cl cannot have'],
    ['O=O=O', '2: O cannot have 4 bonds'],
    ['C[CH5]', '1: C cannot have 6 bonds'],
    ['[CH4+2]', '0: C with a charge of +2 cannot have 4 bonds'],
    ['C[Cl-]', '1: Cl with a charge of −1 cannot have 1 bond'],
    ['CC(C', '2: this branch is never closed'],
    ['C)C', '1: no branch is open'],
    ['C()C', '1: this branch is empty'],
    ['(C)', '0: a branch needs an atom before it'],
    ['C1CC', '1: ring 1 is opened here and never closed'],
    ['C11', '2: a ring cannot close on the atom it begins with'],
    ['C1C1', '3: these two atoms are joined already'],
    ['C=1CC#1', '6: ring 1 begins and ends with different bonds'],
    ['1CC', '0: a ring number needs an atom before it'],
    ['CC=', '2: this bond leads nowhere'],
    ['=C', '0: a bond needs an atom before it'],
    ['C..C', '2: a dot needs an atom on both sides'],
    ['C.', '1: a dot needs an atom on both sides'],
    ['C(C.C)', '3: a dot cannot stand inside a branch'],
    ['n1cccc1', '0: no alternating bonds can be drawn here'],
    ['Cc', '1: a small letter stands for an aromatic atom, and this one is in no aromatic ring'],
    ['CC*', '2: "*" stands for any atom'],
    ['[*]', '1: "*" stands for any atom'],
    ['C~C', '1: "~" cannot stand here'],
    ['CCO ethanol', '3: a SMILES has no spaces'],
    ['CCO>>CC=O', '3: this is a reaction'],
    ['CH4', '1: hydrogen is written in brackets'],
    ['СCO', '0: "С" is not a sign of a SMILES'],
    ['C😀', '1: "😀" is not a sign of a SMILES'],
    ['[Na', '0: this bracket is never closed'],
    ['[C,N]', '0: these brackets need to hold one atom'],
    ['[Zz]', '0: this SMILES cannot be read'],
    ['[300C]', '0: there is no C with mass number 300'],
    ['xyz', '0: "x" cannot stand here'],
    ['C'.repeat(2001), '2000: a structure needs to be at most 2,000 characters long'],
    ['C'.repeat(501), '0: a structure needs to have at most 500 atoms (got 501)'],
  ])('%j is refused at its place', (text, words) => expect(said(text).startsWith(words) ? words : said(text)).toBe(words));

  test('of 2,000 characters is answered at once, whatever stands in it', async () => {
    const long = ['C'.repeat(2000), 'c1ccccc1'.repeat(250), 'C('.repeat(1000), '[13C@@H](C)(N)'.repeat(142), 'C%10'.repeat(500)];
    long.push('c1ccccc1'.repeat(83));
    const took = await worked(() => {
      for (const smiles of long) readStructure(smiles);
    });
    expect(took).toBeLessThan(1000);
  });
});

describe('a molfile', () => {
  test('is read, with its first lines lost or with other line ends, too', () => {
    for (const text of [ETHANOL, ETHANOL.trim(), ETHANOL.replaceAll('\n', '\r\n'), ETHANOL.split('\n').slice(3).join('\n')])
      expect(said(text)).toBe('C2H6O');
    expect(smilesOf(ETHANOL)).toMatchObject({ ok: true, smiles: expect.stringMatching(/^(CCO|OCC)$/) });
  });

  test('that lost a line or its end is refused, or still says the same', () => {
    const lines = ETHANOL.split('\n');
    for (const [index, line] of lines.entries()) {
      const cut = said(lines.slice(0, index).join('\n'));
      const without = said(lines.filter((_, at) => at !== index).join('\n'));
      expect([line, cut]).toEqual([line, expect.stringMatching(index > 9 ? /^C2H6O$/ : /^\d+: /)]);
      expect([line, without]).toEqual([line, expect.stringMatching(/^\d+: |^C2H6O$/)]);
    }
  });

  test.each([
    ['garbage\n\nmore\n', 'this is no molfile'],
    [ETHANOL.replace('  3  2', '  5  2'), 'counts 5 atoms, but 3 could be read'],
    [ETHANOL.replace('  3  2', '  0  0'), 'this structure holds no atoms'],
    [ETHANOL.replace(' O ', ' A '), 'atom 3 is "A", which is no element'],
    [ETHANOL.replace(' O ', ' * '), 'atom 3 is "*", which is no element'],
    [ETHANOL.replace(' O ', ' R#'), 'atom 3 is "R#", which is no element'],
    [ETHANOL.replace('  1  2  1', '  1  2  8'), 'this is a search pattern'],
    [ETHANOL.replace('M  END', ''), 'this molfile is cut off'],
    [`${ETHANOL}$$$$${ETHANOL}$$$$\n`, 'this file holds several structures'],
  ])('%# is refused', (text, words) => expect(said(text)).toContain(words));

  test('of another language stays what it is: one record of an SD file', () => {
    expect(said(`${ETHANOL}> <name>\nethanol\n\n$$$$\n`)).toBe('C2H6O');
  });
});

describe('structure and formula', () => {
  test.each([
    ['CCO', 'C2H6O', null],
    ['CCO', 'CH3CH2OH', null],
    ['CCO', undefined, null],
    ['CCO', 'C3H8O', 'the structure has C2H6O, the formula says C3H8O'],
    ['[NH4+]', 'NH4', 'the structure has H4N⁺, the formula says NH4'],
    ['[NH4+]', 'NH4+', null],
    ['[13CH4]', 'CH4', 'the structure has [13C]H4, the formula says CH4'],
    ['[Ca+2].[Ca+2].[O-]S(=O)(=O)[O-].[O-]S(=O)(=O)[O-].O', 'CaSO4·½H2O', null],
    ['[Na+].[OH-]', 'NaOH', null],
    ['CCO', 'not a formula', null],
  ])('%s beside %s: %s', (smiles, formula, words) =>
    expect(structureProblem(smiles, formula, reference)?.words ?? null).toBe(words),
  );

  test('of a file’s materials are doubted at their place', () => {
    const materials = {
      'a.1': { name: 'ethanol', formula: 'C2H6O', smiles: 'CCO' },
      b: { name: 'propanol', formula: 'C3H8O', smiles: 'CCO' },
      c: { name: 'broken', smiles: 'CC(' },
      d: { name: 'molfile', smiles: ETHANOL },
    };
    expect(structureProblems(materials, reference)).toEqual([
      { at: '/materials/b/smiles', words: 'the structure has C2H6O, the formula says C3H8O' },
      { at: '/materials/c/smiles', words: 'this branch is never closed' },
      { at: '/materials/d/smiles', words: expect.stringContaining('on one line') },
    ]);
  });
});

test('10,000 texts: never a crash; a formula that reads back, or words and a place inside the text', () => {
  const pieces = fc.constantFrom(...'CNOPSFClBrIHcno123456()[]=#+-.@/\\%:$*> '.split(''));
  const signs = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 40 }),
    fc.string({ unit: pieces, maxLength: 40 }),
    fc.string({ unit: pieces, maxLength: 12 }),
    fc.array(fc.constantFrom(...ETHANOL.split('\n')), { maxLength: 12 }).map((lines) => lines.join('\n')),
  );
  fc.assert(
    fc.property(signs, (text) => {
      const read = readStructure(text);
      if (!read.ok) {
        expect(read.words.length).toBeGreaterThan(0);
        expect(read.at).toBeLessThanOrEqual(text.length);
        return;
      }
      const formula = parseFormula(read.formula, reference);
      if (!formula.ok) expect(formula.words).toMatch(/isotope|not expected/);
      else expect([formula.charge, ...formula.atoms].length).toBe([read.charge, ...read.atoms].length);
    }),
    { numRuns: cases(10_000) },
  );
});

describe('a drawing', () => {
  test('holds shapes and nothing else: no style, no colour, no script', () => {
    const drawing = drawStructure('O=C(C(=O)c1ccccc1)c1ccccc1', 220, 140);
    if (!drawing.ok) throw new Error(drawing.words);
    expect(drawing.formula).toBe('C14H10O2');
    expect(drawing.shapes.length).toBeGreaterThan(15);
    expect(drawing.shapes.filter((shape) => shape.element === 'text').map((shape) => shape.text)).toEqual(['O', 'O']);
    const names = new Set(drawing.shapes.flatMap((shape) => Object.keys(shape.attributes)));
    for (const name of ['fill', 'stroke', 'style', 'class', 'id', 'href']) expect(names).not.toContain(name);
  });

  test('shows charges, labels and each part of a salt, inside its frame', () => {
    const drawing = drawStructure('[13CH3]C(=O)[O-].[Na+]', 220, 140);
    if (!drawing.ok) throw new Error(drawing.words);
    const letters = drawing.shapes.filter((shape) => shape.element === 'text');
    expect(letters.map((shape) => shape.text)).toEqual(expect.arrayContaining(['13', 'Na', '+', '-', 'O']));
    for (const { attributes } of letters) {
      const { x, y, width, height } = drawing.box;
      expect(Number(attributes.x)).toBeGreaterThanOrEqual(x);
      expect(Number(attributes.x)).toBeLessThan(x + width);
      expect(Number(attributes.y)).toBeLessThan(y + height);
    }
  });

  test('of more than 200 atoms is not made, and that is said', () => {
    expect(drawStructure('C'.repeat(201), 220, 140)).toMatchObject({ ok: false, words: expect.stringContaining('200 atoms') });
  });
});
