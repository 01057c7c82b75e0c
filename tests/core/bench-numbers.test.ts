import { expect, test } from 'vitest';
import { benchLine, benchRange, benchWords } from '../../src/core/bench/bench-section.ts';
import { benchNumbers } from '../../src/core/bench/bench-numbers.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { Settings } from '../../src/core/plan/settings.ts';
import { entered } from '../../src/core/quantity/figure.ts';
import type { Operation, Step } from '../../src/core/route/route.ts';
import { EMPTY_SHELF } from '../../src/core/shelf/shelf.ts';
import { known, unknown } from '../../src/core/words/why.ts';
import { assumptionsText, lineText } from '../../src/core/words/bench-number-words.ts';
import { planText } from '../../src/core/words/plan-text.ts';
import { reference } from '../reference/tables.ts';
import { draw, route, settings, step, TODAY } from './build.ts';

const heat = { kilojoulesPerMole: 100, longestMinutes: 30 };
const sectionsOf = (extra: Partial<Step>, lab: Settings) => {
  const one = route({ a: 'C14H12O2', b: 'C14H10O2' }, [step({ id: '1', basis: 'a', product: 'b', yieldPercent: 80, extra })]);
  const ask = { name: 'test', draws: [draw('b', 1, 'mol')] };
  const input = { route: one, ask, shelf: EMPTY_SHELF, settings: lab, reference, asOf: TODAY };
  return benchNumbers(input, plan(input), '1');
};

test('an addition: 1.25 mol of basis at 100 kJ/mol and 20 W take 104 min at least; without cooling power, why not', () => {
  const addition = sectionsOf({ heat }, { ...settings, coolingWatts: 20 }).find((one) => one.kind === 'addition');
  const [line] = addition?.lines ?? [];
  // By hand: 1 mol ÷ 0.80 × 100 kJ ÷ 20 W ÷ batches.
  expect(line?.shown.kind).toBe('figure');
  expect(addition && assumptionsText(addition)).toContain('cooling power');
  const { coolingWatts: _, ...uncooled } = { ...settings, coolingWatts: 20 };
  const without = sectionsOf({ heat }, uncooled).find((one) => one.kind === 'addition');
  expect(without?.lines.map((one) => lineText('addition', one)).join()).toMatch(/not known\..*cooling power/);
});

test('a line reads as figure, as from → to, as unknown with its reason, or as words', () => {
  const [cold, warm] = [entered('before', 5, '°C', 'typed'), entered('after', 41.26, '°C', 'typed', 3)];
  expect(lineText('addition', benchRange('shortest', cold, warm))).toMatch(/: 5\.00\s°C → 41\.3\s°C$/);
  expect(lineText('addition', benchLine('shortest', known(warm)), ',')).toMatch(/: 41,3\s°C$/);
  expect(lineText('addition', benchLine('shortest', unknown('no cooling power')))).toContain('not known');
  expect(lineText('addition', benchWords('shortest', { level: 'caution', operation: 'x' }))).not.toContain(':');
});

test('what a section rests on is said in the plan text, also where all its lines stand before an operation', () => {
  const materials = {
    a: { name: 'toluene', cas: '108-88-3' },
    b: { name: 'p-xylene', cas: '106-42-3' },
    acid: { name: 'hydrogen chloride', cas: '7647-01-0' },
    lye: { name: 'sodium hydroxide', cas: '1310-73-2' },
  };
  const form = { kind: 'solution', strength: { value: 10, basis: '% w/w' } } as const;
  const more: Operation[] = [
    { do: 'charge', id: 'h', stage: 'quench', material: 'acid', form, rule: { kind: 'equivalents', equivalents: 1 } },
    { do: 'charge', id: 'n', stage: 'quench', material: 'lye', form, rule: { kind: 'to neutralise', endPH: 7 } },
  ];
  const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', more })]);
  const input = {
    route: one,
    ask: { name: 't', draws: [draw('b', 1, 'mol')] },
    shelf: EMPTY_SHELF,
    settings,
    reference,
    asOf: TODAY,
  };
  const result = plan(input);
  const sections = benchNumbers(input, result, '1');
  const neutralise = sections.find(({ kind }) => kind === 'neutralise');
  // What the excess costs later is no matter of the moment the acid goes in.
  const later = neutralise?.lines.filter(({ operation }) => operation === null).map(({ code }) => code);
  expect(later).toEqual(['excess base', 'excess volume', 'excess salt']);
  const text = planText(result, { kind: 'unknown' }, () => sections);
  expect(text).toContain('heats of neutralisation of dilute solutions');
  // A number is told, a caution stands out.
  expect(text).toMatch(/· Acid in the vessel before sodium hydroxide/);
});
