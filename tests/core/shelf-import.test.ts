import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { OWN_HEADINGS } from '../../src/core/shelf/import/fields.ts';
import { guessHeadingRow, guessMapping, isOwnTable, unitsOf } from '../../src/core/shelf/import/guess.ts';
import { decimalText, listText, readDateCell, readList, readNumberCell } from '../../src/core/shelf/import/read-cells.ts';
import { columnName, shownCell } from '../../src/core/shelf/import/table.ts';

describe('what a heading says', () => {
  test.each([
    ['CAS-Nr.', { field: 'cas' }],
    ['Chemical Name', { field: 'name' }],
    ['Menge [mL]', { field: 'left', unit: 'mL' }],
    ['amount (kg)', { field: 'left', unit: 'kg' }],
    ['quantity in g', { field: 'left', unit: 'g' }],
    ['Concentration, mol/L', { field: 'strength', unit: 'mol/L' }],
    ['Conc. (M)', { field: 'strength', unit: 'mol/L' }],
    ['Purity (%)', { field: 'assay' }],
    // A percentage without its basis is a question, never a guess.
    ['concentration (%)', { field: 'strength' }],
    ['Verfallsdatum', { field: 'useBy' }],
    ['Prix', { field: 'price' }],
    ['Lot/Batch', { field: 'lot' }],
    ['Batch no. / Lot no.', { field: 'lot' }],
    ['Location or room', { field: 'place' }],
    ['Name/CAS', null],
    ['Density (g/mL)', { field: 'density' }],
    ['something else', null],
    ['', null],
  ] as const)('%s', (heading, use) => expect(guessMapping([heading])).toEqual([use]));

  test('our own headings are told from all others, and each of them is known', () => {
    expect(isOwnTable(OWN_HEADINGS)).toBe(true);
    expect(isOwnTable([...OWN_HEADINGS, '', ''])).toBe(true);
    expect(isOwnTable(OWN_HEADINGS.slice(1))).toBe(false);
    expect(isOwnTable([...OWN_HEADINGS, 'x'])).toBe(false);
    expect(guessMapping(OWN_HEADINGS).every((use, at) => use !== null && use.unit === undefined && at >= 0)).toBe(true);
    expect(new Set(guessMapping(OWN_HEADINGS).map((use) => use?.field)).size).toBe(OWN_HEADINGS.length);
  });

  test('one use for one column; the headings may stand below a title', () => {
    expect(guessMapping(['name', 'name', 'CAS'])).toEqual([{ field: 'name' }, null, { field: 'cas' }]);
    expect(guessHeadingRow([['Stock of room 3'], [], ['Substance', 'CAS', 'Amount'], ['benzil', '', '']])).toBe(2);
    expect(guessHeadingRow([['x'], ['y']])).toBe(0);
  });

  test('a unit is one the field takes; equivalents need more than a unit', () => {
    expect(unitsOf('left')).toContain('mL');
    expect(unitsOf('left')).not.toContain('mol');
    expect(unitsOf('strength')).not.toContain('eq/L');
    expect(unitsOf('place')).toEqual([]);
  });
});

describe('cells', () => {
  const use = { field: 'density' } as const;
  const noUnit = /(?!)/;

  test.each([
    ['2027-03-04', undefined, '2027-03-04'],
    ['2027-03-04T00:00:00', undefined, '2027-03-04'],
    ['4.3.2027', undefined, '2027-03-04'],
    ['04 Mar 2027', undefined, '2027-03-04'],
    ['4-March-2027', undefined, '2027-03-04'],
    ['31/12/2027', undefined, '2027-12-31'],
    ['12/31/2027', undefined, '2027-12-31'],
    ['05/05/2027', undefined, '2027-05-05'],
    ['03/04/2027', 'day', '2027-04-03'],
    ['03/04/2027', 'month', '2027-03-04'],
    ['03/04/2027', undefined, null],
    ['31/12/2027', 'month', null],
    ['2027-02-29', undefined, null],
    ['2028-02-29', undefined, '2028-02-29'],
    ['03/27', undefined, null],
    ['4.3.27', undefined, null],
    ['soon', undefined, null],
  ] as const)('the day %s, %s first', (text, dates, day) => {
    const read = readDateCell(text, { field: 'useBy', dates });
    expect(read.ok ? read.value : null).toBe(day);
  });

  test.each([
    ['1,5', undefined, false, 1.5],
    ['1,234', undefined, false, null],
    ['1.234', undefined, false, 1.234],
    ['1.234', undefined, true, null],
    ['0.234', undefined, true, 0.234],
    ['1.234,5', 'comma', true, 1234.5],
    ['1.234', 'comma', true, 1234],
    ['1,234', 'comma', true, 1.234],
    ['12.5', 'comma', true, null],
    ['1,234.5', 'point', false, 1234.5],
    ['1,234', 'point', false, 1234],
    ['12,5', 'point', false, null],
    ['1,23,456', 'point', false, null],
    ['\u22125', undefined, false, null],
    ['5\u00a0', undefined, false, 5],
    ['0x10', undefined, false, null],
    ['Infinity', undefined, false, null],
    ['1"2', undefined, false, null],
    ['', 'point', false, null],
  ] as const)('the number %s, decimal %s, commas elsewhere %s', (text, decimal, commas, value) => {
    const read = readNumberCell(text, { ...use, decimal }, commas, noUnit);
    expect(read.ok ? read.value : null).toBe(value);
  });

  test('a number is written without an exponent and is the very same when it is read', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e300, max: 1e300, noNaN: true }), (value) => {
        const text = decimalText(value);
        expect(text).toMatch(/^-?\d+(\.\d+)?$/);
        expect(Number(text)).toBe(value + 0);
      }),
    );
  });

  test('a list comes back as it was, whatever its entries are', () => {
    const entry = fc.oneof(fc.constantFrom('none', ';', '\\', '; ', ' a', 'a ', String.raw`\;`), fc.string({ minLength: 1 }));
    fc.assert(
      fc.property(fc.array(entry), (entries) => {
        expect(readList(listText(entries), true)).toEqual(entries);
      }),
    );
    expect(readList(' a ;b;; c', false)).toEqual(['a', 'b', 'c']);
    expect(readList(' None ', false)).toEqual([]);
  });

  test('columns are called as spreadsheets call them; long cells are shown shortened', () => {
    expect([0, 25, 26, 701, 702].map(columnName)).toEqual(['A', 'Z', 'AA', 'ZZ', 'AAA']);
    expect(shownCell('x'.repeat(100))).toHaveLength(60);
  });
});
