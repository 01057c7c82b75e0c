import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chartGroupsOf, chartPairs } from '../../src/core/bench/chart.ts';
import { clashesOf } from '../../src/core/bench/incompatible.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import { compatibilityKey } from '../../src/core/reference.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { reference } from '../reference/tables.ts';

const table = (cas: string) => factsOf({ name: reference.material.get(cas)?.name ?? cas, cas }, reference);
const drawn = (smiles: string) => factsOf({ name: 'drawn', smiles }, reference);
const gives = (one: number, other: number) => reference.compatibility.get(compatibilityKey(one, other))?.gives.join(' ') ?? '';

describe('the compatibility chart (EPA-600/2-80-076)', () => {
  // Read in a university’s copy of the chart, apart from the copy the table was made from.
  test.each([
    [3, 2, 'H G'],
    [4, 1, 'H'],
    [4, 2, 'H F'],
    [4, 3, 'H P'],
    [5, 2, 'H F'],
    [6, 1, 'H'],
    [6, 2, 'H GT'],
    [7, 2, 'H GT'],
    [8, 1, 'H G'],
    [11, 1, 'GT GF'],
    [11, 3, 'GT GF'],
    [12, 1, 'H F GF'],
    [13, 2, 'H F'],
    [14, 2, 'H F'],
    [15, 3, 'GT'],
    [16, 2, 'H F'],
    [17, 1, 'H GT'],
    [16, 1, ''],
    [14, 3, ''],
  ])('group %d with group %d: %s', (one, other, want) => {
    expect(gives(one, other)).toBe(want);
  });

  test('every number of the pairs is a group, and every group of the reactivity table that is named belongs to one', () => {
    const { compatibility, reactivity, compatibilityGroups } = reference.rows;
    const numbers = new Set(compatibilityGroups.map((row) => row.number));
    expect(compatibility.filter((row) => !numbers.has(row.one) || !numbers.has(row.other))).toEqual([]);
    expect(new Set(compatibility.map((row) => compatibilityKey(row.one, row.other))).size).toBe(compatibility.length);
    const own = new Set(reactivity.map((row) => row.group));
    expect(compatibilityGroups.flatMap((row) => row.ours).filter((group) => !own.has(group))).toEqual(['explosive']);
  });
});

describe('groups of a material', () => {
  test.each([
    ['64-17-5', 'ethanol', [4]],
    ['67-64-1', 'acetone', [19]],
    ['60-29-7', 'diethyl ether', [14]],
    ['108-88-3', 'toluene', [16]],
    ['110-54-3', 'hexane', [29]],
    ['110-83-8', 'cyclohexene', [28]],
    ['141-78-6', 'ethyl acetate', [13]],
    ['75-05-8', 'acetonitrile', [26]],
    ['68-12-2', 'N,N-dimethylformamide', [6]],
    ['75-09-2', 'dichloromethane', [17]],
    ['110-86-1', 'pyridine', [7]],
    ['121-44-8', 'triethylamine', [7]],
    ['62-53-3', 'aniline', [7]],
    ['64-19-7', 'acetic acid', [3]],
    ['100-52-7', 'benzaldehyde', [5]],
    ['108-95-2', 'phenol', [31]],
    ['98-95-3', 'nitrobenzene', [27]],
    ['7697-37-2', 'nitric acid', [2, 104]],
    ['7647-01-0', 'hydrogen chloride', [1]],
    ['1310-73-2', 'sodium hydroxide', [10]],
    ['7732-18-5', 'water', [106]],
    ['75-36-5', 'acetyl chloride', [107]],
    ['108-24-7', 'acetic anhydride', [107]],
    ['16853-85-3', 'lithium aluminium hydride', [10, 105, 107]],
    ['7722-64-7', 'potassium permanganate', [104]],
    ['7681-52-9', 'sodium hypochlorite', [104]],
  ])('%s, %s', (cas, _name, want) => {
    expect([...chartGroupsOf(table(cas), reference)].sort((a, b) => a - b)).toEqual(want);
  });

  test.each([
    ['CC1CO1', [34]],
    ['CCN=C=O', [18]],
    ['CCS', [20]],
    ['CCOC(=O)NC', [9]],
    ['CC(C)OO', [30]],
    ['NNC', [8]],
    ['CC(=O)OC(C)=O', [107]],
    ['CCOC(=O)CC(=O)O', [3, 13]],
    ['c1ccccc1O', [31]],
    ['C1=CC=CC=C1O', [31]],
    ['O=C1C=CC(=O)C=C1', [19]],
    ['C[N+](C)(C)C.[Cl-]', []],
    ['CC(=O)[O-].[Na+]', []],
    ['CC[Mg]Br', [105, 107]],
    ['C[Si](C)(C)Cl', [107]],
    ['ClC(=O)c1ccccc1', [107]],
    ['CS(=O)(=O)Cl', [107]],
    ['not a structure', []],
  ])('by structure %s', (smiles, want) => {
    expect([...chartGroupsOf(drawn(smiles), reference)].sort((a, b) => a - b)).toEqual(want);
  });

  test('by its statements alone: reacts with water, oxidises, is an explosive', () => {
    const stated = (hazards: string[]) => chartGroupsOf(factsOf({ name: 'stated', hazards }, reference), reference);
    expect(stated(['H260'])).toEqual([107]);
    expect(stated(['H272'])).toEqual([104]);
    expect(stated(['H201'])).toEqual([102]);
    expect(stated([])).toEqual([]);
  });
});

