import { describe, expect, test } from 'vitest';
import type { BenchLine } from '../../src/core/bench/bench-section.ts';
import { alikeTogether, harmOf, worstFirst } from '../../src/core/caution/by-harm.ts';
import { stepCautions } from '../../src/core/caution/step-cautions.ts';
import { weighingPaper } from '../../src/core/paper/weighing-sheet.ts';
import { allBefore, beforeText } from '../../src/core/words/bench-before-words.ts';
import { CAUTION_SENTENCES } from '../../src/core/words/caution-sentences.ts';
import { demoContext, demoInput, demoPlan } from './demo-fixture.ts';

const unknown = (code: string, level: BenchLine['level'], material: string): BenchLine => ({
  code,
  level,
  operation: 'x',
  values: { material },
  shown: { kind: 'unknown', why: { code: 'protons not known', values: { material } } },
});

describe('before one charge', () => {
  test('the gas that comes off stands before what the material does to skin', () => {
    const acid = demoPlan.steps.flatMap(({ id, operations }) =>
      operations.flatMap((one) => {
        const found = one.kind === 'charge' ? (stepCautions(demoInput, demoPlan, id, []).get(one.id) ?? []) : [];
        const codes = found.filter(({ level }) => level === 'caution').map(({ code }) => code);
        return codes.includes('gas freed') ? [codes] : [];
      }),
    );
    expect(acid).toEqual([['gas freed', 'reaction itself', 'hazards']]);
  });

  test('every caution that points back comes after every one that says something', () => {
    const codes = Object.keys(CAUTION_SENTENCES).filter((code) => !/^(oxidis|waste)/.test(code));
    const back = codes.filter((code) => code.endsWith(' as before'));
    const most = Math.max(
      ...codes
        .filter((code) => !back.includes(code) && code !== 'no structure')
        .map((code) => harmOf({ level: 'caution', code })),
    );
    expect(back.every((code) => harmOf({ level: 'caution', code }) > most)).toBe(true);
    expect(harmOf({ level: 'error', code: 'oxidiser meets organic' })).toBe(0);
    // An amount that is not known is no caution: it stands behind them.
    const pKa = { level: 'error', code: 'no pKa', values: {}, at: {} } as const;
    const gas = { level: 'caution', code: 'gas freed', values: {}, at: {} } as const;
    expect(worstFirst([pKa, gas])).toEqual([gas, pKa]);
  });

  test('a carbonate that meets three acids is told once, with all three', () => {
    const meets = (other: string, more = {}) =>
      ({ level: 'caution', code: 'acid frees carbon dioxide', values: { material: 'soda', other, ...more }, at: {} }) as const;
    const told = alikeTogether([meets('a', { with: 'a' }), meets('b|c', { with: 'b' }), meets('d', { spent: 'yes' })]).map(
      ({ values }) => values.other,
    );
    expect(told).toEqual(['a|b|c', 'd']);
  });

  test('bench numbers that are cautions are sorted in by their harm, and the other numbers stand behind', () => {
    const words = (code: string): BenchLine => ({
      code,
      level: 'caution',
      operation: 'x',
      values: { gas: 'hydrogen cyanide' },
      shown: { kind: 'words' },
    });
    const found = (code: string) => ({ level: 'caution', code, values: { material: 'lye' }, at: {} }) as const;
    const said = allBefore(
      [found('reaction itself'), found('hazards')],
      [
        { kind: 'neutralise', lines: [unknown('heat', 'number', 'soda'), words('boils'), words('wrong way')] },
        { kind: 'gas', lines: [words('poisons')] },
      ],
      ({ code }) => code,
    );
    expect(said.map(({ code }) => code)).toEqual(['poisons', 'boils', 'reaction itself', 'hazards', 'wrong way', 'heat']);
    expect(said.at(-1)?.level).toBe('number');
  });

  test('what is not known is one line that names each thing and each reason once; a caution stays one', () => {
    const told = beforeText([
      { kind: 'neutralise', lines: [unknown('heat', 'number', 'soda'), unknown('no such line', 'number', 'soda')] },
      { kind: 'heat', lines: [unknown('extra', 'number', 'lye'), unknown('extra', 'caution', 'lye')] },
    ]);
    expect(told.map(({ level }) => level)).toEqual(['caution', 'number']);
    const words = told[1]?.words ?? '';
    expect(words.startsWith('Not known: ')).toBe(true);
    expect(words.match(/;/g)?.length).toBe(2);
    expect(words.match(/is not known here/g)?.length).toBe(2);
  });

  test('on the sheets of the example no charge has two lines of what is not known', () => {
    const every = demoPlan.steps.map(({ id }) => ({ step: id, batch: 1 }));
    const entries = weighingPaper(every, demoContext).sheets.flatMap(({ stages }) => stages.flatMap((stage) => stage.entries));
    const counts = entries.map(({ before }) => before.filter(({ words }) => /^Not known:|: not known\./.test(words)).length);
    expect(Math.max(...counts)).toBe(1);
  });
});
