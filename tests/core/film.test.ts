import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Material } from '../../src/core/matter/material.ts';
import { mostTarget } from '../../src/core/plan/forward/most-target.ts';
import type { Operation } from '../../src/core/route/route.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { reference } from '../reference/tables.ts';
import { bottle, draw, planOf, route, settings, shelfOf, step, stepOf, TODAY } from './build.ts';

// The film in the flask nearly equals what a batch makes: many batches for little, and each loses most of what it makes.
// Worked out by hand: n batches of at most 1 g of basis give at most n × (yield − film), basis and product of one mass.

const roomy = { ...settings, vessels: [{ name: 'a tank', nominal: 1e9 }] };
const F = 'C10H10O2';
const planned = (film: number, grams: number, percent = 90) => {
  const extra = { lossPerBatch: { grams: film, reason: 'film' }, batchLimit: { grams: 1, reason: 'small flask' } };
  const one = route({ a: F, b: F, c: F }, [
    step({ id: '1', basis: 'a', product: 'b', yieldPercent: percent, extra }),
    step({ id: '2', basis: 'b', product: 'c', yieldPercent: 50 }),
  ]);
  return planOf(one, [draw('c', grams / 2)], [], { settings: roomy });
};

/** The most that so many grams of basis allow, by trying every number of batches. */
function mostByHand(grams: number, film: number, part: number): number {
  let most = 0;
  for (let n = 1; n <= 200; n += 1) {
    const made = Math.min(grams * part - film * n, n * (part - film));
    // Fewer batches would do for less than this.
    if (made > (n - 1) * (part - film)) most = Math.max(most, made);
  }
  return most;
}

describe('the most that stock allows, where a film stays in every batch', () => {
  const most = (grams: number, film: number, percent: number) => {
    const extra = { lossPerBatch: { grams: film, reason: 'film' }, batchLimit: { grams: 1, reason: 'small flask' } };
    const one = route({ a: F, b: F }, [step({ id: '1', basis: 'a', product: 'b', yieldPercent: percent, extra })]);
    const ask = { name: 'a plan', draws: [draw('b', 0.1)] };
    const input = { route: one, ask, shelf: shelfOf(one, [bottle('a', grams)]), settings: roomy, reference, asOf: TODAY };
    return mostTarget(input, 'draw-b', new Set(['a']));
  };
  test.each([
    // 50 batches of 1 g: 45 g less 50 films.
    [50, 0.1, 40],
    [50, 0.5, 20],
    [50, 0.89, 0.5],
    // A third of a fourth batch brings nothing: 3.3 × 0.9 − 4 × 0.4 is less than 3 × 0.5.
    [3.3, 0.4, 1.5],
    [3.9, 0.4, 1.91],
  ])('%f g, film %f g: %f g', (grams, film, expected) => {
    const found = most(grams, film, 90);
    expect(mostByHand(grams, film, 0.9)).toBeCloseTo(expected, 9);
    expect(found.kind === 'most' && found.grams.value).toBeCloseTo(expected, 7);
    expect(found.kind === 'most' && found.planShort).toEqual([]);
  });
  test('a film as large as what a batch makes: the reason, and no amount', () => {
    const found = most(50, 0.95, 90);
    expect(found.kind === 'refused' && sentence(found.why)).toMatch(/“Step 1” gives nothing, in however many batches/);
  });

  test('as every number of batches says, for any film and stock', () => {
    const property = fc.property(
      fc.double({ min: 0.01, max: 0.9, noNaN: true }),
      fc.double({ min: 0.5, max: 40, noNaN: true }),
      fc.integer({ min: 20, max: 100 }),
      (part, grams, percent) => {
        const found = most(grams, (part * percent) / 100, percent);
        const expected = mostByHand(grams, (part * percent) / 100, percent / 100);
        expect(found.kind === 'most' ? found.grams.value : 0).toBeCloseTo(expected, 7);
      },
    );
    fc.assert(property, { numRuns: 25 });
  });
});

describe('a film that nearly equals what a batch makes', () => {
  test('as many batches as it takes, and what is wanted is made', () => {
    for (const [film, grams, batches] of [
      [0.5, 9.99, 25],
      [0.89, 0.995, 100],
      [0.89, 4.995, 500],
      [0.89, 9.985, 999],
      [0.8, 0.05, 1],
    ] as const) {
      const made = stepOf(planned(film, grams), '1');
      expect(made.batches?.count, `film ${film} g, ${grams} g wanted`).toBe(batches);
      expect(made.product.grams?.value).toBeCloseTo(grams, 9);
      expect(made.basis.grams?.value).toBeCloseTo((grams + batches * film) / 0.9, 7);
    }
  });

  test('the smallest number of batches, for any film', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 0.95, noNaN: true }),
        fc.double({ min: 0.01, max: 20, noNaN: true }),
        fc.integer({ min: 20, max: 100 }),
        (part, grams, percent) => {
          const film = (part * percent) / 100;
          const result = planned(film, grams, percent);
          const made = stepOf(result, '1');
          const exact = grams / (percent / 100 - film);
          if (exact > 999 || Math.abs(exact - Math.round(exact)) < 1e-6) return;
          expect(made.batches?.count).toBe(Math.ceil(exact));
          expect(made.product.grams?.value).toBeCloseTo(grams, 8);
        },
      ),
      { numRuns: 40 },
    );
  });

  test('more batches than are planned at most would do: said, with what each batch is beyond', () => {
    // 20 g of b at 0.01 g a batch are 2000 batches.
    const result = planned(0.89, 20);
    expect(stepOf(result, '1').batches?.count).toBe(1000);
    const said = result.notices.filter((one) => one.code === 'over own limit').map(sentence);
    expect(said).toEqual(['Even one of 1000 batches, the most that are planned, is larger than the limit of 1 g (small flask).']);
  });
});

