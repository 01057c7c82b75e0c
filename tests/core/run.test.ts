import { createHash } from 'node:crypto';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { brokenLink, firstLink, type Linked, nextLink } from '../../src/core/run/chain.ts';
import type { Recorded, RunEntry } from '../../src/core/run/entry.ts';
import { basisFactor, nextAct } from '../../src/core/run/next-act.ts';
import { cumulativeYield, runOutcome } from '../../src/core/run/outcome.ts';
import { temperatureVerdict } from '../../src/core/run/temperature.ts';
import { foldRun, READ_FIRST, whyNotWritten } from '../../src/core/run/state.ts';
import { shiftTarget, verdictOf } from '../../src/core/run/target.ts';
import { by, charge, recorded, sheetOf, taken } from './run-fixture.ts';

const sheet = sheetOf();
const start: RunEntry = { kind: 'started', by };
const product = (grams: number, more: Partial<Extract<RunEntry, { kind: 'product' }>> = {}): RunEntry => ({
  kind: 'product',
  by,
  crop: 1,
  grams,
  wet: false,
  assayPercent: null,
  place: '',
  text: '',
  bottle: null,
  ...more,
});
const basis = (net: number): RunEntry => taken('benzoin', net, { moles: net / 212.248 });
const outcomeOf = (...entries: readonly RunEntry[]) => runOutcome(sheet, foldRun(sheet, recorded(sheet, [start, ...entries])));
const value = (one: { readonly ok: boolean }): number => ('figure' in one ? (one.figure as { value: number }).value : Number.NaN);

describe('what a run came to, by hand', () => {
  // 10.613 g of benzoin at 98.5 %: 10.613 · 0.985 / 212.248 = 0.0492527845 mol; theory · 210.232 = 10.3545114 g.
  const moles = (10.613 * 0.985) / 212.248;
  const entries = [
    taken('benzoin', 10.613, { moles }),
    { kind: 'rescaled', by, factor: 1 } as const,
    product(8.914, { assayPercent: 99.2 }),
  ];

  test('percent yield against the real basis', () => {
    const got = outcomeOf(...entries);
    expect(value(got.basisMoles)).toBeCloseTo(0.0492527845, 9);
    expect(value(got.theory)).toBeCloseTo(10.3545114, 6);
    // 8.914 · 0.992 / 10.3545114 = 85.3993 %
    expect(value(got.yield)).toBeCloseTo(85.39937492, 7);
    expect(value(got.expected)).toBeCloseTo(10.3545114 * 0.91, 6);
  });

  test('a second crop is counted apart and in the sum', () => {
    const got = outcomeOf(...entries, product(0.5, { crop: 2, assayPercent: 90 }));
    expect(got.crops.map((one) => [one.crop, Number(one.contained.value.toFixed(6))])).toEqual([
      [1, 8.842688],
      [2, 0.45],
    ]);
    expect(value(got.product)).toBeCloseTo(9.292688, 6);
  });

  test('a wet product has no yield; dried, it has', () => {
    const wet = outcomeOf(...entries.slice(0, 2), product(14, { wet: true }));
    expect([wet.yield.ok, wet.product.ok]).toEqual([false, false]);
    const dry = outcomeOf(...entries.slice(0, 2), product(14, { wet: true }), product(9));
    expect(value(dry.product)).toBe(9);
    expect(dry.yield.ok && dry.yield.figure.label).toBe('yield, uncorrected');
  });

  test('grams in, product out, the rest; a volume by its density', () => {
    const got = outcomeOf(...entries, taken('nitric', 49.5, { unit: 'mL' }));
    expect(value(got.balance.in)).toBeCloseTo(10.613 + 49.5 * 1.4, 9);
    expect(value(got.balance.rest)).toBeCloseTo(10.613 + 69.3 - 8.914, 9);
  });

  test('what is missing is not known, never zero', () => {
    const got = outcomeOf(taken('benzoin', 10));
    expect([got.basisMoles.ok, got.theory.ok, got.yield.ok]).toEqual([false, false, false]);
    expect(outcomeOf().basisMoles).toMatchObject({ ok: false, why: { code: 'basis not weighed' } });
  });

  test('cumulative yield: bottles of earlier runs and bought ones, weighed by their moles', () => {
    const state = foldRun(
      sheet,
      recorded(sheet, [
        start,
        taken('benzoin', 6, { moles: 0.03, bottle: 'B-1', complete: false }),
        taken('benzoin', 4, { moles: 0.02, bottle: 'B-2', portion: 2 }),
      ]),
    );
    const own = {
      ok: true,
      figure: { label: '', value: 80, unit: '%', digits: 4, from: { kind: 'entered', where: '' } },
    } as const;
    const got = cumulativeYield(state, own, (bottle) => (bottle === 'B-1' ? { cumulativePercent: 60 } : null));
    // 0.05 mol there, of 0.03/0.6 + 0.02 = 0.07 mol at first.
    expect(value(got)).toBeCloseTo((80 * 0.05) / 0.07, 9);
    expect(cumulativeYield(state, own, () => ({ cumulativePercent: null })).ok).toBe(false);
  });
});

