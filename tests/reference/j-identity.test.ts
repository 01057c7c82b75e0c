import { describe, expect, test } from 'vitest';
import { casDoubt, checkSum, hasRightCheckDigit } from '../../src/core/matter/cas.ts';
import { readHazardCode } from '../../src/core/matter/hazard-code.ts';
import { materialWords } from '../../src/core/words/material-words.ts';
import { casesOf, type ReferenceCase } from './cases.ts';
import { reference } from './tables.ts';

const cases = casesOf('j');

function strings(value: unknown): readonly string[] {
  if (!Array.isArray(value)) throw new Error('a case needs a list here');
  return value.map(String);
}

/** What we say to one output of a case of this topic. */
function answer({ inputs }: ReferenceCase, output: string): boolean | number {
  const known = (code: string): boolean => readHazardCode(code, reference).ok;
  const cas = /^(\d{2,7}-\d{2}-\d)(?: check digit)?$/.exec(output)?.[1];
  const sum = /^weighted sum ([\d-]+)$/.exec(output)?.[1];
  const inClp = /^(\S+) in the CLP list$/.exec(output)?.[1];
  if (cas !== undefined) return hasRightCheckDigit(cas);
  if (sum !== undefined) return checkSum(sum.replace('-', ''));
  if (inClp !== undefined) {
    const read = readHazardCode(inClp, reference);
    return read.ok && read.row.list !== 'UN';
  }
  if (output === 'all invalid')
    return strings(inputs.numbers ?? inputs.codes).every((one) => !hasRightCheckDigit(one) && !known(one));
  if (output === 'all of the valid set known') return strings(inputs.valid).every(known);
  if (output === 'any of the invalid set known') return strings(inputs.invalid).some(known);
  if (output === 'valid') return strings(inputs.codes).every(known);
  throw new Error(`no answer is known for “${output}”`);
}

describe('topic j: numbers and codes that identify', () => {
  test.each(cases.map((one) => [one.id, one.title, one] as const))('%s %s', (_id, _title, one) => {
    for (const output of one.outputs) {
      const given = answer(one, output.name);
      if (typeof output.value === 'number') expect(Math.abs(Number(given) - output.value)).toBeLessThanOrEqual(output.tolAbs);
      else expect([output.name, given]).toEqual([output.name, output.value]);
    }
  });

  test('there are cases', () => expect(cases.length).toBeGreaterThanOrEqual(7));
});

describe('a right number of the wrong material', () => {
  const doubt = (name: string, cas: string, formula?: string): string | null => {
    const found = casDoubt({ name, cas, ...(formula === undefined ? {} : { formula }) }, reference);
    return found && materialWords.casDoubt(found);
  };

  test('case j04: the number printed for p-aminobenzoic acid is its isomer’s', () => {
    const one = cases.find((found) => found.id === 'j04');
    expect(doubt(String(one?.inputs.name), String(one?.inputs.printed))).toBe(
      'this CAS number belongs to 2-aminobenzoic acid; that of 4-aminobenzoic acid is 150-13-0',
    );
  });

  test.each([
    ['4-aminobenzoic acid', '118-92-3', 'C7H7NO2'],
    ['PABA', '118-92-3', undefined],
    ['Anthranilic  ACID', '150-13-0', undefined],
    ['oxalic acid', '6153-56-6', undefined],
    ['o-xylene', '106-42-3', 'C8H10'],
    ['sodium sulphate', '7757-83-7', 'Na2SO4'],
  ])('%s with %s is doubted', (name, cas, formula) => expect(doubt(name, cas, formula)).toContain('belongs to'));

  test('a formula that the number’s owner does not have is doubted, too', () => {
    expect(doubt('my solvent', '64-17-5', 'C3H8O')).toBe('this CAS number belongs to ethanol, C2H6O; the formula says C3H8O');
  });

  test.each([
    ['p-aminobenzoic acid', '150-13-0', 'C7H7NO2'],
    ['Sulphuric acid', '7664-93-9', 'H2SO4'],
    ['a name nobody knows', '118-92-3', undefined],
    ['oxalic acid', '6153-56-6', 'C2H2O4·2H2O'],
    ['phosphorus pentoxide', '1314-56-3', 'P4O10'],
    ['hydrochloric acid', '7647-01-0', 'HCl'],
    ['benzocaine', '123-45-5', undefined],
    ['ethanol', '64-17-5', 'not a formula'],
  ])('%s with %s (%s) is not', (name, cas, formula) => expect(doubt(name, cas, formula)).toBeNull());
});

describe('hazard statements', () => {
  const said = (code: string): string => {
    const read = readHazardCode(code, reference);
    return read.ok ? `${read.row.code} ${read.row.list}` : read.words;
  };

  test.each([
    ['H225', 'H225 CLP and UN'],
    ['h225', 'H225 CLP and UN'],
    ['H300 + H310', 'H300+H310 CLP and UN'],
    ['H360FD', 'H360FD CLP'],
    ['EUH066', 'EUH066 CLP'],
    ['euh066', 'EUH066 CLP'],
    ['H227', 'H227 UN'],
    ['H315+H320', 'H315+H320 UN'],
    ['H999', 'H999 is neither in the CLP list'],
    ['H226x', 'H226x is neither in the CLP list'],
    ['H360X', 'H360X is neither in the CLP list'],
    ['EUH225', 'EUH225 is neither in the CLP list'],
    ['H22', 'a hazard statement such as'],
    ['R11', 'a hazard statement such as'],
    ['H310+H300', 'these statements are combined as H300+H310'],
    ['H302+H315', 'H302+H315 is no combined statement: give H302 and H315 apart'],
    ['P301+P999', 'P999 is neither in the CLP list'],
  ])('%s: %s', (code, words) => expect(said(code).slice(0, words.length)).toBe(words));

  test('every statement of a material and every concentration limit is one of the list', () => {
    const codes = [
      ...reference.rows.hazards.flatMap((row) => row.statements),
      ...reference.rows.hazardLimits.map((row) => row.statement),
    ];
    expect(codes.length).toBeGreaterThan(700);
    expect([...new Set(codes)].filter((code) => !reference.statementRow.get(code)?.list.includes('CLP'))).toEqual([]);
  });

  test('the parts of every combined hazard statement exist', () => {
    const combined = reference.rows.statements.filter((row) => row.code.startsWith('H') && row.code.includes('+'));
    expect(combined.length).toBeGreaterThan(12);
    for (const { code } of combined)
      for (const part of code.split('+')) expect([code, part, reference.statement.has(part)]).toEqual([code, part, true]);
  });
});
