import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { render } from 'preact';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { buyingPaper } from '../../src/core/paper/buying-list.ts';
import { fetchPaper } from '../../src/core/paper/fetch-list.ts';
import type { Paper } from '../../src/core/paper/paper.ts';
import { weighingPaper } from '../../src/core/paper/weighing-sheet.ts';
import { askedPaper, openIssued, openPreview, PREVIEW } from '../../src/renderer/paper/open-paper.ts';
import { dayAndTime, dayText } from '../../src/renderer/parts/day-text.ts';
import { cssText, pageRules } from '../../src/renderer/paper/page-rules.ts';
import type { PaperState } from '../../src/renderer/paper/paper-state.ts';
import { PaperView } from '../../src/renderer/paper/paper-view.tsx';
import { context, DEMO, manyCharges } from '../core/paper-fixture.ts';

const state: PaperState = { words: 'revision 14 · 25 Feb 2027, 10:42', short: 'revision 14', id: 1, revision: 14, issued: '' };
const session = [
  { step: 'benzoin', batch: 1 },
  { step: 'benzil', batch: 1 },
  { step: 'benzil', batch: 2 },
];
let root: HTMLElement;

beforeEach(() => {
  root = document.createElement('div');
  document.body.append(root);
});
afterEach(() => root.remove());

function draw(paper: Paper): void {
  render(<PaperView paper={paper} state={state} />, root);
}
const text = (element: Element | null | undefined) => element?.textContent?.replaceAll('\u00a0', ' ') ?? '';

