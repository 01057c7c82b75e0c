import { describe, expect, test } from 'vitest';
import type { BenchLine } from '../../src/core/bench/bench-section.ts';
import type { Charge, Operation } from '../../src/core/route/route.ts';
import { solution } from '../reference/amounts.ts';
import { each, quenchCharge, quenchOf } from './quench-fixture.ts';

// Where "all at once" starts from. A flask that was last held at reflux is not at room temperature.

const MATERIALS = {
  a: { name: 'a', formula: 'C6H12', state: 'liquid' as const },
  b: { name: 'b', formula: 'C6H12', state: 'liquid' as const },
  water: { name: 'water', cas: '7732-18-5', utility: true },
  sulfuric: { name: 'sulfuric acid', cas: '7664-93-9' },
  lye: { name: 'sodium hydroxide', cas: '1310-73-2' },
};
const held = (from: number, to: number): Operation => ({
  do: 'hold',
  id: `held ${to}`,
  stage: 'reaction',
  until: 'done',
  temperature: { from, to },
});
const acid = (): Operation => quenchCharge('sulfuric', each(50, 'g'), solution(70, '% w/w'));
const water = (more: Partial<Charge> = {}): Operation => quenchCharge('water', each(100, 'g'), undefined, more);
const lye = (more: Partial<Charge> = {}): Operation =>
  quenchCharge('lye', { kind: 'to neutralise', endPH: 7 }, solution(15, '% w/w'), more);

const lines = (...more: readonly Operation[]): readonly BenchLine[] =>
  quenchOf(MATERIALS, more).flatMap((section) => section.lines);
const startOf = (all: readonly BenchLine[], code: string): number => {
  const shown = all.find((line) => line.code === code)?.shown;
  if (shown?.kind !== 'from to') throw new Error(`${code}: ${shown?.kind}`);
  return shown.from.value;
};

describe('a charge without a window', () => {
  test('starts at the top of the hold before it, and says so', () => {
    const all = lines(acid(), held(100, 110), lye());
    expect(startOf(all, 'temperature')).toBe(110);
    expect(all.find((line) => line.code === 'temperature')?.values.carried).toBe('yes');
  });
  test('so does water into what is hot', () => expect(startOf(lines(acid(), held(100, 110), water()), 'extra rise')).toBe(110));
  test('water into what is hotter than it boils is a caution of its own', () => {
    const all = lines(acid(), held(100, 110), water());
    expect(all.find((line) => line.code === 'extra boils')).toMatchObject({ level: 'caution', operation: 'water' });
    expect(lines(acid(), water()).find((line) => line.code === 'extra boils')).toBeUndefined();
  });
  test('a later, colder window counts instead; below room temperature the room does', () => {
    expect(startOf(lines(acid(), held(100, 110), held(20, 25), lye()), 'temperature')).toBe(25);
    expect(startOf(lines(acid(), held(-78, -70), lye()), 'temperature')).toBe(20);
  });
  test('layers are separated cold', () => {
    const separated: Operation = { do: 'removal', id: 'layers', stage: 'quench', how: 'separate', takes: [] };
    expect(startOf(lines(acid(), held(100, 110), separated, lye()), 'temperature')).toBe(20);
  });
});

test('a window of its own decides', () =>
  expect(startOf(lines(acid(), held(100, 110), lye({ temperature: { from: 0, to: 10 } })), 'temperature')).toBe(10));

test('a quench of unknown amount says why once, in its own section: no heat “of unknown moles” beside it', () => {
  const unknown = { ...MATERIALS, odd: { name: 'an acid unseen', formula: 'C8H8O3', state: 'solid' as const } };
  const sections = quenchOf(unknown, [acid(), quenchCharge('odd', each(10, 'g')), lye()]);
  const said = sections.flatMap(({ kind, lines: all }) =>
    all.filter(({ operation }) => operation === 'lye').map(({ code }) => `${kind}: ${code}`),
  );
  expect(said.filter((one) => one.startsWith('heat'))).toEqual([]);
  expect(said).toContain('neutralise: mass');
  expect(said).toContain('neutralise: heat');
});
