import { describe, expect, test } from 'vitest';
import { readBalanceText } from '../../src/core/run/balance-text.ts';
import { correctedEntry } from '../../src/core/run/correct.ts';
import type { RunEntry } from '../../src/core/run/entry.ts';
import { nextAct } from '../../src/core/run/next-act.ts';
import { runOutcome } from '../../src/core/run/outcome.ts';
import { foldRun, READ_FIRST, whyNotWritten } from '../../src/core/run/state.ts';
import { runHistory } from '../../src/core/run/history.ts';
import { runReport } from '../../src/core/paper/run-report.ts';
import { scaleCaution } from '../../src/core/caution/scale-jump.ts';
import { entryText } from '../../src/core/words/run-entry-words.ts';
import { reference } from '../reference/tables.ts';
import { by, charge, recorded, sheetOf, taken } from './run-fixture.ts';

const sheet = sheetOf([
  charge({ id: 'benzoin', isBasis: true, low: null, high: null, molesPerUnit: 1 / 212.248 }),
  charge({ id: 'nitric', portions: 2 }),
]);
const basis = (net: number): RunEntry => taken('benzoin', net, { moles: net / 212.248 });
const began: readonly RunEntry[] = [
  { kind: 'started', by },
  { kind: 'confirmed', by, operation: READ_FIRST },
];
const spilled = (of: number): RunEntry => ({
  kind: 'correction',
  by,
  of,
  reason: 'the flask fell',
  instead: null,
  spilled: true,
});
const record = (...entries: readonly RunEntry[]) => recorded(sheet, [...began, ...entries]);
const part = (portion: number): RunEntry => taken('nitric', 5, { portion, complete: portion === 2 });

describe('what was spilled', () => {
  test('does not count as charged, and is asked for again', () => {
    const entries = record(basis(10), spilled(3));
    const state = foldRun(sheet, entries);
    expect(state.charges[0]).toMatchObject({ complete: false, parts: [] });
    expect(nextAct(sheet, state)).toMatchObject({ kind: 'weigh', entry: { id: 'benzoin' } });
    // 10.2 g weighed afterwards is the whole basis: 10.2 / 212.248 mol, by hand 0.048057 mol.
    const again = foldRun(sheet, record(basis(10), spilled(3), basis(10.2)));
    const { basisMoles } = runOutcome(sheet, again);
    expect(basisMoles.ok && basisMoles.figure.value).toBeCloseTo(0.0480569899, 9);
  });

  test('a first portion spilled after the last was taken is asked for again', () => {
    const after = record(basis(10), part(1), part(2), spilled(4));
    expect(foldRun(sheet, after).charges[1]).toMatchObject({ complete: false, net: 5 });
    const whole = record(basis(10), part(1), part(2), spilled(4), part(2));
    expect(foldRun(sheet, whole).charges[1]).toMatchObject({ complete: true, net: 10 });
  });

  test('only what was weighed can be spilled, and nothing stands in its place', () => {
    const entries = record(basis(10));
    const why = (entry: RunEntry): string | undefined => whyNotWritten(sheet, entries, entry)?.code;
    expect(why(spilled(3))).toBeUndefined();
    expect(why(spilled(2))).toBe('entry not corrected');
    expect(why({ ...spilled(3), instead: basis(9) } as RunEntry)).toBe('entry not corrected');
  });

  test('is typed as a word where an entry is put right, and no balance types it', () => {
    const tables = reference.rows.balanceTexts;
    for (const text of ['spilled', 'Spilt', 'lost']) {
      expect(correctedEntry(basis(10), text, tables)).toEqual({ ok: true, spilled: true });
      expect(readBalanceText(text, 'g', tables).ok).toBe(false);
    }
  });

  test('says so in the record, and beside its charge in the report', () => {
    expect(entryText(spilled(3), sheet, '.')).toBe(
      'Entry 3 was spilled: it is used up and does not count as charged. Reason: the flask fell.',
    );
    const start = { plan: 1, revision: 1, route: 1, routeRevision: 1, started: '2027-02-25T09:00:00.000Z', sheet };
    const context = {
      size: 'A4',
      mark: '.',
      moment: (iso: string) => iso,
      time: () => '09:00',
      cumulativePercent: null,
    } as const;
    const entries = record(basis(10), spilled(3), basis(10.2));
    const report = runReport({ id: 1, start, entries, broken: null }, context);
    expect(report.charges[0]).toMatchObject({ taken: ['10.2 g'], remarks: ['10 g spilled, entry 4: the flask fell'] });
  });
});

describe('a run that ends before its last operation', () => {
  const end: RunEntry = { kind: 'finished', by, why: 'the flask broke' };
  const start = { plan: 1, revision: 1, route: 1, routeRevision: 1, started: '2027-02-25T09:00:00.000Z', sheet };
  const rows = (entries: readonly RunEntry[]) => runHistory([{ id: 7, start, entries: record(...entries) }]);

  test('is over, says why, and has no yield to learn from', () => {
    expect(entryText(end, sheet, '.')).toBe('Run ended before its last operation: the flask broke.');
    const [row] = rows([basis(10), end]);
    expect(row).toMatchObject({ phase: 'finished', early: true, yieldPercent: null });
    expect(rows([basis(10), { kind: 'finished', by }])[0]).toMatchObject({ early: false });
  });

  test('is no run whose scale is known to go', () => {
    const step = { id: 'oxidation', title: 'Oxidation', batches: { basisGrams: { value: 500 } } } as never;
    const [row] = rows([basis(10), end]);
    expect(scaleCaution(step, row ? [row] : [])?.code).toBe('scale: no run recorded');
  });

  test('takes still what was saved of it', () => {
    const entries = record(basis(10), end);
    const product: RunEntry = {
      kind: 'product',
      by,
      crop: 1,
      grams: 2,
      wet: false,
      assayPercent: null,
      place: '',
      text: '',
      bottle: null,
    };
    expect(whyNotWritten(sheet, entries, product)).toBeNull();
    expect(
      whyNotWritten(sheet, entries, { kind: 'correction', by, of: entries.length, reason: 'it goes on', instead: null }),
    ).toBeNull();
  });
});
