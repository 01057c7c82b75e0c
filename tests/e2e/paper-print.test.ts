import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { writeCode } from '../../src/core/code/code.ts';
import { buyingPaper } from '../../src/core/paper/buying-list.ts';
import type { ChosenBatch } from '../../src/core/paper/context.ts';
import { fetchPaper } from '../../src/core/paper/fetch-list.ts';
import type { Paper } from '../../src/core/paper/paper.ts';
import { plan } from '../../src/core/plan/plan.ts';
import { routeSummary } from '../../src/core/paper/route-summary.ts';
import { sessionPapers } from '../../src/core/paper/session-papers.ts';
import { weighingPaper } from '../../src/core/paper/weighing-sheet.ts';
import { runReport } from '../../src/core/paper/run-report.ts';
import { dayAndTime } from '../../src/renderer/parts/day-text.ts';
import { by, charge, sheetOf, taken } from '../core/run-fixture.ts';
import { everyBatch, hardContext, hardPlan } from '../core/hard-fixture.ts';
import { context, DEMO, manyCharges } from '../core/paper-fixture.ts';
import { codeIn, partOf, pdfPictures } from './pdf-picture.ts';

/** The report of a run in which every charge was weighed once. */
function reportOf(count: number, size: 'A4' | 'Letter'): Paper {
  const ids = Array.from({ length: count }, (_none, at) => `material-${at + 1}x`);
  const sheet = sheetOf(ids.map((id, at) => charge({ id, isBasis: at === 0 })));
  const entries = ids.map((id, at) =>
    taken(id, at + 1.5, { text: `${at + 1}.5 g`, bottle: `B-${at + 1}`, lot: `LOT${at + 1}`, moles: 0.01 }),
  );
  const start = { plan: 1, revision: 1, route: 1, routeRevision: 1, started: '2027-02-25T09:00:00.000Z', sheet };
  const written = [{ kind: 'started', by } as const, ...entries].map((entry, at) => {
    return { number: at + 1, at: '2027-02-25T09:00:00.000Z', entry };
  });
  const record = { id: 1, start, entries: written, broken: null };
  return runReport(record, { size, mark: '.', moment: dayAndTime, time: () => '09:00', cumulativePercent: null });
}

interface Printed {
  readonly id: number;
  readonly file: string;
  readonly pages: readonly string[];
  readonly size: string;
}

const ABOUT = { name: 'Thursday', date: '2027-02-25', starts: '09:00', hours: 8, batches: [] };
/** What the papers of a session need besides: nothing of it is made up. */
const SESSION = { input: hardPlan(8).input, day: (iso: string) => iso };

// A lost line is a safety matter: papers are issued, printed by the program itself and read back with poppler.
const root = join(import.meta.dirname, '../..');
const program = join(root, 'out/main/browser.js');

