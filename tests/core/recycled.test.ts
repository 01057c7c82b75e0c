import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { buyingPaper } from '../../src/core/paper/buying-list.ts';
import { fetchPaper } from '../../src/core/paper/fetch-list.ts';
import { sessionOf } from '../../src/core/paper/session.ts';
import { weighingSheet } from '../../src/core/paper/weighing-sheet.ts';
import { mostTarget } from '../../src/core/plan/forward/most-target.ts';
import type { PlanResult } from '../../src/core/plan/result.ts';
import type { Route } from '../../src/core/route/route.ts';
import type { Bottle } from '../../src/core/shelf/shelf.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { reference } from '../reference/tables.ts';
import { context } from './paper-fixture.ts';
import { bottle, chargeOf, draw, planOf, route, settings, shelfOf, step, stepOf, TODAY } from './build.ts';

/** C6H12, g/mol (CIAAW 2021, conventional). */
const M = 84.162;

/** 1 mol of product from 1 mol of basis, with `aid` charged at `equivalents`, of which a part comes back of every batch. */
const recycling = (percentOfCharge: number, equivalents = 3): Route =>
  route({ a: 'C6H12', b: 'C6H12', aid: 'C6H12' }, [
    step({
      id: '1',
      basis: 'a',
      product: 'b',
      equivalents: { aid: equivalents },
      ...(percentOfCharge > 0 ? { recovers: [{ material: 'aid', percentOfCharge }] } : {}),
    }),
  ]);

const planned = (one: Route, batches: number, bottles: readonly Bottle[] = []): PlanResult =>
  planOf(one, [draw('b', 1, 'mol')], bottles, { ask: { batches: { 1: batches } } });

const lineOf = (result: PlanResult) => result.fetch.find((line) => line.material === 'aid');

/** The peak, told batch by batch: what is charged less what has come back so far, at its greatest. */
function byHand(gross: number, batches: number, part: number): number {
  let taken = 0;
  let back = 0;
  for (let k = 0; k < batches; k += 1) {
    const charge = gross / batches;
    taken += charge - Math.min(back, charge);
    back = charge * part;
  }
  return taken;
}

