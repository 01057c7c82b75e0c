import { describe, expect, test } from 'vitest';
import { runReport } from '../../src/core/paper/run-report.ts';
import type { RunEntry } from '../../src/core/run/entry.ts';
import { runHistory } from '../../src/core/run/history.ts';
import { cumulativeYield, runOutcome } from '../../src/core/run/outcome.ts';
import { foldRun } from '../../src/core/run/state.ts';
import { contentsOf } from '../../src/core/run/weighed.ts';
import { reference } from '../reference/tables.ts';
import { by, recorded, sheetOf, taken } from './run-fixture.ts';

// A run reckoned by hand, to six digits. Benzoin C14H12O2 → benzil C14H10O2, one to one; carbon 12.011, hydrogen 1.008,
// oxygen 15.999 (CIAAW's conventional values): 14 · 12.011 + 12 · 1.008 + 2 · 15.999 = 212.248 g/mol, and 210.232 g/mol.
const sheet = sheetOf();
const benzoin = { name: 'benzoin', formula: 'C14H12O2', cas: '119-53-9' };
const basis = sheet.charges[0];
const neat = (assayPercent: number) => ({ form: { kind: 'neat', assayPercent }, unit: 'g' }) as const;
const moles = (net: number, assay: number): number | null => {
  if (!basis) throw new Error('the sheet has a basis');
  return contentsOf(basis, net, 'g', neat(assay), benzoin, reference).moles;
};
const product = (crop: number, grams: number, more: Partial<Extract<RunEntry, { kind: 'product' }>> = {}): RunEntry => {
  const entry = { kind: 'product', by, crop, grams, wet: false, assayPercent: null, place: '', text: '', bottle: null } as const;
  return { ...entry, ...more };
};
const entries = recorded(sheet, [
  { kind: 'started', by },
  // 10.163 g of 99.2 % from a bottle that a run filled, 5.020 g of 98.5 % bought.
  taken('benzoin', 10.163, { moles: moles(10.163, 99.2), bottle: 'made', complete: false }),
  taken('benzoin', 5.02, { portion: 2, moles: moles(5.02, 98.5), bottle: 'bought' }),
  taken('nitric', 50.5, { unit: 'mL' }),
  taken('rinse', 5.01, { complete: false }),
  taken('rinse', 4.98, { portion: 2 }),
  product(1, 14.02, { wet: true }),
  product(1, 12.904, { assayPercent: 98.7 }),
  product(2, 0.611, { assayPercent: 96.4 }),
  { kind: 'finished', by },
]);
const state = foldRun(sheet, entries);
const outcome = runOutcome(sheet, state);
const value = (one: { readonly ok: boolean; readonly figure?: { readonly value: number } }): number =>
  one.figure?.value ?? Number.NaN;

describe('a run by hand', () => {
  test('basis: 10.163 · 0.992 + 5.020 · 0.985 = 10.081696 + 4.944700 = 15.026396 g; ÷ 212.248 = 0.0707964 mol', () => {
    expect(value(outcome.basisMoles)).toBeCloseTo(0.0707964, 7);
  });
  test('theory: 0.0707964 · 210.232 = 14.8837 g; at the planned 91 % 13.5441 g', () => {
    expect(value(outcome.theory)).toBeCloseTo(14.8837, 4);
    expect(value(outcome.expected)).toBeCloseTo(13.5441, 4);
  });
  test('product: 12.904 · 0.987 + 0.611 · 0.964 = 12.736248 + 0.589004 = 13.325252 g; the wet weighing is not counted', () => {
    expect(outcome.crops.map((one) => one.contained.value)).toEqual([expect.closeTo(12.736248, 6), expect.closeTo(0.589004, 6)]);
    expect(value(outcome.product)).toBeCloseTo(13.325252, 6);
  });
  test('yield: 13.325252 ÷ 14.883670 = 89.5293 %', () => {
    expect(value(outcome.yield)).toBeCloseTo(89.5293, 4);
  });
  test('over all steps, the first bottle at 61.25 %: 15.026396 ÷ (10.081696 ÷ 0.6125 + 4.944700) = 0.702017; 62.8511 %', () => {
    const all = cumulativeYield(state, outcome.yield, (bottle) => (bottle === 'made' ? { cumulativePercent: 61.25 } : null));
    expect(value(all)).toBeCloseTo(62.8511, 4);
  });
  test('mass balance: 10.163 + 5.020 + 50.5 · 1.4 + 5.01 + 4.98 = 95.873 g in; 12.904 + 0.611 = 13.515 g out; 82.358 g else', () => {
    expect(value(outcome.balance.in)).toBeCloseTo(95.873, 9);
    expect(value(outcome.balance.product)).toBeCloseTo(13.515, 9);
    expect(value(outcome.balance.rest)).toBeCloseTo(82.358, 9);
  });
  test('against the plan: 15.026396 ÷ 10 of the planned basis', () => {
    expect(value(outcome.basisFactor)).toBeCloseTo(1.5026396, 6);
  });
  test('the report says the same', () => {
    const start = { plan: 1, revision: 1, route: 1, routeRevision: 1, started: '2027-02-25T09:00:00.000Z', sheet };
    const paper = runReport(
      { id: 1, start, entries, broken: null },
      { size: 'A4', mark: '.', moment: String, time: String, cumulativePercent: 62.8511 },
    );
    expect(Object.fromEntries(paper.outcome.map((one) => [one.label, one.value]))).toMatchObject({
      yield: '89.53 %',
      'yield over all steps': '62.85 %',
      'planned yield': '91.00 %',
      'product, contained': '13.325 g',
      'first crop': '12.736 g',
      'second crop': '0.58900 g',
      'first crop as weighed wet, not counted': '14.020 g',
      'theory, from the real basis': '14.884 g',
    });
    const values = paper.outcome.map((one) => one.value);
    expect(values).toEqual(expect.arrayContaining(['95.873 g', '13.515 g', '82.358 g']));
  });
});

