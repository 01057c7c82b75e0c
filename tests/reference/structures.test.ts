import initRDKit from '@rdkit/rdkit';
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { hasRightCheckDigit } from '../../src/core/matter/cas.ts';
import { molarMass } from '../../src/core/matter/molar-mass.ts';
import { structureProblem } from '../../src/core/structure/agreement.ts';
import { drawStructure } from '../../src/core/structure/drawing.ts';
import { readStructure } from '../../src/core/structure/structure.ts';
import { reference } from './tables.ts';

const rows = reference.rows.materials;
const drawn = rows.filter((row) => row.smiles !== null);

describe('every row of the material table', () => {
  test('has a CAS number with a right check digit, once', () => {
    expect(rows.filter((row) => !hasRightCheckDigit(row.cas)).map((row) => row.name)).toEqual([]);
    expect(new Set(rows.map((row) => row.cas)).size).toBe(rows.length);
    expect(rows.length).toBeGreaterThanOrEqual(418);
  });
  test('has a formula that can be read', () => {
    expect(rows.flatMap((row) => (molarMass(row.formula, reference).ok ? [] : [`${row.name}: ${row.formula}`]))).toEqual([]);
  });
  test('has a structure that agrees with its formula', () => {
    expect(drawn.length).toBeGreaterThan(430);
    expect(drawn.flatMap((row) => structureProblem(row.smiles ?? '', row.formula, reference) ?? []).map(String)).toEqual([]);
  });
});

describe('an independent library, RDKit', () => {
  let mass: (smiles: string) => number | null;
  beforeAll(async () => {
    const rdkit = await (
      initRDKit as unknown as () => Promise<{ get_mol(smiles: string): { get_descriptors(): string; delete(): void } | null }>
    )();
    mass = (smiles) => {
      const molecule = rdkit.get_mol(smiles);
      if (!molecule) return null;
      const { amw } = JSON.parse(molecule.get_descriptors()) as { amw: number };
      molecule.delete();
      return amw;
    };
  });
  // Its weights are older; that of sulfur, 32.067 against 32.06, alone is 2.2e-4 away.
  test('gives every molar mass within 2e-4, sulfur and hydrogen sulfide within 2.5e-4', () => {
    const off = drawn.flatMap((row) => {
      const own = molarMass(row.formula, reference);
      const other = mass(row.smiles ?? '');
      if (!own.ok || other === null) return [`${row.name}: not read`];
      return Math.abs(own.figure.value / other - 1) > (row.formula === 'S' || row.formula === 'H2S' ? 2.5e-4 : 2e-4)
        ? [`${row.name}: ${own.figure.value} against ${other}`]
        : [];
    });
    expect(off).toEqual([]);
  });
});

describe('structures as typed', () => {
  test.each([
    ['CCO', 'C2H6O'],
    ['[Na+].[OH-]', 'HNaO'],
    ['[13CH4]', '[13C]H4'],
    ['[2H]C([2H])([2H])Cl', 'CD3Cl'],
    ['O[N+](=O)[O-]', 'HNO3'],
    ['c1ccccc1', 'C6H6'],
  ])('%s is %s', (smiles, formula) => expect(readStructure(smiles)).toMatchObject({ ok: true, formula }));

  test.each([
    ['', 'a structure is expected'],
    ['C(C)(C)(C)(C)(C)C', 'C cannot have 6 bonds'],
    ['CN(C)(C)C', 'N cannot have 4 bonds'],
    ['Cl(C)C', 'Cl cannot have 3 bonds'],
    ['xyz', 'at character 1'],
    ['c1ccc', 'dangling ring closure'],
    ['garbage\n\nmore\n', 'this molfile'],
    ['C'.repeat(2001), 'too long'],
    ['C'.repeat(501), 'more than 500 atoms'],
  ])('%j is refused', (text, words) => {
    const read = readStructure(text);
    expect(read.ok ? '' : read.words).toContain(words);
  });

  test('formula and structure that disagree say what each has', () => {
    expect(structureProblem('CCO', 'C3H8O', reference)).toBe('the structure has C2H6O, the formula says C3H8O');
    expect(structureProblem('CCO', 'C2H6O', reference)).toBeNull();
  });

  test('10,000 texts: never a crash, a formula or words', () => {
    const pieces = fc.constantFrom(...'CNOPSFClBrIHcno123456()[]=#+-.@/\\%:$'.split(''));
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary', maxLength: 40 }), fc.string({ unit: pieces, maxLength: 40 })), (text) => {
        const read = readStructure(text);
        expect(read.ok ? read.formula.length : read.words.length).toBeGreaterThan(0);
      }),
      { numRuns: 10_000 },
    );
  });

  test('a drawing holds shapes and nothing else: no style, no colour, no script', () => {
    const drawing = drawStructure('O=C(C(=O)c1ccccc1)c1ccccc1', 220, 140);
    if (!drawing.ok) throw new Error(drawing.words);
    expect(drawing.shapes.length).toBeGreaterThan(15);
    expect(drawing.shapes.filter((shape) => shape.element === 'text').map((shape) => shape.text)).toEqual(['O', 'O']);
    for (const shape of drawing.shapes)
      expect(Object.keys(shape.attributes)).not.toEqual(expect.arrayContaining(['fill', 'stroke', 'style', 'class']));
  });
});