describe('what comes back of one batch goes into the next', () => {
  test('80 % of 3 mol over four batches: 0.75 mol for the first, 0.15 mol more for each of the others', () => {
    const line = lineOf(planned(recycling(80), 4));
    expect(line?.peak.value).toBeCloseTo((0.75 + 3 * 0.15) * M, 9);
    expect(line?.need.value).toBeCloseTo(0.6 * M, 9);
    expect(chargeOf(planned(recycling(80), 4), '1', 'aid').grams?.value).toBeCloseTo(3 * M, 9);
  });

  test('what must be in hand is never less than one batch, and one batch is all of it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 99 }), fc.integer({ min: 1, max: 40 }), (percent, batches) => {
        const peak = lineOf(planned(recycling(percent), batches))?.peak.value ?? 0;
        expect(peak).toBeCloseTo(byHand(3 * M, batches, percent / 100), 8);
        expect(peak).toBeGreaterThanOrEqual((3 * M) / batches - 1e-9);
      }),
      { numRuns: 40 },
    );
  });

  test('a shelf that holds just the peak is enough, and a gram less is a gram short', () => {
    const peak = 1.2 * M;
    const enough = lineOf(planned(recycling(80), 4, [bottle('aid', peak + 1e-6)]));
    expect(enough?.status).toBe('enough');
    expect(enough?.bottles[0]?.amount).toBeCloseTo(peak, 5);
    const short = lineOf(planned(recycling(80), 4, [bottle('aid', peak - 1)]));
    expect(short?.status).toBe('short');
    expect(short?.short?.value).toBeCloseTo(1, 5);
    expect(short?.onHand.value).toBeCloseTo(peak - 1, 6);
  });

  test('the same bottle covers one batch more than its gross would', () => {
    const taken = planned(recycling(80), 4, [bottle('aid', 10 * M)]);
    const session = sessionOf(taken, [{ step: '1', batch: 2 }]);
    expect(session.taken(chargeOf(taken, '1', 'aid'), stepOf(taken, '1'), 1).bottles[0]?.amount).toBeCloseTo(0.75 * M, 9);
    expect(session.taken(chargeOf(taken, '1', 'aid'), stepOf(taken, '1'), 2).bottles[0]?.amount).toBeCloseTo(0.15 * M, 9);
    const all = [1, 2, 3, 4].map((batch) =>
      sessionOf(taken, [{ step: '1', batch }]).lines.find((one) => one.line.material === 'aid'),
    );
    expect(all.reduce((sum, one) => sum + (one?.bottles[0]?.amount ?? 0), 0)).toBeCloseTo(1.2 * M, 9);
    expect(all.reduce((sum, one) => sum + (one?.peakPart ?? 0), 0)).toBeCloseTo(1, 12);
    expect((all[0]?.peakPart ?? 0) * 1.2).toBeCloseTo(0.75, 12);
  });

  test('the sheet of a later batch says to take first what came back, and the rest from the bottle', () => {
    const result = planned(recycling(80), 4, [bottle('aid', 10 * M)]);
    const sourcesOf = (batch: number) => {
      const entries = weighingSheet('1', batch, { ...context(result), say: sentence }).stages.flatMap((stage) => stage.entries);
      const found = entries.find((entry) => entry.do === 'charge' && entry.material === 'aid');
      return found?.do === 'charge' ? found.sources.map((source) => `${source.words} ${source.amount}`.trim()) : [];
    };
    expect(sourcesOf(1)).toEqual(['lot lot aid']);
    // 3/4 mol of 84.162 g/mol are 63.12 g a batch, 80 % of it 50.5 g.
    expect(sourcesOf(3).map((line) => line.replaceAll('\u00a0', ' '))).toEqual([
      'first what came back of batch 2 about 50.50 g',
      'lot lot aid 12.62 g',
    ]);
  });

  test('the fetch list on paper says to take what the sheets take from the bottle, and beside it what is used up', () => {
    const result = planned(recycling(80), 4, [bottle('aid', 10 * M)]);
    const taken = (...batches: readonly number[]) => {
      const chosen = batches.map((batch) => ({ step: '1', batch }));
      const lines = fetchPaper(chosen, { ...context(result), say: sentence }).places.flatMap((place) => place.lines);
      const line = lines.find((one) => one.material === 'aid');
      return [line?.need, line?.peak].map((text) => text?.replaceAll('\u00a0', ' '));
    };
    // 3/4 mol of 84.162 g/mol for the first batch, 0.15 mol for each of the others, as weighed to 0.01 g; 0.6 mol do not come back.
    expect(taken(1, 2, 3, 4)).toEqual(['100.98 g', 'expected use: 50.50 g']);
    expect(taken(1)).toEqual(['63.12 g', 'expected use: 12.62 g']);
    expect(taken(2, 3)).toEqual(['25.24 g', '']);
  });

  test('two lots of different assay: the charge is still the whole of it, the lots give what is new', () => {
    const bottles = [
      bottle('aid', 0.9 * M, 'g', { kind: 'neat', assayPercent: 90 }),
      { ...bottle('aid', 10 * M), id: 'other', lot: 'other' },
    ];
    const { supply, grams } = chargeOf(
      planOf(recycling(80), [draw('b', 1, 'mol')], bottles, { ask: { batches: { 1: 4 }, useFirst: ['b-aid'] } }),
      '1',
      'aid',
    );
    // 0.9 M g of 90 % are 0.81 mol of the 1.2 mol that are new; the rest is neat. In all 3/1.2 times that.
    const fresh = 0.9 * M + 0.39 * M;
    expect(supply.kind === 'bottles' && supply.bottles.reduce((sum, one) => sum + one.amount, 0)).toBeCloseTo(fresh, 8);
    expect(grams?.value).toBeCloseTo((fresh * 3) / 1.2, 8);
  });

  test('the plan says that it counts on the batches being one after another', () => {
    const said = planned(recycling(80), 4).notices.find((one) => one.code === 'back into the next batch');
    expect(said?.level).toBe('assumption');
    const text = said ? sentence(said) : '';
    expect(text).toContain('63.1 g');
    expect(text).toContain('252 g');
    expect(planned(recycling(80), 1).notices.map((one) => one.code)).not.toContain('back into the next batch');
  });

  test('the most that a bottle allows is a plan that the bottle covers', () => {
    const bottles = [bottle('aid', 100)];
    const one = recycling(80);
    const input = {
      route: one,
      ask: { name: 'a plan', draws: [draw('b', 1, 'g')], batches: { 1: 4 } },
      shelf: shelfOf(one, bottles),
      settings,
      reference,
      asOf: TODAY,
    };
    const most = mostTarget(input, 'draw-b', new Set(['aid']));
    expect(most.kind === 'most' && most.grams.value).toBeCloseTo(100 / 1.2, 6);
    expect(most.kind === 'most' && most.planShort).toEqual([]);
  });

  test('a recycled intermediate: what one batch gives back must be in hand, not that of all', () => {
    const one = route({ a: 'C6H12', b: 'C6H12', c: 'C6H12' }, [
      step({ id: '1', basis: 'a', product: 'b' }),
      step({ id: '2', basis: 'b', product: 'c', yieldPercent: 20, recovers: [{ material: 'b', percentOfCharge: 80 }] }),
    ]);
    const result = planOf(one, [draw('c', 1, 'mol')], [], { ask: { batches: { 2: 4 } } });
    const said = result.notices.find((notice) => notice.code === 'back in hand');
    // 5 mol charged in four batches, 4 mol come back: 1 mol of each batch.
    expect(said?.values.amount).toBeCloseTo(M, 9);
  });
});

