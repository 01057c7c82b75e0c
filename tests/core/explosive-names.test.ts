import { describe, expect, test } from 'vitest';
import { explosiveIn, isExplosive } from '../../src/core/bench/explosive.ts';
import { hazardsOf } from '../../src/core/bench/hazards.ts';
import { labelElements } from '../../src/core/label/label-elements.ts';
import { hasRightCheckDigit } from '../../src/core/matter/cas.ts';
import { explosiveKey } from '../../src/core/matter/explosive-name.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import { type Form, NEAT } from '../../src/core/matter/form.ts';
import { makeSolution } from '../../src/core/matter/make-solution.ts';
import { replaceStrength } from '../../src/core/matter/replace-strength.ts';
import type { Material } from '../../src/core/matter/material.ts';
import { entered } from '../../src/core/quantity/figure.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { reference } from '../reference/tables.ts';
import { draw, planOf, route, step } from './build.ts';

// Names, numbers and classes of CLP Annex VI, read in a stored copy of ATP 22; recognition only.

const through = (b: Material) =>
  planOf(
    route({ a: 'C8H8O2', b, c: 'C8H8O2' }, [
      step({ id: '1', basis: 'a', product: 'b', yieldPercent: 80 }),
      step({ id: '2', basis: 'b', product: 'c', yieldPercent: 80 }),
    ]),
    [draw('c', 10)],
  );
const charging = (r: Material) =>
  planOf(
    route({ a: 'C8H8O2', r, c: 'C8H8O2' }, [
      step({ id: '1', basis: 'a', product: 'c', yieldPercent: 80, equivalents: { r: 1 } }),
    ]),
    [draw('c', 10)],
  );
const refusalOf = (result: ReturnType<typeof planOf>) => result.notices.find((one) => one.code === 'explosive not scaled');
const solution = (value: number): Form => ({ kind: 'solution', strength: { value, basis: '% w/w' } });

describe('a material known only by its name or its number', () => {
  test.each([
    ['picric acid', 'H201'],
    ['Picric Acid (wetted with not less than 30 % water)', 'H201'],
    ['picric acid, moistened', 'H201'],
    ['1.2 % picric acid solution', 'H201'],
    ['2,4,6-Trinitrophenol', 'H201'],
    ['TNT', 'H201'],
    ['2,4,6-trinitrotoluene (TNT)', 'H201'],
    ['nitroglycerin', 'H200'],
    ['Nitroglycerine', 'H200'],
    ['glyceryl trinitrate', 'H200'],
    ['lead azide', 'H200'],
    ['Lead(II) azide', 'H200'],
    ['lead styphnate', 'H200'],
    ['PETN', 'H200'],
    ['potassium picrate', 'H200'],
    ['silver fulminate', 'H200'],
    ['hexogen', 'H201'],
    ['ammonium perchlorate', 'H201'],
    ['1-hydroxybenzotriazole hydrate', 'H203'],
  ])('%s: made or charged, no amounts, and why (%s)', (name, code) => {
    for (const result of [through({ name, formula: 'C8H8O2' }), charging({ name, formula: 'C8H8O2' })]) {
      expect(result.solved).toBe(false);
      expect(result.steps).toEqual([]);
      const found = refusalOf(result);
      expect(found && sentence(found)).toContain(`is classed as explosive (${code}`);
      expect(found && sentence(found)).toMatch(/source: .*licensed people/s);
    }
  });

  test.each([
    ['88-89-1', 'H201'],
    ['118-96-7', 'H201'],
    ['55-63-0', 'H200'],
    ['13424-46-9', 'H200'],
    ['628-96-6', 'H200'],
    ['121-82-4', 'H201'],
  ])('CAS %s under any name', (cas, code) => {
    const found = refusalOf(through({ name: 'intermediate', cas, formula: 'C8H8O2' }));
    expect(found && sentence(found)).toContain(`is classed as explosive (${code}`);
  });

  test('another of its names, a number that belongs to something else, its own statements: no way round', () => {
    expect(refusalOf(through({ name: 'yellow acid', synonyms: ['picric acid'], formula: 'C8H8O2' }))).toBeDefined();
    expect(refusalOf(through({ name: 'picric acid', cas: '64-17-5', formula: 'C8H8O2' }))).toBeDefined();
    expect(refusalOf(through({ name: 'picric acid', hazards: ['H302'], formula: 'C8H8O2' }))).toBeDefined();
  });

  test('as the solvent of a charge, though the route does not name it', () => {
    const facts = new Map([['r', factsOf({ name: 'reagent', formula: 'C8H8O2' }, reference)]]);
    const form: Form = { kind: 'solution', strength: { value: 5, basis: '% w/w' }, solvent: 'nitroglycerin' };
    const rule = { kind: 'equivalents' as const, equivalents: 1 };
    const more = [{ do: 'charge' as const, id: 'r', stage: 'reaction' as const, material: 'r', rule, form }];
    expect(explosiveIn(step({ id: '1', basis: 'a', product: 'b', more }), facts, reference)?.name).toBe('nitroglycerin');
  });

  test('from memory is said, and read is not', () => {
    const said = (name: string) => {
      const found = refusalOf(through({ name, formula: 'C8H8O2' }));
      return found ? sentence(found) : '';
    };
    expect(said('hexogen')).toContain('from memory');
    expect(said('TNT')).toContain('CLP Annex VI, 609-008-00-4.');
  });
});

