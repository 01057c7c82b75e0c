import { expect, test } from 'vitest';
import { RunReportPaper } from '../../src/core/paper/paper.ts';
import { runReport } from '../../src/core/paper/run-report.ts';
import type { RunEntry } from '../../src/core/run/entry.ts';
import { by, charge, recorded, sheetOf, taken } from './run-fixture.ts';

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
    ['benzoin', '10.00\u00a0g', ['10.163 g'], ['corrected by entry 3: misread']],
    ['nitric', '50.8\u00a0mL', ['50.5 mL'], ['deviation: bottle empty']],
    ['rinse', '10.00\u00a0g', ['not taken'], []],
  ]);
  expect(paper.charges[0]?.from).toEqual(['B-7, N-117']);
  expect(paper.charges[1]?.done).toEqual(['09:00 AB', 'checked by EF']);
  expect(paper.facts.find((one) => one.label === 'by')?.value).toBe('AB, CD; second check EF');
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

test('its mass balance is read downwards: charged, of that product as weighed, the difference', () => {
  // 10.163 g of benzoin and 50.5 mL of acid of 1.40 g/mL.
  const said = Object.fromEntries(paper.outcome.map((one) => [one.label, one.value]));
  expect(said['Mass balance: of that product, all crops as weighed']).toBe('8.9140 g');
  expect(said['Mass balance: charged in all']).toBe('80.863 g');
  const weighed = outcomeOf(10.163);
  expect(weighed['Mass balance: charged in all']).toBe('10.163 g');
  expect(weighed['Mass balance: liquors, washings, waste and loss, by difference']).toBe('1.2490 g');
});

test('more product than was charged is said to be wet, or a charge not recorded', () => {
  expect(outcomeOf(5)['Mass balance: more than was charged: wet still, or a charge was not recorded']).toBe('3.9140 g');
});

/** What a run of benzoin alone comes to on paper, with 8.914 g of product. */
function outcomeOf(grams: number): Readonly<Record<string, string>> {
  const alone: readonly RunEntry[] = [
    { kind: 'started', by },
    taken('benzoin', grams, { moles: grams / 212.248 }),
    { kind: 'product', by, crop: 1, grams: 8.914, wet: false, assayPercent: 99.2, place: '', text: '', bottle: 'B-9' },
  ];
  const one = runReport(
    { id: 4, start, entries: recorded(sheet, alone), broken: null },
    { size: 'A4', mark: '.', moment: (iso) => iso, time: (iso) => iso, cumulativePercent: null },
  );
  return Object.fromEntries(one.outcome.map(({ label, value }) => [label, value]));
}

test('a record that was changed says so at its head', () => {
  const broken = runReport(
    { id: 4, start, entries: recorded(sheet, entries), broken: 5 },
    { size: 'Letter', mark: ',', moment: String, time: String, cumulativePercent: null },
  );
  expect(broken.facts.find((one) => one.label === 'record')?.value).toContain('entry 5');
  expect(broken.charges[0]?.taken).toEqual(['10,163 g']);
});

test('where a charge came from stands beside it, also where it came from no bottle', () => {
  const tap = structuredClone(sheet) as typeof sheet;
  for (const entry of tap.sheet.stages.flatMap((stage) => stage.entries)) {
    if (entry.do === 'charge' && entry.id === 'nitric') Object.assign(entry, { sources: [{ words: 'make-up M1', amount: '' }] });
  }
  const context = { size: 'A4', mark: '.', moment: (iso: string) => iso, time: () => '09:00', cumulativePercent: null } as const;
  const run = { id: 4, start: { ...start, sheet: tap }, entries: recorded(tap, entries), broken: null };
  expect(runReport(run, context).charges.map((one) => one.from)).toEqual([['B-7, N-117'], ['make-up M1'], []]);
});

test('an amount outside its range of another strength than planned says what it brings', () => {
  // Planned 50 mL of 15 mmol/mL, 750 mmol; 20 mL of it are 300 mmol, 36 mL of 12.5 mmol/mL of another bottle 450 mmol.
  const share = { bottle: 'N-1', lot: '', place: '', amount: 50, unit: 'mL' } as const;
  const acid = {
    by: 'volume',
    unit: 'mL',
    exact: 50,
    target: 50,
    low: 47.5,
    high: 52.5,
    decimals: 1,
    molesPerUnit: 0.015,
  } as const;
  const of = sheetOf([charge({ id: 'nitric', ...acid, bottles: [share] })]);
  const first = taken('nitric', 20, { unit: 'mL', bottle: 'N-1', moles: 0.3, complete: false });
  const second = taken('nitric', 36, { unit: 'mL', bottle: 'N-2', moles: 0.45, portion: 2 });
  const report = (...all: readonly RunEntry[]) =>
    runReport(
      { id: 4, start: { ...start, sheet: of }, entries: recorded(of, [{ kind: 'started', by }, ...all]), broken: null },
      { size: 'A4', mark: '.', moment: (iso) => iso, time: (iso) => iso, cumulativePercent: null },
    ).charges[0]?.remarks;
  expect(report(first, second)).toEqual([
    'of another strength than planned: what was taken brings 750 mmol, the target was for 750 mmol',
  ]);
  expect(report(first)).toEqual([]);
});

test('a second person has seen what stood there: another amount put in its place since is not checked', () => {
  const checked = { ...sheetOf([charge({ id: 'benzoin' }), charge({ id: 'nitric' })]), secondCheck: true };
  const first = taken('benzoin', 10.613, { checkedBy: 'EF' });
  const put = (net: number): RunEntry => ({
    kind: 'correction',
    by: 'AB',
    of: 2,
    reason: 'misread',
    instead: { ...first, net, kind: 'charged' } as never,
  });
  const done = (more: readonly RunEntry[]): readonly string[] => {
    const written = recorded(checked, [{ kind: 'started', by }, first, ...more]);
    const context = { size: 'A4', mark: '.', moment: String, time: () => '09:00', cumulativePercent: null } as const;
    const record = { id: 4, start: { ...start, sheet: checked }, entries: written, broken: null };
    return runReport(record, context).charges[0]?.done ?? [];
  };
  expect(done([])).toEqual([expect.stringContaining('09:00'), 'checked by EF']);
  expect(done([put(10.163)])).toEqual([expect.stringContaining('09:00'), 'no second check']);
  // Only its reason was added: the amount is the one that was seen.
  expect(done([put(10.613)])).toEqual([expect.stringContaining('09:00'), 'checked by EF']);
});