describe('corrections', () => {
  test('a corrected weighing counts as corrected, and both stay readable', () => {
    const entries = recorded(sheet, [
      start,
      basis(10.613),
      { kind: 'correction', by: 'CD', of: 2, reason: 'misread', instead: { ...basis(10.163), kind: 'charged' } as never },
    ]);
    const state = foldRun(sheet, entries);
    expect(state.charges[0]?.net).toBe(10.163);
    expect([entries.length, [...state.corrected]]).toEqual([3, [2]]);
  });

  test('an entry taken out does not count; corrected once more, the last correction does', () => {
    const out: RunEntry = { kind: 'correction', by, of: 2, reason: 'wrong vessel', instead: null };
    const back: RunEntry = { ...out, reason: 'the right vessel after all', instead: basis(9.5) as never };
    const entries = recorded(sheet, [start, basis(10), out, back]);
    expect(foldRun(sheet, entries.slice(0, 3)).charges[0]?.complete).toBe(false);
    expect(foldRun(sheet, entries).charges[0]?.net).toBe(9.5);
    expect(whyNotWritten(sheet, entries.slice(0, 3), basis(11))).toBeNull();
  });

  test.each<[string, RunEntry]>([
    ['no such entry', { kind: 'correction', by, of: 9, reason: 'x', instead: null }],
    ['entry not corrected', { kind: 'correction', by, of: 1, reason: 'x', instead: null }],
    ['correction of another kind', { kind: 'correction', by, of: 2, reason: 'x', instead: { kind: 'remark', by, words: 'x' } }],
    ['charge complete', basis(10)],
    ['no such operation', taken('nothing', 1)],
    ['run started already', start],
    ['portion out of turn', taken('rinse', 1, { portion: 2 })],
    ['net is not gross less tare', taken('rinse', 5, { tare: 1, gross: 7 })],
    ['run not paused', { kind: 'resumed', by }],
  ])('%s', (code, entry) => {
    expect(whyNotWritten(sheet, recorded(sheet, [start, basis(10)]), entry)).toMatchObject({ code });
  });

  test('of the start only who began is put right; a pause, a going on and an end are taken out', () => {
    const entries = recorded(sheet, [start, { kind: 'paused', by }, { kind: 'resumed', by }, { kind: 'finished', by }]);
    const put = (of: number, instead: Extract<RunEntry, { kind: 'correction' }>['instead']) =>
      whyNotWritten(sheet, entries, { kind: 'correction', by, of, reason: 'x', instead });
    expect([put(1, { kind: 'started', by: 'CD' }), put(2, null), put(3, null), put(4, null)]).toEqual([null, null, null, null]);
    expect(put(1, null)).toMatchObject({ code: 'entry not corrected' });
    expect(put(2, { kind: 'remark', by, words: 'x' })).toMatchObject({ code: 'entry not corrected' });
    const after = (...corrections: RunEntry[]) =>
      foldRun(sheet, recorded(sheet, [...entries.map((one) => one.entry), ...corrections]));
    const out = (of: number): RunEntry => ({ kind: 'correction', by, of, reason: 'x', instead: null });
    expect(after(out(4)).phase).toBe('running');
    // Without its going on, the run stands paused; without its pause too, it runs.
    expect(after(out(4), out(3)).phase).toBe('paused');
    expect(after(out(4), out(3), out(2)).phase).toBe('running');
    const began = { kind: 'correction', by, of: 1, reason: 'x', instead: { kind: 'started', by: 'CD' } } as const;
    expect(after(began).standing[0]?.entry).toEqual({ kind: 'started', by: 'CD' });
  });

  test('paused and finished runs take only what belongs there', () => {
    const paused = recorded(sheet, [start, { kind: 'paused', by }]);
    expect(whyNotWritten(sheet, paused, basis(10))).toMatchObject({ code: 'run paused' });
    expect(whyNotWritten(sheet, paused, { kind: 'resumed', by })).toBeNull();
    const done = recorded(sheet, [start, basis(10), { kind: 'finished', by }]);
    expect(whyNotWritten(sheet, done, taken('nitric', 1))).toMatchObject({ code: 'run finished' });
    expect(whyNotWritten(sheet, done, product(9))).toBeNull();
    expect(whyNotWritten(sheet, [], basis(10))).toMatchObject({ code: 'run not started' });
  });
});