describe('a film as large as what a batch can make', () => {
  test.each([
    // 1 g of basis at 90 % makes 0.9 g.
    [0.9, '0.900 g'],
    [0.95, '0.950 g'],
    [100, '100 g'],
  ])('%f g stays behind: no number of batches gives anything, and nothing is planned', (film, lost) => {
    const result = planned(film, 1);
    expect(result.solved).toBe(false);
    expect(result.steps).toEqual([]);
    expect(result.notices.map(sentence)).toEqual([
      `“Step 1” gives nothing, in however many batches: the largest that the limit of 1 g (small flask) allows makes 0.900 g of b, and ${lost} stays behind in it. What would help: less left behind (check the amount entered, or rinse it out), or a limit that allows more, if whoever set it agrees.`,
    ]);
  });

  test('the largest vessel decides: 10 L, two thirds full, 10 mL/g and the solid at 1.3 g/mL', () => {
    const s: Material = { name: 's', formula: 'C7H8', density: { gramsPerMillilitre: 0.867, celsius: 20 } };
    const wash = { do: 'charge', id: 'w', stage: 'reaction', material: 's', rule: { kind: 'volumes', millilitresPerGram: 10 } };
    const extra = { lossPerBatch: { grams: 2000, reason: 'film' } };
    const shape = { id: '1', basis: 'a', product: 'b', yieldPercent: 90, more: [wash as Operation], extra };
    const said = planOf(route({ a: F, b: F, s }, [step(shape)]), [draw('b', 1)]).notices.map(sentence);
    // 6666.7 mL ÷ (10 + 1/1.3) mL/g = 619.0 g of a, 557 g of b.
    expect(said).toEqual([
      expect.stringContaining('the largest that the 10 L flask allows makes 557 g of b, and 2000 g stays behind'),
    ]);
  });

  test('a number of batches chosen by hand is planned as it stands, and what it breaks is said', () => {
    const extra = { lossPerBatch: { grams: 0.95, reason: 'film' }, batchLimit: { grams: 1, reason: 'small flask' } };
    const one = route({ a: F, b: F }, [step({ id: '1', basis: 'a', product: 'b', yieldPercent: 90, extra })]);
    const result = planOf(one, [draw('b', 1)], [], { settings: roomy, ask: { batches: { '1': 1 } } });
    expect(stepOf(result, '1').basis.grams?.value).toBeCloseTo(1.95 / 0.9, 9);
    expect(result.notices.map((one) => one.code)).toContain('over own limit');
  });

  test('the other maker runs, though it is dearer, and the barren one has no cost', () => {
    const extra = { lossPerBatch: { grams: 5, reason: 'film' }, batchLimit: { grams: 1, reason: 'small flask' } };
    const one = route({ a: F, d: F, b: F }, [
      step({ id: 'cheap', basis: 'a', product: 'b', yieldPercent: 90, extra }),
      step({ id: 'dear', basis: 'd', product: 'b', yieldPercent: 10 }),
    ]);
    const result = planOf(one, [draw('b', 1)], [], { settings: roomy });
    expect(stepOf(result, 'cheap').active).toBe(false);
    expect(stepOf(result, 'dear').basis.grams?.value).toBeCloseTo(10, 9);
    expect(result.choices[0]?.makers).toEqual([
      { step: 'cheap', runs: false, cost: null },
      { step: 'dear', runs: true, cost: expect.closeTo(10, 9) },
    ]);
  });
});

describe('far less is drawn than stays behind', () => {
  test('1 µg beside a film of 100 g: exact, no false shortfall, and it is said that no loss is known so well', () => {
    const extra = { lossPerBatch: { grams: 100, reason: 'film' } };
    const one = route({ a: F, b: F, c: F }, [
      step({ id: '1', basis: 'a', product: 'b', yieldPercent: 90, extra }),
      step({ id: '2', basis: 'b', product: 'c', yieldPercent: 50 }),
    ]);
    const result = planOf(one, [draw('c', 1e-6)], [], { settings: roomy });
    expect(stepOf(result, '1').basis.grams?.value).toBeCloseTo((2e-6 + 100) / 0.9, 9);
    expect(result.notices.map((notice) => notice.code)).not.toContain('left short');
    const said = result.notices.find((notice) => notice.code === 'film not known so well');
    expect(said && sentence(said)).toBe(
      'Only 2.00 µg of the 100 g a batch makes is to come out of it; 100 g stays behind. No such loss is known so exactly: a batch like this may give nothing at all. Ask for 10.0 g or more from each batch, or check the amount entered as left behind.',
    );
  });

  test('a tenth of what stays behind, or more, is only said to be little', () => {
    const codes = (film: number, grams: number) => planned(film, grams).notices.map((notice) => notice.code);
    // One batch of 0.9 g: 0.8 g stays, 0.1 g comes out.
    expect(codes(0.8, 0.1)).toContain('film takes most');
    expect(codes(0.8, 0.07)).toContain('film not known so well');
    expect(codes(0.1, 0.5).filter((code) => code.startsWith('film'))).toEqual([]);
  });
});