describe('thinned, wetted, desensitised', () => {
  const codes = (name: string, form: Form) =>
    hazardsOf(factsOf({ name }, reference), form, reference)?.statements.filter((one) => one.startsWith('H20'));
  test.each([
    ['nitroglycerin', 100, 'H200'],
    ['nitroglycerin', 59, 'H201'],
    ['lead azide', 100, 'H200'],
    ['lead azide', 80, 'H201'],
    ['PETN', 81, 'H200'],
    ['PETN', 79, 'H201'],
  ])('%s of %d %%: the entry for that much phlegmatiser, %s; explosive either way', (name, assayPercent, code) => {
    expect(codes(name, { kind: 'neat', assayPercent })).toEqual([code]);
  });
  test('a strength that is not known holds both entries', () => {
    expect(codes('nitroglycerin', { kind: 'unknown' })).toEqual(['H200', 'H201']);
  });
  test.each(['H206', 'H207', 'H208'])('a charge that is a desensitised explosive (%s): no amounts, in those words', (code) => {
    const found = refusalOf(charging({ name: 'a wetted powder', formula: 'C8H8O2', hazards: [code] }));
    expect(found && sentence(found)).toContain(`is classed as a desensitised explosive (${code})`);
  });
});

describe('the bottle', () => {
  test.each(['picric acid', 'nitroglycerin', 'RDX', 'potassium picrate'])('%s: nothing is made up from it', (name) => {
    const solute = factsOf({ name, formula: 'C6H3N3O7' }, reference);
    const amount = { by: 'g', figure: entered('wanted', 100, 'g', 'a test') } as const;
    for (const source of [NEAT, solution(50)]) {
      expect(isExplosive(solute, source, reference)).toBe(true);
      const ask = { solute, form: solution(5), amount, source: { facts: solute, form: source }, weaker: null, celsius: 20 };
      const made = makeSolution({ ...ask, form: { kind: 'solution', strength: { value: 5, basis: '% w/w' } } }, reference);
      expect(made.problem?.code).toBe('explosive not made up');
    }
  });

  test('another strength of it is not worked out either', () => {
    const facts = factsOf({ name: 'picric acid', formula: 'C6H3N3O7' }, reference);
    const amount = { by: 'g', figure: entered('wanted', 100, 'g', 'a test') } as const;
    const found = replaceStrength(facts, { form: solution(1), amount }, solution(5), reference);
    for (const one of [found.moles, found.instead.grams, found.instead.millilitres])
      expect(one).toMatchObject({ ok: false, why: { code: 'explosive not made up' } });
  });

  test.each<[Material, Form, string]>([
    [{ name: 'picric acid' }, NEAT, 'H201'],
    [{ name: 'picric acid, wetted' }, solution(70), 'H201'],
    [{ name: 'old bottle', cas: '88-89-1' }, NEAT, 'H201'],
    [{ name: 'nitroglycerin' }, NEAT, 'H200'],
    [{ name: 'picric acid', hazards: ['H301'] }, NEAT, 'H201'],
    [{ name: 'picric acid, wetted', hazards: ['H206', 'H301'] }, solution(70), 'H206'],
  ])('its label can be printed and says so: %j', (material, form, code) => {
    const label = labelElements(material, form, reference);
    expect(label.statements).toContain(code);
    expect(label.signal).toBe('Danger');
    expect(label.pictograms).toContain(code === 'H206' ? 'GHS02' : 'GHS01');
    expect(label.unlisted).toEqual([]);
  });
});

describe('the table', () => {
  test('every number has a true check digit, but for groups', () => {
    for (const { cas } of reference.rows.explosives) if (/^\d/.test(cas)) expect(hasRightCheckDigit(cas), cas).toBe(true);
  });
  test('every row says that it is an explosive, with its pictogram and word', () => {
    for (const row of reference.rows.explosives) {
      expect(row.statements[0], row.cas).toMatch(/^H20[0-3]$/);
      expect(row.pictograms).toContain('GHS01');
      expect(row.signal).toBe('Danger');
      for (const code of row.statements) expect(reference.statement.has(code), `${row.cas} ${code}`).toBe(true);
    }
  });
  test('no name of any other built-in material is taken for one', () => {
    const names = [...reference.rows.materials.map((one) => one.name), ...reference.rows.synonyms.map((one) => one.synonym)];
    const taken = names.filter((name) => explosiveKey([name], reference) !== null);
    expect(taken).toEqual([]);
  });
  test.each([
    'nitrobenzene',
    '4-nitrophenol',
    '2,4-dinitrotoluene',
    'sodium azide',
    'ammonium nitrate',
    'benzotriazole',
    'picoline',
    'tetrazole',
    'urea',
    'guanidine nitrate',
    'magnesium perchlorate',
    'glycerol',
    'erythritol',
  ])('%s is not', (name) => expect(explosiveKey([name], reference)).toBeNull());
});
