import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bottleState, STATE_KINDS } from '../../src/core/shelf/bottle-state.ts';
import { emptyColumns, putEntry, putHolding, type ShelfColumns, type ShelfEntry } from '../../src/core/shelf/find/columns.ts';
import { findBottles, type Question } from '../../src/core/shelf/find/find-bottles.ts';
import { hazardGroups } from '../../src/core/shelf/find/hazard-groups.ts';
import { SORTS } from '../../src/core/shelf/find/orders.ts';
import { foldText, orderKey } from '../../src/core/shelf/find/search-text.ts';

const TODAY = '2027-02-25';
const MATERIALS = ['ethanol', 'nitric acid', 'acetic acid', '2-bromo-5-nitrotoluene', 'Äpfelsäure'];
const PLACES = ['Shelf C2', 'Shelf C10', 'cold room', ''];

const entry = (row: number) =>
  fc.record({
    row: fc.constant(row),
    code: fc.constant(`B-${row}`),
    lot: fc.constantFrom('', 'L-12', 'l-1', 'N 117'),
    place: fc.constantFrom(...PLACES),
    supplier: fc.constantFrom('', 'north store'),
    material: fc.integer({ min: 1, max: MATERIALS.length }),
    form: fc.constantFrom('{"kind":"neat"}', '{"kind":"unknown"}'),
    known: fc.constant(true),
    left: fc.integer({ min: 0, max: 3 }),
    heldBack: fc.boolean(),
    useBy: fc.constantFrom(null, '2027-02-24', '2027-02-25', '2027-03-27', '2027-03-28', '1969-12-31'),
  });
const shelf = fc
  .integer({ min: 0, max: 25 })
  .chain((count) => fc.tuple(...Array.from({ length: count }, (_none, at) => entry(at + 1))))
  .map((entries) => entries.map((one) => ({ ...one, known: !one.form.includes('unknown') })));

function columnsOf(entries: readonly ShelfEntry[]): ShelfColumns {
  const columns = emptyColumns();
  MATERIALS.forEach((name, at) => putHolding(columns, at + 1, { name }));
  for (const one of entries) putEntry(columns, one);
  return columns;
}

const question: fc.Arbitrary<Question> = fc.record({
  search: fc.constantFrom('', 'acid', 'a', 'c2', 'shelf c', 'b-1', 'l-1', 'nitric shelf', 'apfel', 'no such thing', '2bromo'),
  filter: fc.record(
    { place: fc.constantFrom(...PLACES, 'elsewhere'), state: fc.constantFrom(...STATE_KINDS) },
    { requiredKeys: [] },
  ),
  sort: fc.constantFrom(...SORTS),
  down: fc.boolean(),
  today: fc.constant(TODAY),
});

const knowing = { meant: () => ({ cas: [], names: [] }), hazards: () => new Set<never>() };

/** The same said bottle by bottle. */
function naively(entries: readonly ShelfEntry[], { search, filter, sort, down }: Question): readonly number[] {
  const name = (one: ShelfEntry): string => MATERIALS[one.material - 1] ?? '';
  const found = entries.filter((one) => {
    const texts = [name(one), one.code, one.lot, one.place, one.supplier].map(foldText);
    const plain = foldText(name(one)).replaceAll(/[^a-z0-9]/g, '');
    const all = foldText(search)
      .split(' ')
      .filter(Boolean)
      .every((word) => {
        const letters = word.replaceAll(/[^a-z0-9]/g, '');
        return texts.some((text) => text.includes(word)) || (letters.length > 2 && plain.includes(letters));
      });
    const form = JSON.parse(one.form) as { kind: 'neat' };
    const state = bottleState({ ...one, form }, TODAY).kind;
    return all && (filter.place ?? one.place) === one.place && (filter.state ?? state) === state;
  });
  const key = (one: ShelfEntry): string | number =>
    ({ name: orderKey(name(one)), place: orderKey(one.place), useBy: one.useBy ?? '', left: one.left })[sort];
  const before = (a: ShelfEntry, b: ShelfEntry): number => (key(a) < key(b) ? -1 : key(a) > key(b) ? 1 : a.row - b.row);
  const turned = (list: readonly ShelfEntry[]): readonly ShelfEntry[] => (down ? list.toReversed() : list);
  const sorted = found.toSorted(before);
  if (sort !== 'useBy') return turned(sorted).map((one) => one.row);
  return [...turned(sorted.filter((one) => one.useBy !== null)), ...turned(sorted.filter((one) => one.useBy === null))].map(
    (one) => one.row,
  );
}