const READ: RunEntry = { kind: 'confirmed', by, operation: READ_FIRST };

describe('what stands next', () => {
  test('the head of the sheet is read and signed before anything else', () => {
    expect(nextAct(sheet, foldRun(sheet, recorded(sheet, [start])))).toEqual({ kind: 'read' });
  });

  const late = sheetOf(sheet.charges, ['nitric', 'clear', 'benzoin', 'rinse']);
  const at = (of: typeof sheet, ...entries: readonly RunEntry[]) => {
    const next = nextAct(of, foldRun(of, recorded(of, [start, READ, ...entries])));
    return 'entry' in next ? `${next.kind} ${next.entry.id}` : next.kind;
  };

  test('the basis first, then the question of scaling, then the sheet in its order, each hold confirmed', () => {
    const steps: RunEntry[] = [basis(10.2), { kind: 'rescaled', by, factor: 1.02 }];
    expect([at(late), at(late, ...steps.slice(0, 1)), at(late, ...steps)]).toEqual(['weigh benzoin', 'rescale', 'weigh nitric']);
    steps.push(taken('nitric', 51, { unit: 'mL' }));
    expect(at(late, ...steps)).toBe('hold clear');
    steps.push({ kind: 'confirmed', by, operation: 'clear' });
    expect(at(late, ...steps)).toBe('add benzoin');
    steps.push({ kind: 'confirmed', by, operation: 'benzoin' });
    expect(at(late, ...steps)).toBe('weigh rinse');
    steps.push(taken('rinse', 5, { complete: false }), taken('rinse', 5, { portion: 2 }));
    expect(at(late, ...steps)).toBe('product');
  });

  test('a basis that changes no target as it is shown asks nothing', () => {
    const of = sheetOf([
      charge({ id: 'benzoin', isBasis: true, low: null, high: null }),
      charge({ id: 'acid', exact: 39.31, decimals: 1 }),
    ]);
    const asked = (net: number) => at(of, taken('benzoin', net, { moles: net / 212.248 }));
    expect([asked(10.003), asked(10.05)]).toEqual(['weigh acid', 'rescale']);
  });
  test('a basis weighed as planned but for a factor of 1.000, or for the rounding of what follows, asks nothing', () => {
    // 39.346 mL is 39.3 on the sheet, and 39.354, 0.020 % more, would round to 39.4.
    const near = sheetOf([
      charge({ id: 'benzoin', isBasis: true, low: null, high: null, decimals: 4 }),
      charge({ id: 'acid', exact: 39.346, target: 39.3, decimals: 1 }),
    ]);
    expect(at(near, taken('benzoin', 10.002, { moles: 10.002 / 212.248 }))).toBe('weigh acid');
    // Set to 45.0 mL of 44.89: 0.1 % more is 44.93, as the sheet’s own 44.89 is 44.9.
    const set = sheetOf([
      charge({ id: 'benzoin', isBasis: true, low: null, high: null, decimals: 4 }),
      charge({ id: 'acid', exact: 44.89, target: 45, low: 44, high: 46, decimals: 1 }),
    ]);
    const asked = (net: number) => at(set, taken('benzoin', net, { moles: net / 212.248 }));
    expect([asked(10.01), asked(10.1)]).toEqual(['weigh acid', 'rescale']);
  });

  test('a basis as planned asks nothing; one of unknown moles cannot be asked', () => {
    expect(at(sheet, basis(10))).toBe('weigh nitric');
    expect(at(sheet, taken('benzoin', 11))).toBe('weigh nitric');
    expect(basisFactor(sheet, foldRun(sheet, recorded(sheet, [start, basis(10.5)])))).toBeCloseTo(1.05, 12);
  });
});

