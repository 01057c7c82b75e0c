import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import type { RunEntry } from '../../src/core/run/entry.ts';
import { foldRun } from '../../src/core/run/state.ts';
import { wrongSums } from '../../src/main/store/check.ts';
import { by, charge, sheetOf, taken } from '../core/run-fixture.ts';
import { newBottle, openBook } from '../main/workbook-fixture.ts';

type Act =
  | { readonly do: 'weigh'; readonly net: number }
  | { readonly do: 'product'; readonly grams: number; readonly wet: boolean }
  | { readonly do: 'correct'; readonly which: number; readonly net: number | null };

const net = fc.integer({ min: 1, max: 30_000_000 }).map((micrograms) => micrograms / 1e6);
const act: fc.Arbitrary<Act> = fc.oneof(
  { weight: 4, arbitrary: fc.record({ do: fc.constant('weigh' as const), net }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('product' as const), grams: net, wet: fc.boolean() }) },
  { weight: 4, arbitrary: fc.record({ do: fc.constant('correct' as const), which: fc.nat(30), net: fc.option(net) }) },
);

const sheet = sheetOf([charge({ id: 'benzoin', isBasis: true, portions: 1000 })]);
const micrograms = (grams: number): number => Math.round(grams * 1e6);

test('whatever is weighed, made and corrected: the shelf is what the record says, to the microgram, and the chain is whole', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(act, { minLength: 1, maxLength: 14 }), async (acts) => {
      const { must, call, keeper } = openBook({ empty: false });
      const { id: bottle } = await must('shelf.add', newBottle({ amount: 50 }));
      const { id } = await must('runs.start', { planId: 1, state: 1, sheet, by });
      const weighed = (grams: number, portion: number): RunEntry =>
        taken('benzoin', grams, { bottle, taken: grams, moles: 0.01, portion, complete: false });
      for (const one of acts) {
        const { entries } = await must('runs.read', { id });
        const state = foldRun(sheet, entries);
        const entry = entryOf(one, entries.length, state.charges[0]?.parts.length ?? 0, weighed);
        if (!entry) continue;
        const answer = await call('runs.add', { id, after: entries.length, entry, adjust: true });
        // A refusal is in words and changes nothing; what is accepted is there.
        if (!answer.ok) expect(['refused', 'invalid input']).toContain(answer.code);
        expect((await must('runs.read', { id })).entries.length).toBe(entries.length + (answer.ok ? 1 : 0));
      }
      const { entries } = await must('runs.read', { id });
      const { standing, products } = foldRun(sheet, entries);
      const { bottle: now, ledger } = await must('shelf.bottle', { id: bottle });
      const used = standing.reduce((sum, { entry }) => (entry.kind === 'charged' ? sum + micrograms(entry.net) : sum), 0);
      const adjusted = ledger.reduce((sum, line) => (line.kind === 'adjusted' ? sum + micrograms(line.change) : sum), 0);
      expect(micrograms(now.left)).toBe(50_000_000 + adjusted - used);
      for (const one of products) {
        if (one.bottle === null) continue;
        expect(micrograms((await must('shelf.bottle', { id: one.bottle })).bottle.left)).toBe(micrograms(one.grams));
      }
      expect([wrongSums(keeper.database()), await must('runs.check', {})]).toEqual([[], []]);
      keeper.close();
    }),
    { numRuns: 40 },
  );
});

function entryOf(
  one: Act,
  written: number,
  parts: number,
  weighed: (grams: number, portion: number) => RunEntry,
): RunEntry | null {
  switch (one.do) {
    case 'weigh':
      return weighed(one.net, parts + 1);
    case 'product': {
      const crop = (written % 20) + 1;
      return { kind: 'product', by, crop, grams: one.grams, wet: one.wet, assayPercent: null, place: '', text: '', bottle: null };
    }
    case 'correct': {
      const of = (one.which % written) + 1;
      const instead = one.net === null ? null : (weighed(one.net, parts + 1) as never);
      return { kind: 'correction', by, of, reason: 'x', instead };
    }
  }
}
