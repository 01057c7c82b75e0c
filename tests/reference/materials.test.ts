import { describe, expect, test } from 'vitest';
import { hasRightCheckDigit } from '../../src/core/matter/cas.ts';
import { findMaterials, materialsCalled } from '../../src/core/matter/find-material.ts';
import { StrengthBasis } from '../../src/core/matter/form.ts';
import { molarMass } from '../../src/core/matter/molar-mass.ts';
import { parseQuantity } from '../../src/core/quantity/parse.ts';
import { reference } from './tables.ts';

const { materials, synonyms, hazards, hazardLimits, usualStrengths, reactivity } = reference.rows;

describe('every row of the material table', () => {
  test('has a CAS number with a right check digit, and a name, each once', () => {
    expect(materials.filter((row) => !hasRightCheckDigit(row.cas)).map((row) => row.name)).toEqual([]);
    expect(new Set(materials.map((row) => row.cas)).size).toBe(materials.length);
    expect(new Set(materials.map((row) => row.name.toLowerCase())).size).toBe(materials.length);
    expect(materials.length).toBeGreaterThanOrEqual(440);
  });

  test('has a formula with a molar mass', () => {
    expect(materials.flatMap((row) => (molarMass(row.formula, reference).ok ? [] : [`${row.name}: ${row.formula}`]))).toEqual([]);
  });

  test('has figures that can be: densities, and melting below boiling', () => {
    const wrong = materials.filter(
      ({ density, densityCelsius, solidDensity, meltingPoint, boilingPoint, expansion }) =>
        (density !== null && (density < 0.5 || density > 4 || densityCelsius === null)) ||
        (solidDensity !== null && (solidDensity < 0.4 || solidDensity > 23)) ||
        (meltingPoint !== null && boilingPoint !== null && meltingPoint >= boilingPoint) ||
        (expansion !== null && (expansion < 1e-4 || expansion > 3e-3)),
    );
    expect(wrong.map((row) => row.name)).toEqual([]);
  });

  test('takes no pure density where the trade sells it dissolved', () => {
    expect(materials.filter((row) => row.suppliedAs === 'solution' && row.density !== null).map((row) => row.name)).toEqual([]);
  });

  test('is found first by its own name, by its CAS number, and among the first by its formula', () => {
    const lost = materials.filter((row) => {
      const byName = findMaterials(row.name, reference)[0]?.row;
      const byCas = findMaterials(row.cas, reference)[0]?.row;
      const byDigits = findMaterials(row.cas.replaceAll('-', ''), reference)[0]?.row;
      return byName !== row || byCas !== row || byDigits !== row;
    });
    expect(lost.map((row) => row.name)).toEqual([]);
    const noFormula = materials.filter((row) => {
      const same = materials.filter((other) => other.formula === row.formula).length;
      return same <= 8 && !findMaterials(row.formula, reference).some((found) => found.row === row);
    });
    expect(noFormula.map((row) => `${row.name} ${row.formula}`)).toEqual([]);
  });
});

describe('every synonym', () => {
  test('belongs to a material of the table and is not said twice of one', () => {
    expect(synonyms.filter(({ cas }) => !reference.material.has(cas)).map((one) => `${one.cas} ${one.synonym}`)).toEqual([]);
    const said = synonyms.map(({ cas, synonym }) => `${cas} ${synonym}`);
    expect(said.filter((one, index) => said.indexOf(one) !== index)).toEqual([]);
    expect(synonyms.length).toBeGreaterThanOrEqual(350);
  });

  test('finds its material', () => {
    const lost = synonyms.filter(({ cas, synonym }) => !findMaterials(synonym, reference).some((found) => found.row.cas === cas));
    expect(lost).toEqual([]);
  });

  test('means another material than its own only where the trade really uses it for both', () => {
    const both = synonyms.filter(({ synonym }) => materialsCalled(synonym, reference).length > 1).map((one) => one.synonym);
    expect([...new Set(both)].sort()).toMatchInlineSnapshot(`[]`);
  });
});

describe('tables beside the materials', () => {
  test('speak of materials that are there', () => {
    const strangers = [...hazards, ...hazardLimits, ...usualStrengths, ...reactivity].filter(
      ({ cas }) => !reference.material.has(cas),
    );
    expect(strangers).toEqual([]);
  });

  test('every usual strength is a strength with its basis', () => {
    expect(usualStrengths.length).toBeGreaterThanOrEqual(30);
    for (const { strength, cas, source } of usualStrengths) {
      const read = parseQuantity(strength);
      expect([cas, strength, read.ok && StrengthBasis.safeParse(read.unit).success]).toEqual([cas, strength, true]);
      expect(source).not.toBe('');
    }
  });

  test('what the trade sells dissolved has a usual strength', () => {
    const without = materials.filter((row) => row.suppliedAs === 'solution' && !reference.usualStrengths.has(row.cas));
    expect(without.map((row) => row.name)).toEqual([]);
  });
});