describe('targets and verdicts', () => {
  const reagent = charge({ id: 'a', exact: 10.004, decimals: 2 });
  test('what follows the basis is multiplied, a fixed amount and the basis are not', () => {
    expect(shiftTarget(reagent, 1.02)).toEqual({ target: 10.2, low: 10.1, high: 10.3 });
    expect(shiftTarget({ ...reagent, scales: false }, 1.02)).toEqual({ target: 10, low: 9.9, high: 10.1 });
    expect(shiftTarget({ ...reagent, isBasis: true }, 1.02).target).toBe(10);
  });
  test('a target that its device rounded up never leaves its range when it is multiplied', () => {
    // 39.31 mL, no less than the 39.5 mL of a cylinder's line: as the ready example's nitric acid.
    const acid = charge({ id: 'acid', exact: 39.31, target: 39.5, low: 39.5, high: 40.5, decimals: 1 });
    expect(shiftTarget(acid, 1.0003)).toEqual({ target: 39.5, low: 39.5, high: 40.5 });
    expect(shiftTarget(acid, 1.1).target).toBe(43.5);
  });
  test('multiplied, a target still stands on a line of its measure, each portion by itself', () => {
    // A cylinder read to 0.25 mL is set to lines of 0.5 mL: 44.89 mL are 45.0, and 1 % more is 45.34, 45.5 on a line.
    const cylinder = charge({ id: 'c', unit: 'mL', decimals: 1, line: 0.5, exact: 44.89, target: 45, low: 40.4, high: 49.4 });
    expect(shiftTarget(cylinder, 1.0002).target).toBe(45);
    expect(shiftTarget(cylinder, 1.01).target).toBe(45.5);
    expect(shiftTarget({ ...cylinder, portions: 2 }, 1.01).target).toBe(45);
    // No less may be used: up, never down.
    expect(shiftTarget({ ...cylinder, low: 45, exact: 44.6 }, 1.005)).toMatchObject({ target: 45, low: 45 });
    expect(shiftTarget({ ...cylinder, low: 45, target: 45, exact: 44.89 }, 1.004).target).toBe(45.5);
  });
  test('a basis weighed exactly as its target says asks for no scaling, though the target was rounded', () => {
    // Planned 8.978 g, target 8.98 g: 0.023 % more than planned is the rounding of the sheet itself.
    const own = sheetOf([
      charge({ id: 'basis', isBasis: true, exact: 8.978, target: 8.98, low: null, high: null, molesPerUnit: 0.01 }),
      charge({ id: 'acid', exact: 44.995, target: 45, decimals: 2 }),
    ]);
    const at = { ...own, basis: { ...own.basis, moles: 0.08978 } };
    const after = (net: number) =>
      nextAct(at, foldRun(at, recorded(at, [start, READ, taken('basis', net, { moles: net * 0.01 })]))).kind;
    expect(after(8.98)).toBe('weigh');
    expect(after(8.99)).toBe('rescale');
  });
  test('a basis far from the plan is no weighing that is simply recorded', () => {
    const free = { target: 36.09, low: null, high: null };
    const of = (amount: number, portion = 1, portions = 1) => verdictOf(free, amount, 0, portion, portions, 2).kind;
    expect([of(36.4), of(18.1), of(72), of(18), of(72.2), of(3609)]).toEqual([
      'recorded',
      'recorded',
      'recorded',
      'far',
      'far',
      'far',
    ]);
    expect([of(18, 1, 2), of(9, 1, 2), of(40, 1, 2)]).toEqual(['recorded', 'far', 'far']);
    expect(verdictOf(free, 3609, 0, 1, 1, 2)).toEqual({ kind: 'far', times: expect.closeTo(100, 6) as number });
  });
  test('in range, below and above by how much; portions against their part', () => {
    const judge = (amount: number, before = 0, portion = 1, portions = 1) =>
      verdictOf(shiftTarget(reagent, 1), amount, before, portion, portions, 2);
    expect([judge(9.9).kind, judge(10.1).kind]).toEqual(['in range', 'in range']);
    const [below, above] = [judge(9.75), judge(10.35)];
    expect(below.kind === 'below' && below.by).toBeCloseTo(0.15, 12);
    expect(above.kind === 'above' && above.by).toBeCloseTo(0.25, 12);
    expect([judge(5, 0, 1, 2).kind, judge(5, 5, 2, 2).kind, judge(4, 5, 2, 2).kind]).toEqual(['in range', 'in range', 'below']);
    expect(verdictOf({ target: null, low: null, high: null }, 3, 0, 1, 1, 2).kind).toBe('recorded');
  });
});