describe('papers printed by the program', () => {
  const folder = mkdtempSync(join(tmpdir(), 'backweigh-print-'));
  let host: ChildProcess;
  let address = '';
  let token = '';

  beforeAll(async () => {
    const env = { ...process.env, BACKWEIGH_DATA: join(folder, 'data'), BACKWEIGH_WINDOW: 'none' };
    host = spawn(process.execPath, [program], { env, stdio: ['ignore', 'pipe', 'inherit'] });
    const line = await new Promise<string>((found, failed) => {
      let said = '';
      host.stdout?.on('data', (part: Buffer) => {
        said += part.toString();
        const [url] = /http:\S+/.exec(said) ?? [];
        if (url !== undefined) found(url);
      });
      host.on('exit', () => failed(new Error(`the program ended: ${said}`)));
    });
    const url = new URL(line);
    address = url.origin;
    token = new URLSearchParams(url.hash.slice(1)).get('token') ?? '';
  });
  afterAll(() => {
    host?.kill();
    rmSync(folder, { recursive: true, force: true });
  });

  async function call<T>(name: string, input: unknown): Promise<T> {
    const response = await fetch(`${address}/call/${name}`, {
      method: 'POST',
      headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
      body: JSON.stringify(input),
    });
    const answer = (await response.json()) as { ok: boolean; value: T; detail: string };
    if (!answer.ok) throw new Error(answer.detail);
    return answer.value;
  }

  /** Issues a paper from the ready example and gives back its printed pages as text, one string a page. */
  async function printed(paper: Paper): Promise<Printed> {
    const [plan] = await call<{ id: number }[]>('plans.list', {});
    if (!plan) throw new Error('the ready example has a plan');
    const { state } = await call<{ state: number }>('plans.read', { id: plan.id });
    const issue = { planId: plan.id, state, kind: paper.kind, title: paper.title, paper };
    const { id } = await call<{ id: number }>('papers.issue', issue);
    const { base64 } = await call<{ base64: string }>('papers.pdf', { id });
    const file = join(folder, `${id}.pdf`);
    writeFileSync(file, Buffer.from(base64, 'base64'));
    const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8', maxBuffer: 50_000_000 });
    const size = /Page size:\s*(.*)/.exec(execFileSync('pdfinfo', [file], { encoding: 'utf8' }))?.[1] ?? '';
    const pages = text.split('\f').slice(0, -1);
    return { id, file, size, pages: pages.map((page) => page.replaceAll('\u00a0', ' ').replaceAll('μ', 'µ')) };
  }

  const pageOf = (pages: readonly string[], wanted: string | RegExp): number[] =>
    pages.flatMap((page, at) => [...page.matchAll(new RegExp(wanted, 'g'))].map(() => at));

  /** From the first row of charges on: the head names materials too, among their hazards. */
  const withoutHead = (pages: readonly string[]): readonly string[] => {
    const first = pages.findIndex((page) => /take from/.test(page));
    return pages.map((page, at) => (at < first ? '' : at > first ? page : page.slice(page.search(/take from/))));
  };

  test.each([
    [1, 'A4'],
    [40, 'A4'],
    [120, 'A4'],
    [120, 'Letter'],
    [500, 'Letter'],
  ] as const)('%i charges on %s: every row once, in order, whole, with its caution', async (count, size) => {
    const secondCheck = size === 'Letter';
    const { pages, size: printedSize } = await printed(
      weighingPaper([{ step: 'many', batch: 1 }], context(manyCharges(count), { size, secondCheck })),
    );
    expect(printedSize).toContain(size === 'A4' ? 'A4' : 'letter');
    const at = Array.from({ length: count }, (_, index) => pageOf(withoutHead(pages), `material-${index + 1}x`));
    expect(at.filter((found) => found.length !== 1)).toEqual([]);
    const order = at.map(([page]) => page ?? -1);
    expect(order).toEqual([...order].sort((a, b) => a - b));
    for (let index = 0; index < count; index += 1) {
      // The lot is lower in the row than the name: both on one page means that the row was not cut.
      expect(pageOf(pages, `LOT${index + 1}\\b`)).toEqual(at[index]);
      if (index % 5 === 2) expect(pageOf(pages, `caution belonging to charge ${index + 1} only`)).toEqual(at[index]);
    }
    pages.forEach((page, index) => {
      expect(page).toContain(`page ${index + 1} of ${pages.length}`);
      expect(page).toMatch(/Spring practicals · revision \d+/);
      expect(page).toContain(`${count} of ${count} ${count === 1 ? 'charge' : 'charges'} on this sheet`);
    });
    const withRows = withoutHead(pages).filter((page) => page.includes('material-'));
    for (const page of withRows) expect(page).toMatch(/tare\s+gross\s+net/);
  });

  test('a session: one sheet a batch, each beginning a page of its own, limits with their operations', async () => {
    const chosen: ChosenBatch[] = [1, 2].map((batch) => ({ step: 'benzil', batch }));
    const { pages } = await printed(weighingPaper([{ step: 'benzoin', batch: 1 }, ...chosen], context(DEMO)));
    const starts = ['1-1', '2-1', '2-2'].map((sheet) => pages.findIndex((page) => page.includes(`sheet ${sheet}\n`)));
    expect(new Set(starts).size).toBe(3);
    expect(pageOf(pages, 'Limit 105 °C')).toEqual(pageOf(pages, 'Hold until no brown gas is left'));
    expect(pageOf(pages, 'Limit 105 °C')).toHaveLength(2);
    for (const page of pages) expect(page).toMatch(/^\s*\d · .* · batch \d of \d · sheet \d-\d\n/);
    // The last line of a sheet never stands on a page of its own.
    for (const at of pageOf(pages, 'End of sheet')) expect(pages[at]).toContain('remarks');
    expect(pageOf(pages, 'no harmonised entry here: read the safety sheet').length).toBeGreaterThan(0);
  });

  test.each([
    [1, 'A4'],
    [60, 'A4'],
    [500, 'Letter'],
  ] as const)('the report of a run of %i charges on %s: every charge and every entry once, in order', async (count, size) => {
    const { pages, size: printedSize } = await printed(reportOf(count, size));
    expect(printedSize).toContain(size === 'A4' ? 'A4' : 'letter');
    for (let index = 0; index < count; index += 1) {
      // Once among the charges with its lot, once among the entries with what the balance typed.
      expect(pageOf(pages, `LOT${index + 1}\\b`), `charge ${index + 1}`).toHaveLength(2);
      expect(pageOf(pages, `typed “${index + 1}\\.5 g”`), `entry ${index + 1}`).toHaveLength(1);
    }
    const numbers = pages.flatMap((page) =>
      [...page.matchAll(/^\s*(\d+)\s+\d+ \w+ 20\d\d, \d\d:\d\d\s+AB\s/gm)].map((found) => Number(found[1])),
    );
    expect(numbers).toEqual(Array.from({ length: count + 1 }, (_none, at) => at + 1));
    pages.forEach((page, index) => {
      expect(page).toContain(`page ${index + 1} of ${pages.length}`);
      expect(page).toContain(`${count + 1} of ${count + 1} entries`);
    });
  });

  test.each([
    [3, 'A4'],
    [137, 'Letter'],
  ] as const)('the papers of a session with %i charges on %s: every charge once on its sheet', async (count, size) => {
    const own = context(manyCharges(count), { size });
    const { pages } = await printed(sessionPapers(ABOUT, [{ step: 'many', batch: 1 }], { ...own, ...SESSION }));
    const sheets = pages.filter((page) => /sheet 1-1 · \d+ of \d+ charges/.test(page));
    const rows = withoutHead(sheets);
    const at = Array.from({ length: count }, (_, index) => pageOf(rows, `material-${index + 1}x`));
    expect(at.filter((found) => found.length !== 1)).toEqual([]);
    const lots = Array.from({ length: count }, (_, index) => pageOf(rows, `LOT${index + 1}\\b`));
    expect(lots).toEqual(at);
    expect(pages.map((page, index) => page.includes(`page ${index + 1} of ${pages.length}`))).toEqual(pages.map(() => true));
  });

  const hard = hardPlan(8);
  const hardBatches = everyBatch(hard.result);
  const hardSession = hardContext(hard);
  const twice: readonly (readonly [string, () => Paper])[] = [
    ['session papers', () => sessionPapers(ABOUT, hardBatches, hardSession)],
    ['buying list', () => buyingPaper(hardSession)],
    ['route summary', () => routeSummary(hardSession)],
    ['run report', () => reportOf(5, 'A4')],
    ['fetch list', () => fetchPaper([{ step: 'benzoin', batch: 1 }], context(DEMO))],
  ];

  test.each(twice)('%s: the same data printed twice gives the same text', async (_kind, build) => {
    const [first, second] = [await printed(build()), await printed(build())];
    // Only the time of issue and the number of the paper may differ.
    const same = (pages: readonly string[]) =>
      pages.map((page) =>
        page
          .replaceAll(/, \d\d:\d\d/g, '')
          .replaceAll(/\bS\d+\./g, 'S.')
          .replaceAll(/ +/g, ' '),
      );
    expect(first.pages.length).toBeGreaterThan(0);
    expect(same(first.pages)).toEqual(same(second.pages));
  });

  test('names without a place to break them never make the print smaller', async () => {
    const { end, ...others } = hard.input.route.materials;
    const unbroken = { ...hard.input.route, materials: { ...others, end: { ...end, name: 'A'.repeat(180), formula: 'C6H6' } } };
    const input = { ...hard.input, route: unbroken };
    const own = hardContext({ input, result: plan(input) });
    for (const paper of [sessionPapers(ABOUT, hardBatches, own), routeSummary(own), buyingPaper(own)]) {
      const { file } = await printed(paper);
      const boxes = execFileSync('pdftotext', ['-bbox', file, '-'], { encoding: 'utf8', maxBuffer: 50_000_000 });
      const words = [...boxes.matchAll(/<word xMin="[\d.-]+" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">([^<]*)/g)];
      expect(words.length).toBeGreaterThan(20);
      // Letters of 10 pt are about 11 pt high from the lowest to the highest.
      expect(words.filter(([, top, , bottom]) => Number(bottom) - Number(top) < 9.9).map(([, , , , word]) => word)).toEqual([]);
      expect(words.filter(([, , right]) => Number(right) > 595 - (5 / 25.4) * 72).map(([, , , , word]) => word)).toEqual([]);
    }
  });

  test('hard data: nothing runs out of the page, and every code of a sheet is whole', async () => {
    const paper = sessionPapers(ABOUT, hardBatches, hardSession);
    const { pages, file, id } = await printed(paper);
    const text = pages.join('\n').replaceAll(/\s+/g, ' ');
    for (const words of ['H₂SO₄·H₂O', 'Δ⁹-α,β-unsaturated', '− × · → ⇌ ½ ± √', 'κ-seed']) expect(text).toContain(words);
    const boxes = execFileSync('pdftotext', ['-bbox', file, '-'], { encoding: 'utf8', maxBuffer: 50_000_000 });
    const [width, height] = [595, 842];
    // 5 mm of every edge is what no printer reaches.
    const edge = (5 / 25.4) * 72;
    const out = [...boxes.matchAll(/<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">([^<]*)/g)].filter(
      ([, left, top, right, bottom]) =>
        Number(left) < edge || Number(top) < edge || Number(right) > width - edge || Number(bottom) > height - edge + 2,
    );
    expect(out.map(([word]) => word)).toEqual([]);
    const pictures = pdfPictures(readFileSync(file).toString('base64'), folder);
    const codes = pictures.map((one) => codeIn(partOf(one, { left: 0, top: 0, width: 215, height: 75 })));
    expect(codes.filter((one) => one !== null)).toEqual(
      ['1-1', '2-1'].map((sheet) => writeCode({ kind: 'sheet', paper: id, sheet })),
    );
  });
});
