import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { buyingPaper } from '../../src/core/paper/buying-list.ts';
import { fetchPaper } from '../../src/core/paper/fetch-list.ts';
import { Paper, type WeighingPaper } from '../../src/core/paper/paper.ts';
import { routeSummary } from '../../src/core/paper/route-summary.ts';
import { sessionPapers } from '../../src/core/paper/session-papers.ts';
import { weighingPaper } from '../../src/core/paper/weighing-sheet.ts';
import { everyBatch, hardContext, hardPlan } from './hard-fixture.ts';
import { context, manyCharges } from './paper-fixture.ts';

const about = { name: 'S', date: '2027-02-25', starts: '09:00', hours: 8, batches: [] };
const one = [{ step: 'many', batch: 1 }];
const usual = hardPlan(8);

/** The charges of a sheet's papers as they are numbered and named. */
function charges({ sheets }: WeighingPaper): readonly { readonly number: number; readonly id: string }[] {
  return sheets.flatMap((sheet) => sheet.stages.flatMap((stage) => stage.entries)).filter((entry) => entry.do === 'charge');
}

describe('every charge exactly once', () => {
  test('for any count from 1 to 500, on the sheet and in the papers of a session, in order', () => {
    fc.assert(
      fc.property(fc.oneof(fc.constantFrom(1, 2, 499, 500), fc.integer({ min: 1, max: 500 })), (count) => {
        const own = context(manyCharges(count));
        const alone = weighingPaper(one, own);
        const { parts } = sessionPapers(about, one, { ...own, input: usual.input, day: (iso) => iso });
        const inSession = parts.filter((part) => part.kind === 'weighing sheet');
        const wanted = Array.from({ length: count }, (_none, at) => ({ number: at + 1, id: `c${at + 1}` }));
        for (const paper of [alone, ...inSession]) {
          expect(charges(paper).map(({ number, id }) => ({ number, id }))).toEqual(wanted);
          expect(paper.sheets[0]?.charges).toBe(count);
        }
        expect(inSession).toHaveLength(1);
      }),
      { numRuns: 25 },
    );
  });

  test('for a dozen batches: each batch has a sheet of its own, each charge of its step once on it', () => {
    const dozen = hardPlan(8, 'g', 1.4);
    const batches = everyBatch(dozen.result);
    expect(dozen.result.steps[0]?.batches.count).toBe(12);
    const paper = weighingPaper(batches, { ...hardContext(dozen), bench: () => [], cautions: () => new Map() });
    expect(paper.sheets.map((sheet) => sheet.id)).toEqual(batches.map(({ step, batch }) => `${step === 'one' ? 1 : 2}-${batch}`));
    for (const sheet of paper.sheets) {
      const ids = sheet.stages.flatMap((stage) => stage.entries.map((entry) => entry.id));
      expect(new Set(ids).size).toBe(ids.length);
      expect(sheet.charges).toBe(3);
    }
  });
});

describe('the same data twice gives the same paper', () => {
  const build = (): readonly Paper[] => {
    const plan = hardPlan(8);
    const batches = everyBatch(plan.result);
    const own = hardContext(plan);
    return [
      weighingPaper(batches, own),
      fetchPaper(batches, own),
      buyingPaper(own),
      routeSummary(own),
      sessionPapers(about, batches, own),
    ];
  };
  const papers = build();

  test.each(papers.map((paper, at) => [paper.kind, at] as const))('%s', (_kind, at) => {
    expect(JSON.stringify(build()[at])).toBe(JSON.stringify(papers[at]));
  });

  test('and every one of them is one that can be kept', () => {
    for (const paper of papers) expect(Paper.parse(JSON.parse(JSON.stringify(paper)))).toEqual(paper);
  });
});

describe('what is hard to print', () => {
  const papersOf = (amount: number): Paper => {
    const plan = hardPlan(amount);
    return sessionPapers(about, everyBatch(plan.result).slice(0, 2), hardContext(plan));
  };

  /** Everything that is printed; ids and numbers that something is computed from are not. */
  function printed(value: unknown, key = ''): readonly string[] {
    if (typeof value === 'string') return [`${key}: ${value.replaceAll('\u00a0', ' ')}`];
    if (Array.isArray(value)) return value.flatMap((item) => printed(item, key));
    if (value === null || typeof value !== 'object') return [];
    return Object.entries(value).flatMap(([name, item]) => printed(item, name));
  }

  test('micrograms and tonnes: no amount is printed as zero, as a row of zeros or with an exponent', () => {
    for (const amount of [2e-4, 3e6]) {
      const said = printed(papersOf(amount));
      expect(said.filter((one) => /\d\.0000\d|\d[eE][+-]?\d|NaN|Infinity|undefined/.test(one))).toEqual([]);
      expect(said.filter((one) => /^(targetText|target|need|short|amounts): (\d+ × )?0(\.0+)?( |$)/.test(one))).toEqual([]);
    }
  });

  test('a strength that is not known, a place that is not written and a time that nobody gave are said', () => {
    const said = printed(papersOf(8)).join('\n');
    for (const words of ['unknown strength', 'Place not written', 'hold without a time: nothing more happens']) {
      expect(said).toContain(words);
    }
  });
});