describe('the chain', () => {
  const hash = (text: string): string => createHash('sha256').update(text, 'utf8').digest('hex');
  const head = { plan: 1, sheet: { a: 1, b: 'µ' } };
  const chained = (entries: readonly Recorded[]): { readonly first: string; readonly linked: Linked[] } => {
    const first = firstLink(head, hash);
    let link = first;
    return { first, linked: entries.map((recorded) => ({ recorded, link: (link = nextLink(link, recorded, hash)) })) };
  };
  const { first, linked } = chained(recorded(sheet, [start, basis(10), product(9)]));

  test('whole as written; the order of keys does not matter', () => {
    expect(brokenLink(head, first, linked, hash)).toBeNull();
    expect(brokenLink({ sheet: { b: 'µ', a: 1 }, plan: 1 }, first, linked, hash)).toBeNull();
  });
  test('a change anywhere is seen, and where', () => {
    expect(brokenLink({ ...head, plan: 2 }, first, linked, hash)).toBe(0);
    const changed = linked.map((one) =>
      one.recorded.number === 2 ? { ...one, recorded: { ...one.recorded, at: '2027-02-25T09:00:09.000Z' } } : one,
    );
    expect(brokenLink(head, first, changed, hash)).toBe(2);
    expect(brokenLink(head, first, [linked[0], linked[2]] as Linked[], hash)).toBe(2);
  });
  test('any one character of any link or number', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2 }), fc.integer({ min: 0, max: 63 }), (at, place) => {
        const one = linked[at] as Linked;
        const other = one.link[place] === 'a' ? 'b' : 'a';
        const link = one.link.slice(0, place) + other + one.link.slice(place + 1);
        expect(brokenLink(head, first, linked.with(at, { ...one, link }), hash)).toBe(at + 1);
      }),
    );
  });
});

describe('a temperature against what the procedure gives', () => {
  const limit = { celsius: 20, side: 'above', action: 'Stop adding.' } as const;
  const cold = { celsius: -10, side: 'below', action: 'Take it out of the bath.' } as const;
  const warm = {
    ...sheet,
    temperatures: [
      { operation: 'acid', window: { from: 0, to: 10 }, limit },
      { operation: 'bath', window: null, limit: cold },
    ],
  };
  test('the limit first, then the window; without either it is only recorded, and never called right', () => {
    const at = (operation: string | null, celsius: number) => temperatureVerdict(warm, operation, celsius);
    expect(at('acid', 20.5)).toEqual({ kind: 'limit', ...limit });
    expect([at('acid', 20).kind, at('acid', 11).kind, at('acid', 10).kind, at('acid', -1).kind]).toEqual([
      'outside',
      'outside',
      'inside',
      'outside',
    ]);
    expect([at('bath', -10.5).kind, at('bath', -9).kind]).toEqual(['limit', 'recorded']);
    expect([at(null, 500).kind, temperatureVerdict(sheet, 'acid', 500).kind]).toEqual(['recorded', 'recorded']);
  });
});