const answerOf = (columns: ShelfColumns, asked: Question): readonly number[] =>
  [...findBottles(columns, asked, knowing).positions].map((position) => columns.row[position] ?? 0);

describe('finding bottles', () => {
  test('gives what looking at each bottle gives, in every order, with every filter', () => {
    fc.assert(
      fc.property(shelf, question, (entries, asked) => {
        expect(answerOf(columnsOf(entries), asked)).toEqual(naively(entries, asked));
      }),
      { numRuns: 400 },
    );
  });

  test('follows every change of a bottle', () => {
    fc.assert(
      fc.property(
        shelf,
        fc.array(fc.integer({ min: 1, max: 25 }).chain(entry), { maxLength: 8 }),
        question,
        (entries, later, asked) => {
          const columns = columnsOf(entries);
          const now = new Map(entries.map((one) => [one.row, one]));
          for (const one of later) {
            if (!now.has(one.row)) continue;
            const changed = { ...one, known: !one.form.includes('unknown') };
            now.set(one.row, changed);
            putEntry(columns, changed);
            expect(answerOf(columns, asked)).toEqual(naively([...now.values()], asked));
          }
        },
      ),
      { numRuns: 200 },
    );
  });

  test('a mixture by its plural and what it is of find each other: hexanes and hexane, xylenes and xylene', () => {
    const columns = emptyColumns();
    ['hexane', 'hexanes', 'Xylenes', 'n-Hexane', 'heptane', 'styrene oxide'].forEach((name, at) => {
      putHolding(columns, at + 1, { name });
      const bare = {
        lot: '',
        place: '',
        supplier: '',
        form: '{"kind":"neat"}',
        known: true,
        left: 1,
        heldBack: false,
        useBy: null,
      };
      putEntry(columns, { ...bare, row: at + 1, code: `B-${at + 1}`, material: at + 1 });
    });
    const found = (search: string) => {
      const asked = { search, filter: {}, sort: 'name', down: false, today: TODAY } as const;
      return [...findBottles(columns, asked as never, knowing).positions].map((at) => columns.row[at] ?? 0).sort();
    };
    expect(found('hexanes')).toEqual([1, 2, 4]);
    expect(found('hexane')).toEqual([1, 2, 4]);
    expect(found('xylene')).toEqual([3]);
    expect(found('XYLENES')).toEqual([3]);
    expect(found('heptanes')).toEqual([5]);
  });

  test('a bottle of a material that is not known is refused', () => {
    const [one] = fc.sample(entry(1), 1);
    expect(() => putEntry(emptyColumns(), { ...(one as ShelfEntry), known: true })).toThrow('a bottle needs its material');
  });
});

describe('hazard groups', () => {
  test.each([
    [
      ['H225', 'H319', 'H336'],
      ['flammable', 'harmful or irritant'],
    ],
    [
      ['H260', 'H314', 'EUH014'],
      ['flammable', 'reacts with water', 'corrosive'],
    ],
    [
      ['H272', 'H314', 'EUH071'],
      ['oxidising', 'corrosive'],
    ],
    [
      ['H350', 'H340', 'H301', 'H410'],
      ['long-term health', 'acutely toxic', 'environment'],
    ],
    [[], []],
  ])('%j', (codes, groups) => {
    expect([...hazardGroups(codes)].sort()).toEqual([...groups].sort());
  });

  test('what is not known is a group of its own, never none', () => {
    expect([...hazardGroups(null)]).toEqual(['no entry']);
  });
});
