import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Acknowledged, readBy, readFor, type SaidNow } from '../../src/core/caution/acknowledgement.ts';
import { stepCautions } from '../../src/core/caution/step-cautions.ts';
import { plan } from '../../src/core/plan/plan.ts';
import { cautionWords } from '../../src/core/words/caution-words.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { demoInput } from './demo-fixture.ts';

const AT = { step: 'benzil', operation: 'nitric-acid' } as const;

/** A caution of the ready example's nitric acid as it stands in a plan. */
function saidIn(input: typeof demoInput, code: string): SaidNow {
  const result = plan(input);
  const step = result.steps.find((one) => one.id === AT.step);
  const found = stepCautions(input, result, AT.step, [])
    .get(AT.operation)
    ?.find((one) => one.code === code);
  if (!step || !found) throw new Error(`the ready example says no “${code}” there`);
  return { ...AT, code, words: sentence(found), of: readFor(step) };
}

const readOnce = (caution: SaidNow, id = 1): Acknowledged => ({ ...caution, id, by: 'AB', at: '2026-11-26T09:00:00.000Z' });

/** The ready example with so many batches of the oxidation and without its own limit, which would forbid the scale. */
const inBatches = (count: number): typeof demoInput => ({
  ...demoInput,
  ask: { ...demoInput.ask, batches: { ...demoInput.ask.batches, benzil: count } },
});
const withStrength = (percent: number): typeof demoInput => ({
  ...demoInput,
  route: {
    ...demoInput.route,
    steps: demoInput.route.steps.map((step) => ({
      ...step,
      operations: step.operations.map((one) =>
        one.do === 'charge' && one.id === 'nitric-acid'
          ? { ...one, form: { kind: 'solution' as const, strength: { value: percent, basis: '% w/w' as const } } }
          : one,
      ),
    })),
  },
});

describe('who has read a caution', () => {
  test('the same caution in the same plan stands as read, whoever looks', () => {
    const now = saidIn(demoInput, 'hazards');
    expect(readBy(now, [readOnce(now)])).toMatchObject({ now: [{ by: 'AB' }], earlier: [] });
  });

  test('a batch more than twice as large, and so one of tenfold, has to be read for again, though its words are the same', () => {
    const [small, large] = [saidIn(inBatches(20), 'hazards'), saidIn(inBatches(2), 'hazards')];
    expect(large.words).toBe(small.words);
    expect((large.of.basisGrams ?? 0) / (small.of.basisGrams ?? 1)).toBeCloseTo(10, 6);
    const { now, earlier } = readBy(large, [readOnce(small)]);
    expect(now).toEqual([]);
    expect(earlier).toMatchObject([{ by: 'AB', ended: 'scale' }]);
    // The other way round it was read for more than there is.
    expect(readBy(small, [readOnce(large)]).now).toHaveLength(1);
  });

  test('another strength in the step has to be read for again', () => {
    const [before, after] = [saidIn(demoInput, 'hazards'), saidIn(withStrength(65), 'hazards')];
    expect(after.words).toBe(before.words);
    expect(readBy(after, [readOnce(before)])).toMatchObject({ now: [], earlier: [{ ended: 'charges' }] });
  });

  test('an unknown scale holds for nothing but itself; one kept from before, without its scale, for nothing', () => {
    const now = saidIn(demoInput, 'hazards');
    const blind = { ...now, of: { ...now.of, basisGrams: null } };
    expect(readBy(now, [readOnce(blind)]).earlier).toMatchObject([{ ended: 'scale' }]);
    expect(readBy(blind, [readOnce(now)]).earlier).toMatchObject([{ ended: 'scale' }]);
    const { of: _of, ...kept } = readOnce(now);
    expect(readBy(now, [kept])).toMatchObject({ now: [], earlier: [{ ended: 'not known' }] });
  });

  test('two cautions of one kind at one place are not each other’s earlier wording', () => {
    const one = saidIn(demoInput, 'hazards');
    const other = { ...one, words: 'Another of the same kind.' };
    expect(readBy(other, [readOnce(one)], [one.words, other.words])).toEqual({ now: [], earlier: [] });
    expect(readBy(other, [readOnce(one)], [other.words]).earlier).toMatchObject([{ ended: 'wording' }]);
  });

  test('at any scale: what was read for at least half the batch stands, for less it does not', () => {
    const base = saidIn(demoInput, 'hazards');
    const grams = fc.double({ min: 0.001, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(grams, grams, (then, now) => {
        const at = (basisGrams: number): SaidNow => ({ ...base, of: { ...base.of, basisGrams } });
        expect(readBy(at(now), [readOnce(at(then))]).now).toHaveLength(now <= then * 2 * (1 + 1e-9) ? 1 : 0);
      }),
      { numRuns: 100 },
    );
  });

  test('each way it has ended is said, and asks to be read again', () => {
    for (const ended of ['wording', 'scale', 'charges', 'not known'] as const) {
      expect(cautionWords.readEarlier('AB', '26 Nov', ended)).toMatch(/read by AB, 26 Nov: read it again$/);
    }
  });
});
