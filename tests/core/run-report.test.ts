import { expect, test } from 'vitest';
import { RunReportPaper } from '../../src/core/paper/paper.ts';
import { runReport } from '../../src/core/paper/run-report.ts';
import type { RunEntry } from '../../src/core/run/entry.ts';
import { by, recorded, sheetOf, taken } from './run-fixture.ts';

const sheet = sheetOf();
const entries: readonly RunEntry[] = [
  { kind: 'started', by },
  taken('benzoin', 10.613, { moles: 10.613 / 212.248, bottle: 'B-7', lot: 'N-117', taken: 10.613, text: '+ 10.613 g' }),
  {
    kind: 'correction',
    by: 'CD',
    of: 2,
    reason: 'misread',
    instead: { ...taken('benzoin', 10.163, { moles: 10.163 / 212.248, bottle: 'B-7', lot: 'N-117' }), kind: 'charged' } as never,
  },
  { kind: 'rescaled', by, factor: 1.0163 },
  taken('nitric', 50.5, { unit: 'mL', checkedBy: 'EF', deviation: 'bottle empty' }),
  { kind: 'temperature', by, operation: null, celsius: -5 },
  { kind: 'check', by, operation: null, found: 'pale yellow', passed: true },
  { kind: 'product', by, crop: 1, grams: 8.914, wet: false, assayPercent: 99.2, place: 'dry box', text: '', bottle: 'B-9' },
  { kind: 'file', by, name: 'nmr/benzil-1.fid', sha256: 'a'.repeat(64) },
  { kind: 'finished', by },
];
const start = { plan: 1, revision: 3, route: 1, routeRevision: 1, started: '2027-02-25T09:00:00.000Z', sheet };
const paper = runReport(
  { id: 4, start, entries: recorded(sheet, entries), broken: null },
  { size: 'A4', mark: '.', moment: (iso) => iso.slice(0, 16), time: (iso) => iso.slice(11, 16), cumulativePercent: 61.25 },
);

test('is plain data that is kept and read again the same', () => {
  expect(RunReportPaper.parse(JSON.parse(JSON.stringify(paper)))).toEqual(paper);
});

test('every entry stands in it once, in its order; what was corrected is struck and names its correction', () => {
  expect(paper.entries.map((one) => one.number)).toEqual(entries.map((_one, at) => at + 1));
  expect(paper.entries.filter((one) => one.struck).map((one) => one.words)).toEqual([
    'benzoin: 10.613 g; from B-7, lot N-117; typed “+ 10.613 g”. Corrected by entry 3.',
  ]);
  expect(paper.entries[2]?.words).toContain('Reason: misread.');
  expect(paper.entries[5]?.words).toBe('−5 °C.');
});

test('charges as they count now, with their targets scaled, their bottle, checker and deviation', () => {
  expect(paper.charges.map((one) => [one.material, one.target, one.taken, one.remarks])).toEqual([
    ['benzoin', '10.00 g', ['10.163 g'], []],
    ['nitric', '50.8 mL', ['50.5 mL'], ['checked by EF', 'deviation: bottle empty']],
    ['rinse', '10.00 g', ['not taken'], []],
  ]);
  expect(paper.charges[0]?.from).toEqual(['B-7, N-117']);
  expect(paper.scaled).toContain('1.016');
});

test('what it came to is what the run came to, by hand', () => {
  // 8.914 · 0.992 / (10.163 / 212.248 · 210.232) = 87.84 %
  expect(Object.fromEntries(paper.outcome.map((one) => [one.label, one.value]))).toMatchObject({
    yield: '87.84 %',
    'yield over all steps': '61.25 %',
    'planned yield': '91.00 %',
  });
});

test('a record that was changed says so at its head', () => {
  const broken = runReport(
    { id: 4, start, entries: recorded(sheet, entries), broken: 5 },
    { size: 'Letter', mark: ',', moment: String, time: String, cumulativePercent: null },
  );
  expect(broken.facts.find((one) => one.label === 'record')?.value).toContain('entry 5');
  expect(broken.charges[0]?.taken).toEqual(['10,163 g']);
});
