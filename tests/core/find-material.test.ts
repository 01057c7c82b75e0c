import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { tidyCas } from '../../src/core/matter/cas.ts';
import { findMaterials } from '../../src/core/matter/find-material.ts';
import { foldForSearch, isNearly } from '../../src/core/matter/fold-name.ts';
import { readHazardCodes } from '../../src/core/matter/hazard-code.ts';
import { tableDoubts } from '../../src/core/matter/table-doubts.ts';
import { reference } from '../reference/tables.ts';
import { worked } from '../worked.ts';

const first = (typed: string): string => findMaterials(typed, reference)[0]?.row.name ?? 'nothing';
const names = (typed: string): readonly string[] => findMaterials(typed, reference).map((found) => found.row.name);

describe('a material is found, however it is typed', () => {
  test.each([
    ['1,3-diphenylacetone', '1,3-diphenylacetone'],
    ['1.3-Diphenylacetone', '1,3-diphenylacetone'],
    ['1, 3 diphenyl acetone', '1,3-diphenylacetone'],
    ['1,3‑diphenyl‐ACETONE', '1,3-diphenylacetone'],
    ['β-naphthol', '2-naphthol'],
    ['beta naphthol', '2-naphthol'],
    ['Hünig’s base', 'N,N-diisopropylethylamine'],
    ['hunigs base', 'N,N-diisopropylethylamine'],
    ['N,N′-dicyclohexylcarbodiimide', "N,N'-dicyclohexylcarbodiimide"],
    ['NN dicyclohexyl carbodiimide', "N,N'-dicyclohexylcarbodiimide"],
    ['sulphuric acid', 'sulfuric acid'],
    ['sulfuric acid', 'sulfuric acid'],
    ['fenol', 'phenol'],
    ['cesium carbonate', 'caesium carbonate'],
    ['aluminum chloride', 'aluminium chloride'],
    ['tertiary butanol', '2-methyl-2-propanol'],
    ['para-xylene', 'p-xylene'],
    ['thf', 'tetrahydrofuran'],
    ['EtOAc', 'ethyl acetate'],
    ['acid sulfuric', 'sulfuric acid'],
    ['benzaldehide', 'benzaldehyde'],
    ['tolunee', 'toluene'],
    ['dimetylformamide', 'N,N-dimethylformamide'],
    ['H₂SO₄', 'sulfuric acid'],
    ['h2so4', 'sulfuric acid'],
    ['O4SH2', 'sulfuric acid'],
    ['CH3COCH3', 'acetone'],
    ['K2CO3', 'potassium carbonate'],
    ['CuSO4.5H2O', 'copper(II) sulfate pentahydrate'],
    ['CuSO4·5H2O', 'copper(II) sulfate pentahydrate'],
    ['64-17-5', 'ethanol'],
    ['64–17–5', 'ethanol'],
    ['64 17 5', 'ethanol'],
    ['64175', 'ethanol'],
  ])('%s is %s', (typed, name) => expect(first(typed)).toBe(name));

  test('what begins so by its own name comes before what does by another: "methyl benz" is not toluene yet', () => {
    expect(names('methyl benz')[0]).toBe('methyl benzoate');
    expect(names('methyl benz')).toContain('toluene');
  });

  test('the exact one stands first, then what begins so, then what holds it', () => {
    expect(names('acetone')[0]).toBe('acetone');
    expect(names('acetone')).toContain('1,3-diphenylacetone');
    expect(names('benz')[0]).toBe('benzil');
    expect(names('C4H10O')).toEqual(expect.arrayContaining(['1-butanol', 'diethyl ether', '2-methyl-2-propanol']));
    expect(names('C4H10O').length).toBeLessThanOrEqual(8);
  });

  test('a synonym says itself; what is only nearly spelled so says that', () => {
    expect(findMaterials('aspirin', reference)[0]).toMatchObject({ synonym: 'aspirin', nearly: false });
    expect(findMaterials('benzaldehide', reference)[0]).toMatchObject({ nearly: true });
    expect(findMaterials('ethanol', reference)[0]).toMatchObject({ synonym: '', nearly: false });
  });

  test.each(['', '   ', '—', 'xqzzt', 'zzzzzzzzzz', '()', '999-99-9'])('%j finds nothing', (typed) =>
    expect(names(typed)).toEqual([]),
  );

  test('any text is answered, at most eight, each material once, the same each time', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary', maxLength: 400 }), fc.string({ maxLength: 30 })), (typed) => {
        const found = names(typed);
        expect(found.length).toBeLessThanOrEqual(8);
        expect(new Set(found).size).toBe(found.length);
        expect(names(typed)).toEqual(found);
      }),
      { numRuns: 500 },
    );
  });

  test('a keystroke takes less than 5 ms', async () => {
    const typed = ['1,3-diphenylacetone', 'dimetylformamide', 'C14H10O2', '64-17-5', 'qqqqqqqqqqqq', 'acid'];
    const strokes = typed.flatMap((text) => Array.from(text, (_, at) => text.slice(0, at + 1)));
    for (const stroke of strokes) findMaterials(stroke, reference);
    const all = await worked(() => {
      for (const stroke of strokes) findMaterials(stroke, reference);
    });
    expect(all / strokes.length).toBeLessThan(5);
  });
});

