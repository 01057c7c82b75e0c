import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { ChosenBatch } from '../../src/core/paper/context.ts';
import { type Session, sessionOf } from '../../src/core/paper/session.ts';
import { PlanFile } from '../../src/core/plan/ask.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { PlanResult } from '../../src/core/plan/result.ts';
import { readRoute } from '../../src/core/route/read-route.ts';
import { readShelf } from '../../src/core/shelf/read-shelf.ts';
import { reference } from '../reference/tables.ts';
import { bottle, draw, planOf, route, settings, step, TODAY } from './build.ts';

const demoFile = (name: string): string => readFileSync(join(import.meta.dirname, '..', '..', 'resources', 'demo', name), 'utf8');

function demo(): PlanResult {
  const [read, shelf] = [readRoute(demoFile('practicals.route.json')), readShelf(demoFile('prep-room.shelf.json'))];
  if (!read.ok || !shelf.ok) throw new Error('the demonstration cannot be read');
  const { ask } = PlanFile.parse(JSON.parse(demoFile('practicals.plan.json')));
  return plan({ route: read.value, shelf: shelf.value, ask, settings, reference, asOf: TODAY });
}

const lineOf = (session: Session, material: string) => session.lines.filter((one) => one.line.material === material);
const batch = (id: string, number: number): ChosenBatch => ({ step: id, batch: number });

describe('a session of the demonstration', () => {
  const result = demo();

  test('benzil alone waits for benzoin, whose benzaldehyde is out of date', () => {
    const [benzoin] = lineOf(sessionOf(result, [batch('benzil', 1)]), 'benzoin');
    expect(benzoin).toMatchObject({ status: 'not made yet', first: [1] });
    // The ethanol is enough for step 1 and this batch, 112 of 250 mL: that the whole plan runs short is not theirs.
    expect(benzoin?.lacks.map((line) => [line.material, line.status])).toEqual([['benzaldehyde', 'out of date']]);
  });

  test('what the session itself makes is at hand, as far as it goes', () => {
    const state = (chosen: readonly ChosenBatch[], material: string) =>
      lineOf(sessionOf(result, chosen), material).map((one) => one.status);
    expect(state([batch('benzoin', 1), batch('benzil', 1)], 'benzoin')).toEqual(['from a step']);
    // One batch of two makes half of the benzil; both later steps together take nearly all of it.
    expect(state([batch('benzil', 1), batch('dienone', 1), batch('quinoxaline', 1)], 'benzil')).toEqual([
      'enough',
      'from a step',
      'not made yet',
    ]);
    expect(lineOf(sessionOf(result, [batch('quinoxaline', 1)]), 'benzil').at(-1)?.first).toEqual([1, 2]);
  });

  // By hand: a batch of step 2 takes 39.30 + 4.91 mL, step 3 83.10 + 8.31 + 16.62 mL: 152.2 of the 250 mL there are.
  test('250 mL of ethanol are enough for a session that takes 152 mL, though the plan takes 352 mL', () => {
    const session = sessionOf(result, [batch('benzil', 1), batch('dienone', 1)]);
    const [ethanol] = lineOf(session, 'ethanol');
    expect((ethanol?.line.need.value ?? 0) * (ethanol?.part ?? 0)).toBeCloseTo(152.25, 1);
    expect(ethanol).toMatchObject({ status: 'enough', line: { status: 'short' } });
    expect(ethanol?.bottles.map((one) => one.lot)).toEqual(['26-117']);
    expect(ethanol?.bottles[0]?.amount).toBeCloseTo(152.25, 1);
  });

  test('what an earlier step hands over reads the same in the fetch list, in the step and on the sheets', () => {
    const all = result.steps.flatMap((one) => Array.from({ length: one.batches.count }, (_, at) => batch(one.id, at + 1)));
    const charge = result.steps
      .find((one) => one.id === 'benzil')
      ?.operations.find((one) => one.kind === 'charge' && one.material === 'benzoin');
    if (charge?.kind !== 'charge') throw new Error('step 2 charges benzoin');
    const [line] = lineOf(sessionOf(result, all), 'benzoin');
    expect(line?.line.need.value).toBe(charge.total.target);
    expect(line?.line.need.value).toBeCloseTo(2 * charge.perBatch.target, 9);
    expect(charge.perBatch.target).not.toBeCloseTo((charge.grams?.value ?? 0) / 2, 4);
  });

  test('the whole plan as one session is as short as the plan', () => {
    const all = result.steps.flatMap((one) => Array.from({ length: one.batches.count }, (_, at) => batch(one.id, at + 1)));
    for (const { line, status, part } of sessionOf(result, all).lines) {
      expect(status).toBe(line.status);
      expect(part).toBeCloseTo(1, 12);
    }
  });
});

describe('any session', () => {
  const uses = fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 1, maxLength: 5 });
  const lots = fc.array(fc.tuple(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 90, max: 100 })), { maxLength: 4 });

  test('is short exactly where its own need is more than what is there, and takes no more of a lot than it holds', () => {
    fc.assert(
      fc.property(uses, lots, fc.nat(31), (equivalents, stock, mask) => {
        const keys = equivalents.map((_, i) => `p${i}`);
        const one = route(
          Object.fromEntries([...keys, ...keys.map((key) => `raw-${key}`), 'salt'].map((key) => [key, 'C6H12'])),
          keys.map((key, i) => step({ id: key, basis: `raw-${key}`, product: key, equivalents: { salt: equivalents[i] ?? 1 } })),
        );
        const shelf = stock.map(([left, assayPercent], i) =>
          bottle('salt', left, 'g', { kind: 'neat', assayPercent }, { id: `lot-${i}`, useBy: `2027-01-0${i + 1}` }),
        );
        const result = planOf(
          one,
          keys.map((key) => draw(key, 0.01, 'mol')),
          shelf,
        );
        const chosen = keys.filter((_, i) => (mask >> i) % 2 === 1).map((key) => batch(key, 1));
        const [salt] = lineOf(sessionOf(result, chosen), 'salt');
        expect(salt === undefined).toBe(chosen.length === 0);
        if (!salt) return;
        const grams = equivalents.reduce((sum, ratio, i) => sum + ((mask >> i) % 2) * ratio * 0.01 * 84.162, 0);
        const there = stock.reduce((sum, [left, assay]) => sum + (left * assay) / 100, 0);
        if (Math.abs(grams / there - 1) > 1e-6) expect(salt.status === 'enough').toBe(grams < there);
        for (const share of salt.bottles ?? [])
          expect(share.amount).toBeLessThanOrEqual((shelf.find((lot) => lot.id === share.bottle)?.left ?? 0) * (1 + 1e-9));
      }),
      { numRuns: 200 },
    );
  });
});