describe('steps that feed each other', () => {
  const keys = { S: 'C6H12', P: 'C6H12', Q: 'C6H12', T: 'C6H12' };
  const loop = (materials: Parameters<typeof route>[0] = keys) =>
    route(materials, [
      step({ id: 'make', basis: 'S', product: 'P', yieldPercent: 90, equivalents: { Q: 0.8019 } }),
      step({ id: 'turn', basis: 'P', product: 'Q', yieldPercent: 90 }),
      step({ id: 'end', basis: 'P', product: 'T', yieldPercent: 95 }),
    ]);
  const inBatches = (make: number, turn: number) => planOf(loop(), [draw('T', 10)], [], { ask: { batches: { make, turn } } });
  const parts = (result: PlanResult) =>
    [1, 2, 3, 4].map((batch) => {
      const line = sessionOf(result, [{ step: 'make', batch }]).lines.find(
        (one) => one.line.material === 'Q' && one.line.comesBack !== undefined,
      );
      return line ? line.peakPart : 0;
    });

  // 937.9 g of Q go round (plan-network.test.ts).
  test.each([
    // Every quarter comes back before the next is due.
    [4, 4, 0.25, [1, 0, 0, 0]],
    // Two batches of four are through before the first half comes back.
    [4, 2, 0.5, [0.5, 0.5, 0, 0]],
    // Nothing comes back before all is through.
    [4, 1, 1, [0.25, 0.25, 0.25, 0.25]],
    // Batch 2 has what one of three gave back: a third of the half it needs is missing; so has batch 1 all of its half.
    [2, 3, 2 / 3, [0.75, 0.25, 0, 0]],
  ])('in %i and %i batches a part of %f is in hand, and each batch needs its own', (make, turn, part, each) => {
    const result = inBatches(make, turn);
    const line = result.fetch.find((one) => one.comesBack !== undefined);
    expect(line?.peak.value).toBeCloseTo(937.9 * part, 0);
    expect(line?.short?.value).toBeCloseTo(937.9 * part, 0);
    const found = parts(result);
    for (const [at, one] of each.entries()) expect(found[at]).toBeCloseTo(one, 9);
  });

  test('told with what goes round', () => {
    const said = inBatches(4, 4).notices.find(({ code }) => code === 'steady loop');
    expect(said?.values.back).toBe('938 g of Q, from step 2 into step 1 over its 4 batches (234 g of it in hand first)');
  });

  test('a batch that is not the first waits for what the one before gives back', () => {
    const [first, second] = [1, 2].map((batch) =>
      sessionOf(inBatches(4, 4), [{ step: 'make', batch }]).lines.find(({ line }) => line.material === 'Q'),
    );
    expect(first?.status).toBe('short');
    expect(second?.status).toBe('not made yet');
  });

  test('without a formula it stands among what no list can count', () => {
    const unknown = planOf(loop({ ...keys, Q: { name: 'Q', state: 'solid' } }), [draw('T', 10)]);
    expect(sessionOf(unknown, [{ step: 'make', batch: 1 }]).uncounted).toEqual([{ material: 'Q', form: 'neat', step: 1 }]);
    expect(sessionOf(inBatches(1, 1), [{ step: 'make', batch: 1 }]).uncounted).toEqual([]);
  });
});

describe('what is to be bought of it', () => {
  test('needed less on hand is short, on the list of what to buy: the peak, not what is used up', () => {
    // 3 mol over four batches, 80 % back: 1.2 mol = 101.0 g at once, of which 0.6 mol do not come back.
    const result = planned(recycling(80), 4, [bottle('aid', 50)]);
    const line = buyingPaper({ ...context(result), say: sentence }).lines.find((one) => one.material === 'aid');
    const words = [line?.need, line?.onHand, line?.short].map((text) => text?.replaceAll('\u00a0', ' '));
    expect(words).toEqual(['101.0 g', '50.0 g', '51.0 g']);
  });

  test('what steps that feed each other need to begin with says so', () => {
    const loop = route({ S: 'C6H12', P: 'C6H12', Q: 'C6H12', T: 'C6H12' }, [
      step({ id: 'make', basis: 'S', product: 'P', yieldPercent: 90, equivalents: { Q: 0.8019 } }),
      step({ id: 'turn', basis: 'P', product: 'Q', yieldPercent: 90 }),
      step({ id: 'end', basis: 'P', product: 'T', yieldPercent: 95 }),
    ]);
    const paper = buyingPaper({ ...context(planOf(loop, [draw('T', 10)])), say: sentence });
    const line = paper.lines.find((one) => one.material === 'Q');
    expect([line?.need, line?.short]).toEqual(['938\u00a0g', '938\u00a0g']);
    expect(line?.why).toBe('to begin with: these steps feed each other, and give it back at the end');
  });
});