describe('why two materials must not meet', () => {
  const codes = (one: string, other: string) =>
    clashesOf(table(one), table(other), reference).map((clash) => `${clash.code} (${clash.severity})`);
  const [NITRIC, HYPOCHLORITE, AZIDE, LAH, WATER, HCL, ETHANOL] = [
    '7697-37-2',
    '7681-52-9',
    '26628-22-8',
    '16853-85-3',
    '7732-18-5',
    '7647-01-0',
    '64-17-5',
  ];
  test.each([
    [NITRIC, ETHANOL, 'oxidiser meets organic (apart)'],
    [NITRIC, '67-64-1', 'oxidiser meets organic (apart)'],
    [HYPOCHLORITE, HCL, 'acid frees chlorine (apart)'],
    [HYPOCHLORITE, '64-19-7', 'acid frees chlorine (apart)'],
    [HYPOCHLORITE, '7664-41-7', 'chloramines (apart)'],
    [AZIDE, HCL, 'acid frees hydrazoic acid (apart)'],
    [AZIDE, '64-19-7', 'acid frees hydrazoic acid (apart)'],
    ['143-33-9', HCL, 'acid frees hydrogen cyanide (apart)'],
    [LAH, WATER, 'reacts with water (apart)'],
    ['7646-69-7', WATER, 'reacts with water (apart)'],
    ['75-36-5', WATER, 'reacts with water (apart)'],
    ['75-09-2', '121-44-8', 'chart: watched (watched)'],
    ['16940-66-2', ETHANOL, 'chart: water-reactive (watched)'],
    ['7440-23-5', '75-09-2', 'chart: apart (apart)'],
    ['1310-73-2', '141-78-6', 'chart: warm (warm)'],
    ['7681-49-4', HCL, 'acid frees a poison (apart)'],
  ])('%s and %s: %s', (one, other, want) => {
    expect(codes(one, other)).toContain(want);
  });

  test('an oxidiser with an organic says what the chart says: fire and heat', () => {
    const [clash] = clashesOf(table(NITRIC), table(ETHANOL), reference);
    expect(clash?.gives).toEqual(['F', 'H']);
    expect(clash?.groups).toContainEqual([2, 4]);
  });

  test('it does not matter which of the two is named first', () => {
    const all = reference.rows.materials.map((row) => row.cas);
    fc.assert(
      fc.property(fc.constantFrom(...all), fc.constantFrom(...all), (one, other) => {
        const sorted = (found: readonly string[]) => [...found].sort();
        expect(sorted(codes(one, other))).toEqual(sorted(codes(other, one)));
      }),
      { numRuns: 400 },
    );
  });

  test('a pair of unknown materials has no line, and none of its lines is a leave to mix them', () => {
    const unknown = factsOf({ name: 'unknown' }, reference);
    expect(clashesOf(unknown, table(WATER), reference)).toEqual([]);
    expect(chartPairs([], [106], reference)).toEqual([]);
  });
});

test('where each of two gives something else, the sentence says what with which', () => {
  const said = (gives: string): string =>
    sentence({ code: 'chart: watched', values: { material: 'a', other: 'b|c', gives, groups: '1–5|1–104' } });
  expect(said('P H|GT H')).toContain('a can give a violent polymerisation and heat with b, and a poisonous gas and heat with c');
  expect(said('GT|GT')).toContain('a meets b and c: a poisonous gas can come of it');
});