describe('a weighing sheet on paper', () => {
  test.each([1, 40, 500])('%i charges: each row once, numbered, with what stands before it in the same body', (count) => {
    draw(weighingPaper([{ step: 'many', batch: 1 }], context(manyCharges(count))));
    const bodies = [...root.querySelectorAll('.operations > tbody')];
    expect(bodies).toHaveLength(count);
    bodies.forEach((body, at) => {
      const rows = [...body.querySelectorAll(':scope > tr')];
      const charge = rows.findIndex((row) => row.classList.contains('charge'));
      expect([...body.querySelectorAll('.number')].map(text)).toEqual([String(at + 1)]);
      const names = rows.map((row) => text(row.querySelector('.material'))).filter((name) => name !== '');
      expect(names).toEqual([expect.stringContaining(`material-${at + 1}x`)]);
      const first = rows[charge - 1]?.classList.contains('charge-name') ? charge - 1 : charge;
      const caution = rows.findIndex((row) => row.classList.contains('warning'));
      if (at % 5 === 2) {
        expect(caution).toBe(first - 1);
        expect(text(rows[caution])).toContain(`Before ${at + 1}: caution belonging to charge ${at + 1} only`);
      } else expect(caution).toBe(-1);
    });
    expect(text(root.querySelector('.end'))).toContain(`${count} of ${count} charge`);
  });

  test('a limit stands right before its hold, in one body with it', () => {
    draw(weighingPaper([{ step: 'benzil', batch: 1 }], context(DEMO)));
    const hold = [...root.querySelectorAll('tr.hold')].find((row) => text(row).includes('no brown gas'));
    expect(text(hold?.previousElementSibling)).toContain('Limit 105 °C');
    expect(hold?.previousElementSibling?.classList.contains('warning')).toBe(true);
  });

  test('what stands in kilograms or litres is read in them; micrograms are not', () => {
    const paper = JSON.stringify(weighingPaper([{ step: 'benzil', batch: 1 }], context(DEMO)));
    const boxes = (from: string, to: string) => {
      draw(JSON.parse(paper.replaceAll(`"unit":"${from}"`, `"unit":"${from}","targetUnit":"${to}"`)) as Paper);
      return [...root.querySelectorAll('tr.charge')].slice(0, 2).map((row) => text(row.querySelector('.blank')));
    };
    expect(boxes('g', 'kg')).toEqual(['kg', 'measured, mL']);
    expect(boxes('mL', 'L')).toEqual(['g', 'measured, L']);
    expect(boxes('g', 'µg')).toEqual(['g', 'measured, mL']);
  });

  test('only a burette has boxes for two readings; what a cylinder holds is read once', () => {
    const paper = weighingPaper([{ step: 'benzil', batch: 1 }], context(DEMO));
    const boxes = () => [...root.querySelectorAll('tr.charge')].map((row) => [...row.querySelectorAll('.blank')].map(text));
    draw(paper);
    expect(boxes()[1]?.slice(0, -1)).toEqual(['measured, mL']);
    expect(boxes()[0]?.slice(0, -1)).toEqual(['g', 'g', 'g']);
    const asBurette = JSON.parse(JSON.stringify(paper).replaceAll('"readTwice":false', '"readTwice":true')) as Paper;
    draw(asBurette);
    expect(boxes()[1]?.slice(0, -1)).toEqual(['start mL', 'end mL', 'added mL']);
  });

  test('what densities and tolerances rest on stands once under the table, with its number at each charge', () => {
    draw(weighingPaper([{ step: 'benzil', batch: 1 }], context(DEMO)));
    const rows = [...root.querySelectorAll('.operations > tbody')].map(text);
    expect(rows.find((row) => row.includes('68 % w/w'))).toContain('d 1.405 g/mL [1]: or 56.1 g');
    expect(rows.find((row) => row.includes('96 % v/v'))).toContain('d 0.807 g/mL [1]');
    expect(text(root.querySelector('.sources'))).toBe('Densities and measures: [1] table, 20 °C.');
  });

  test('one place for initials before an operation, none where there is nothing but notes', () => {
    draw(weighingPaper([{ step: 'benzil', batch: 1 }], context(DEMO)));
    const rows = [...root.querySelectorAll('tr.warning')];
    expect(rows.length).toBeGreaterThan(2);
    for (const row of rows) {
      const serious = row.textContent?.includes('▲') === true;
      expect(row.querySelectorAll('.warning-blank')).toHaveLength(serious ? 1 : 0);
    }
  });

  test('the head of a stage is in the body of its first operation', () => {
    draw(weighingPaper([{ step: 'benzil', batch: 1 }], context(DEMO)));
    const stages = [...root.querySelectorAll('tr.stage')];
    expect(stages.map((row) => text(row.querySelector('.stage-title')))).toEqual(['Reaction', 'Quench', 'Purification']);
    for (const row of stages) expect(row.parentElement?.querySelectorAll(':scope > tr').length).toBeGreaterThan(1);
    expect(text(stages[1])).toContain('New vessel');
  });

  test('what is made up first comes before the operations', () => {
    draw(weighingPaper([{ step: 'benzoin', batch: 1 }], context(DEMO)));
    const tables = [...root.querySelectorAll('table.operations')];
    expect(tables[0]?.classList.contains('make-ups')).toBe(true);
    expect(text(tables[0])).toContain('M1 · sodium hydroxide 3 mol/L');
  });

  test('each sheet of a session starts a page type of its own', () => {
    const paper = weighingPaper(session, context(DEMO));
    draw(paper);
    expect([...root.querySelectorAll('section')].map((section) => section.className)).toEqual([
      'sheet run-1',
      'sheet run-2',
      'sheet run-3',
    ]);
    const rules = pageRules(paper, 'revision 14');
    expect(rules).toContain('@page run-3');
    expect(rules).toContain('sheet\u00a02-2 · 4 of 4 charges on this sheet');
    // A page that lies alone says what it belongs to.
    expect(rules).toContain('@top-right { content: "2 · Oxidation to benzil · batch 2 of 2 · sheet\u00a02-2"');
  });

  test('a second check gets its column, and every row stays as wide as the table', () => {
    for (const secondCheck of [false, true]) {
      draw(weighingPaper(session, context(DEMO, { secondCheck })));
      for (const table of root.querySelectorAll('.operations:not(.make-ups)')) {
        const columns = table.querySelectorAll('colgroup > col').length;
        expect(columns).toBe(secondCheck ? 9 : 8);
        for (const row of table.querySelectorAll('tr:not(.charge-more, .charge-name + .charge)')) {
          const width = [...row.children].reduce((sum, cell) => sum + Number(cell.getAttribute('colspan') ?? 1), 0);
          expect(width).toBe(columns);
        }
      }
    }
  });
});