describe('names folded', () => {
  test.each([
    ['N,N′-Di', 'nndi'],
    ['α-D-Glucose', 'alphadglucose'],
    ['Würtz', 'wurtz'],
    ['µ-oxo', 'muoxo'],
    ['(±)-α', 'alpha'],
    ['Straße', 'strasse'],
  ])('%s is %s', (name, folded) => expect(foldForSearch(name)).toBe(folded));

  test.each([
    ['tolunee', 'toluene', 1, true],
    ['tolune', 'toluene', 1, true],
    ['benzaldehide', 'benzaldehydedimethylacetal', 1, true],
    ['toluyne', 'benzene', 2, false],
  ])('%s is nearly %s with %d wrong: %s', (typed, name, most, nearly) => expect(isNearly(typed, name, most)).toBe(nearly));
});

test('a CAS number is tidied, whatever its dashes', () => {
  expect(['64175', '64 – 17 – 5', ' 64-17-5 ', 'no', '1'].map(tidyCas)).toEqual(['64-17-5', '64-17-5', '64-17-5', 'no', '1']);
});

describe('hazard statements as they are pasted', () => {
  test.each([
    ['H225 H319 H336', ['H225', 'H319', 'H336']],
    ['H225, h319; EUH066', ['H225', 'H319', 'EUH066']],
    ['H302 + H312 + H332', ['H302', 'H312', 'H332']],
    ['H225: Highly flammable liquid and vapour.\nH319 Causes serious eye irritation.', ['H225', 'H319']],
    ['', []],
  ])('%j', (typed, codes) => expect(readHazardCodes(typed, reference)).toEqual({ ok: true, codes }));

  test.each([
    ['H225 H399', 5, 'H399 is neither'],
    ['H225  H302 + H315', 6, 'is no combined statement'],
    ['P210', 0, 'is a precaution'],
    ['H2', 0, 'a hazard statement such as'],
  ])('%j is refused at %d', (typed, at, words) =>
    expect(readHazardCodes(typed, reference)).toMatchObject({ ok: false, at, words: expect.stringContaining(words) }),
  );
});

test('a file’s materials are doubted at their place', () => {
  const doubts = tableDoubts(
    {
      paba: { name: 'p-aminobenzoic acid', cas: '118-92-3' },
      fine: { name: 'ethanol', cas: '64-17-5', hazards: ['H225'] },
      odd: { name: 'unknown', hazards: ['H225', 'H399'] },
    },
    reference,
  );
  expect(doubts).toEqual([
    { at: '/materials/paba/cas', words: expect.stringContaining('belongs to 2-aminobenzoic acid') },
    { at: '/materials/odd/hazards/1', words: expect.stringContaining('H399') },
  ]);
});
