import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { writeCode } from '../../src/core/code/code.ts';
import { CORRECTED_BY_TEXT, correctedEntry } from '../../src/core/run/correct.ts';
import { RunEntry } from '../../src/core/run/entry.ts';
import { foldRun, whyNotWritten } from '../../src/core/run/state.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { reference } from '../reference/tables.ts';
import { by, sheetOf, taken } from './run-fixture.ts';

const tables = reference.rows.balanceTexts;
const right = (entry: RunEntry, line: string): unknown => {
  const read = correctedEntry(entry, line, tables);
  if (!read.ok) return sentence(read.why);
  return 'instead' in read ? read.instead : read;
};

const product = { kind: 'product', by, crop: 1, grams: 8.914, tare: 10, gross: 18.914, wet: true } as const;
const ENTRIES = {
  started: { kind: 'started', by },
  reading: { kind: 'reading', by, charge: 'benzoin', portion: 1, what: 'net', amount: 9, unit: 'g', text: '9 g' },
  charged: taken('benzoin', 10, { bottle: 'B-1' }),
  temperature: { kind: 'temperature', by, operation: null, celsius: 63 },
  check: { kind: 'check', by, operation: null, found: 'pH 3', passed: false },
  deviation: { kind: 'deviation', by, operation: null, words: 'stirred by hand' },
  rescaled: { kind: 'rescaled', by, factor: 1.01 },
  product: { ...product, assayPercent: null, place: 'fridge', text: '', bottle: 'B-9' },
  recovered: { kind: 'recovered', by, grams: 1.5, wet: true, assayPercent: null, place: '', text: '', bottle: null },
  remark: { kind: 'remark', by, words: 'yelow' },
  file: { kind: 'file', by, name: 'nmr-1.pdf', sha256: 'a'.repeat(64) },
} as const satisfies Record<string, RunEntry>;

describe('what an entry should have said', () => {
  test('every kind that holds something can be put right', () => {
    expect(new Set(Object.keys(ENTRIES))).toEqual(new Set(CORRECTED_BY_TEXT));
    expect(right(ENTRIES.started, 'CD')).toEqual({ kind: 'started', by: 'CD' });
    expect(right(ENTRIES.reading, 'ST,+00009.21  g')).toMatchObject({ amount: 9.21, text: 'ST,+00009.21  g' });
    expect(right(ENTRIES.temperature, '−4,5 °C')).toMatchObject({ celsius: -4.5 });
    expect(right(ENTRIES.check, 'met: pH 6')).toMatchObject({ passed: true, found: 'pH 6' });
    expect(right(ENTRIES.check, 'not met')).toMatchObject({ passed: false, found: 'pH 3' });
    expect(right(ENTRIES.check, 'pH 3.2')).toMatchObject({ passed: false, found: 'pH 3.2' });
    expect(right(ENTRIES.deviation, 'stirred by magnet')).toMatchObject({ words: 'stirred by magnet' });
    expect(right(ENTRIES.rescaled, '1,02')).toMatchObject({ factor: 1.02 });
    expect(right(ENTRIES.remark, 'yellow')).toMatchObject({ words: 'yellow' });
    expect(right(ENTRIES.file, 'nmr-2.pdf')).toEqual({ kind: 'file', by, name: 'nmr-2.pdf' });
    expect(right(ENTRIES.charged, '10.21 g')).toEqual({ ok: true, weighed: { amount: 10.21, unit: 'g', text: '10.21 g' } });
  });

  test('a weighing that came from another bottle, by its code or label', () => {
    expect(right(ENTRIES.charged, 'b-2')).toEqual({ ok: true, label: 'B-2' });
    expect(right(ENTRIES.charged, writeCode({ kind: 'bottle', label: 'C 7' }))).toEqual({ ok: true, label: 'C 7' });
    expect(right(ENTRIES.charged, 'from C 7')).toEqual({ ok: true, label: 'C 7' });
    expect(right(ENTRIES.charged, 'BWB.B-2.00')).toContain('misread');
  });

  test('each part of a product by itself', () => {
    expect(right(ENTRIES.product, 'assay 98,5 %')).toMatchObject({ assayPercent: 98.5, grams: 8.914 });
    expect(right({ ...ENTRIES.product, assayPercent: 98 }, 'no assay')).toMatchObject({ assayPercent: null });
    expect(right(ENTRIES.product, 'dry')).toMatchObject({ wet: false });
    expect(right(ENTRIES.product, 'crop 2')).toMatchObject({ crop: 2 });
    expect(right(ENTRIES.product, 'place acids cabinet')).toMatchObject({ place: 'acids cabinet' });
    // A mass typed anew has no tare any more.
    expect(right(ENTRIES.product, '8.941 g')).not.toHaveProperty('tare');
    expect(right(ENTRIES.recovered, '1.250 g')).toMatchObject({ kind: 'recovered', grams: 1.25 });
    expect(right(ENTRIES.recovered, 'dry')).toMatchObject({ kind: 'recovered', wet: false });
    // Nothing got back is no entry: it is taken out.
    expect(right(ENTRIES.recovered, '0 g')).toBeTypeOf('string');
  });

  test('what is not understood is told, with its condition', () => {
    expect(right(ENTRIES.temperature, 'warm')).toBe('A temperature needs a number of °C, such as 62 °C (got “warm”).');
    expect(right(ENTRIES.product, 'assay 101')).toContain('above 0, up to 100');
    expect(right(ENTRIES.rescaled, '0')).toContain('from 0.001 to 1000');
  });

  test('whatever is typed gives an entry that can be kept, or a reason', () => {
    fc.assert(
      fc.property(fc.constantFrom(...Object.values(ENTRIES)), fc.string({ minLength: 1, maxLength: 400 }), (entry, line) => {
        if (line.trim() === '') return;
        const read = correctedEntry(entry, line, tables);
        if (!read.ok) expect(sentence(read.why)).not.toContain('undefined');
        else if ('instead' in read) expect(RunEntry.safeParse(read.instead).success).toBe(true);
      }),
    );
  });
});

test('a run that was finished too early goes on when that entry is taken out; a start is never', () => {
  const sheet = sheetOf();
  const at = '2027-02-25T09:00:00.000Z';
  const entries = [{ kind: 'started', by } as const, { kind: 'finished', by } as const].map((entry, index) => ({
    number: index + 1,
    at,
    entry,
  }));
  const takeOut = (of: number): RunEntry => ({ kind: 'correction', by, of, reason: 'a crop is still to come', instead: null });
  expect(whyNotWritten(sheet, entries, takeOut(2))).toBeNull();
  expect(whyNotWritten(sheet, entries, takeOut(1))).toMatchObject({ code: 'entry not corrected' });
  expect(foldRun(sheet, [...entries, { number: 3, at, entry: takeOut(2) }]).phase).toBe('running');
});