test('fetch and buying lists number every line', () => {
  draw(fetchPaper(session, context(DEMO)));
  const numbers = [...root.querySelectorAll('.list .number')].map((cell) => Number(text(cell)));
  expect(numbers.length).toBeGreaterThan(3);
  expect(numbers).toEqual(numbers.map((_, at) => at + 1));
  draw(buyingPaper(context(DEMO)));
  expect(root.querySelectorAll('.list .number')).toHaveLength(2);
});

describe('opening a paper', () => {
  test('the address says which', () => {
    expect(askedPaper('#paper=12')).toBe(12);
    expect(askedPaper('#token=abc&paper=3')).toBe(3);
    expect(askedPaper('#paper=preview')).toBe('preview');
    for (const wrong of ['', '#paper=', '#paper=0', '#paper=1e3', '#paper=-1', '#paper=99999999999'])
      expect(askedPaper(wrong)).toBeNull();
  });

  test('a preview comes from this tab, and is checked', () => {
    const paper = weighingPaper(session, context(DEMO));
    const kept = new Map([[PREVIEW, JSON.stringify(paper)]]);
    const storage = { getItem: (key: string) => kept.get(key) ?? null };
    expect(openPreview(storage)).toMatchObject({ ok: true, shown: { paper, state: { id: null, words: 'preview, not issued' } } });
    kept.set(PREVIEW, '{"kind":"weighing sheet"}');
    expect(openPreview(storage).ok).toBe(false);
    kept.clear();
    expect(openPreview(storage)).toEqual({ ok: false, words: 'There is no such paper here.' });
  });

  test('an issued paper comes through the port with its revision', async () => {
    const paper = buyingPaper(context(DEMO));
    const issued = { id: 4, kind: paper.kind, title: paper.title, revision: 9, issued: '2027-02-25T09:42:07.120Z', paper };
    const opened = await openIssued(4, { call: async () => ({ ok: true, value: issued as never }), subscribe: () => () => {} });
    expect(opened).toMatchObject({ ok: true, shown: { paper, state: { id: 4, revision: 9, short: 'revision\u00a09' } } });
    const gone = await openIssued(5, {
      call: async () => ({ ok: false, code: 'not found', detail: '' }),
      subscribe: () => () => {},
    });
    expect(gone).toEqual({ ok: false, words: 'It is no longer there.' });
  });

  test('dates read the same whatever the desktop’s language', () => {
    expect(dayText('2027-02-05')).toBe('5 Feb 2027');
    expect(dayAndTime('2027-02-25T09:42:07.120')).toBe('25 Feb 2027, 09:42');
    expect(dayText('soon')).toBe('soon');
  });
});

test('a plan’s name cannot break out of the page rules', () => {
  expect(cssText('a "b" \\ c\nd')).toBe('"a \\"b\\" \\\\ c\\a d"');
  const paper = { ...buyingPaper(context(DEMO)), plan: '"; } @page { size: 1mm } /*' };
  const rules = pageRules(paper, 'revision 1');
  expect(rules).toContain('\\"; } @page');
  expect(rules.match(/@page/g)).toHaveLength(3);
});

test('nothing on paper can hide a line: no fixed heights, no scrolling, no moving, nothing under 10 pt', () => {
  const styles = join(import.meta.dirname, '../../src/renderer/style');
  const printed = readdirSync(styles)
    .filter((name) => name.startsWith('paper') && name !== 'paper-screen.css')
    .map((name) => readFileSync(join(styles, name), 'utf8'))
    .join('\n');
  expect(printed).not.toMatch(
    /[^-]\bheight:|max-height|overflow(-[xy])?:|transform|position:|float:|columns?:|\d(vh|dvh)\b|display: (flex|grid)/,
  );
  const fonts = [...printed.matchAll(/font(?:-size)?:[^;]*?(\d+(?:\.\d+)?)pt/g)].map((match) => Number(match[1]));
  expect(Math.min(...fonts)).toBeGreaterThanOrEqual(10);
});