describe('basis got back', () => {
  const got = (grams: number, more: Partial<Extract<RunEntry, { kind: 'recovered' }>> = {}): RunEntry => {
    const entry = { kind: 'recovered', by, grams, wet: false, assayPercent: null, place: '', text: '', bottle: null } as const;
    return { ...entry, ...more };
  };
  const written = [
    { kind: 'started', by } as const,
    taken('benzoin', 10.163, { moles: moles(10.163, 99.2) }),
    taken('nitric', 50.5, { unit: 'mL' }),
    product(1, 7.5, { assayPercent: 99 }),
  ];
  const came = (...more: readonly RunEntry[]) => runOutcome(sheet, foldRun(sheet, recorded(sheet, [...written, ...more])));

  test('is said apart: 1.250 · 0.960 = 1.2 g, of 10.081696 g charged 11.9028 %; the yield stays as it is', () => {
    const with_ = came(got(1.25, { assayPercent: 96 }));
    expect(with_.recovery?.contained.value).toBeCloseTo(1.2, 9);
    expect(value(with_.recovery?.percent ?? { ok: false })).toBeCloseTo(11.9028, 4);
    expect(value(with_.yield)).toBeCloseTo(value(came().yield), 12);
    expect(with_.overWhole).toBe(false);
  });
  test('and leaves what is lost: 10.163 + 50.5 · 1.4 = 80.863 g in, 7.500 and 1.250 g out, 72.113 g else', () => {
    const { balance } = came(got(1.25, { assayPercent: 96 }));
    expect(balance.back?.value).toBeCloseTo(1.25, 9);
    expect(value(balance.rest)).toBeCloseTo(72.113, 9);
  });
  test('wet it counts for nothing; two weighings are added up; none is not known to be zero', () => {
    expect(came(got(3, { wet: true })).recovery).toBeNull();
    expect(came(got(1), got(0.5)).recovery?.contained.value).toBeCloseTo(1.5, 12);
    expect(came().recovery).toBeNull();
    expect(came().balance.back).toBeNull();
  });
  test('with the yield it is never more than the whole without a word: 7.425 g are 74.36 %, 2.7 g 26.78 %', () => {
    expect(came(got(2.5)).overWhole).toBe(false);
    expect(came(got(2.7)).overWhole).toBe(true);
  });
  test('its bottle has gone through the steps before its run, and not through that run', () => {
    const start = { plan: 1, revision: 1, route: 1, routeRevision: 1, started: '2027-02-25T09:00:00.000Z', sheet };
    const kept = (id: number, own: readonly RunEntry[]) => ({
      id,
      start,
      entries: recorded(sheet, [{ kind: 'started', by }, ...own]),
    });
    // Run 1 gives 5 g of theory 9.90502 g, 50.479 %; run 2 is charged with it and gives back R; run 3 is charged with R.
    const [first, , third] = runHistory([
      kept(1, [taken('benzoin', 10, { moles: 10 / 212.248, bottle: 'bought' }), product(1, 5, { bottle: 'M' })]),
      kept(2, [taken('benzoin', 10, { moles: 10 / 212.248, bottle: 'M' }), product(1, 2), got(4, { bottle: 'R' })]),
      kept(3, [taken('benzoin', 10, { moles: 10 / 212.248, bottle: 'R' }), product(1, 8)]),
    ]);
    expect(first?.cumulativePercent).toBeCloseTo(50.4795, 3);
    // 8 of 9.90502 g, 80.7671 %, times what came before: 40.7710 %.
    expect(third?.yieldPercent).toBeCloseTo(80.7671, 3);
    expect(third?.cumulativePercent).toBeCloseTo(40.7708, 3);
  });
  test('the report says it, and the entry in words', () => {
    const start = { plan: 1, revision: 1, route: 1, routeRevision: 1, started: '2027-02-25T09:00:00.000Z', sheet };
    const all = recorded(sheet, [...written, got(1.25, { assayPercent: 96, text: '1.250 g', bottle: 'B-9', place: 'fridge' })]);
    const about = { size: 'A4', mark: '.', moment: String, time: String, cumulativePercent: null } as const;
    const paper = runReport({ id: 1, start, entries: all, broken: null }, about);
    expect(Object.fromEntries(paper.outcome.map((one) => [one.label, one.value]))).toMatchObject({
      'basis got back, contained': '1.2000 g',
      'basis got back, of what was charged': '11.90 %',
      'Mass balance: of that basis got back, as weighed': '1.2500 g',
    });
    expect(paper.entries.at(-1)?.words).toBe('Basis got back, benzoin: 1.250 g; assay 96 %; in B-9; fridge.');
  });
});

describe('a run that gave nothing', () => {
  const none = foldRun(
    sheet,
    recorded(sheet, [
      { kind: 'started', by },
      taken('benzoin', 10, { moles: 10 / 212.248 }),
      product(1, 0),
      { kind: 'finished', by },
    ]),
  );
  test('has a yield of 0 %, and all that was charged is liquors and loss', () => {
    const { yield: percent, balance } = runOutcome(sheet, none);
    expect([value(percent), value(balance.product), value(balance.rest)]).toEqual([0, 0, 10]);
  });
});
