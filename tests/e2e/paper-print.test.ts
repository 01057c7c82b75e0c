import { type ChildProcess, execFileSync, spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { ChosenBatch } from '../../src/core/paper/context.ts';
import { fetchPaper } from '../../src/core/paper/fetch-list.ts';
import type { Paper } from '../../src/core/paper/paper.ts';
import { weighingPaper } from '../../src/core/paper/weighing-sheet.ts';
import { runReport } from '../../src/core/paper/run-report.ts';
import { dayAndTime } from '../../src/renderer/parts/day-text.ts';
import { by, charge, sheetOf, taken } from '../core/run-fixture.ts';
import { context, DEMO, manyCharges } from '../core/paper-fixture.ts';

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

// A lost line is a safety matter: papers are issued, printed by the program itself and read back with poppler.
const root = join(import.meta.dirname, '../..');
const program = join(root, 'out/main/browser.js');
const missing = [
  existsSync(program) ? '' : 'the built program (npm run build)',
  spawnSync('pdftotext', ['-v']).error ? 'pdftotext of poppler' : '',
].filter((one) => one !== '');
if (missing.length > 0) console.log(`Printed papers are not tested here: ${missing.join(' and ')} missing.`);

describe.skipIf(missing.length > 0)('papers printed by the program', () => {
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
  async function printed(paper: Paper): Promise<{ readonly pages: readonly string[]; readonly size: string }> {
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
    return { size, pages: pages.map((page) => page.replaceAll('\u00a0', ' ').replaceAll('μ', 'µ')) };
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
    expect(pageOf(pages, 'no harmonised entry: read the safety sheet').length).toBeGreaterThan(0);
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

  test('the same paper printed twice gives the same text', async () => {
    const paper = fetchPaper([{ step: 'benzoin', batch: 1 }], context(DEMO));
    const [first, second] = [await printed(paper), await printed(paper)];
    // Only the time of issue may differ, and the two are issued in the same minute or the next.
    const timeless = (pages: readonly string[]) => pages.map((page) => page.replaceAll(/\d\d:\d\d/g, '').replaceAll(/ +/g, ' '));
    expect(timeless(first.pages)).toEqual(timeless(second.pages));
  });
});
