import fc from 'fast-check';
import { expect, test } from 'vitest';
import { benchNumbers } from '../../src/core/bench/bench-numbers.ts';
import type { Material } from '../../src/core/matter/material.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { Operation, Stage } from '../../src/core/route/route.ts';
import { EMPTY_SHELF } from '../../src/core/shelf/shelf.ts';
import { assumptionsText, lineText, sectionWords } from '../../src/core/words/bench-number-words.ts';
import { reference } from '../reference/tables.ts';
import { draw, route, settings, step, TODAY } from '../core/build.ts';

const materials: Readonly<Record<string, Material>> = {
  a: { name: 'a', formula: 'C14H12O2', state: 'solid' },
  b: { name: 'b', formula: 'C14H10O2', state: 'solid', acidity: { pKa: [4], protons: 1 } },
  water: { name: 'water', formula: 'H2O' },
  sulfuric: { name: 'sulfuric acid', cas: '7664-93-9' },
  acetic: { name: 'acetic acid', cas: '64-19-7' },
  lye: { name: 'sodium hydroxide', cas: '1310-73-2' },
  soda: { name: 'sodium carbonate', cas: '497-19-8' },
  thionyl: { name: 'thionyl chloride', cas: '7719-09-7' },
  ethyl: { name: 'ethyl acetate', cas: '141-78-6' },
  dcm: { name: 'dichloromethane', cas: '75-09-2' },
  odd: { name: 'an oil' },
  hydrogen: { name: 'hydrogen', cas: '1333-74-0' },
  base: { name: 'triethylamine', cas: '121-44-8' },
};
const STAGES: readonly Stage[] = ['reaction', 'quench', 'work-up', 'purification'];
const amount = fc.double({ min: 0.001, max: 50, noNaN: true });
const rule = fc.oneof(
  amount.map((equivalents) => ({ kind: 'equivalents' as const, equivalents })),
  amount.map((millilitresPerGram) => ({ kind: 'volumes' as const, millilitresPerGram })),
  amount.map((gramsPerGram) => ({ kind: 'mass ratio' as const, gramsPerGram })),
  amount.map((one) => ({ kind: 'per batch' as const, amount: one, unit: 'mL' as const })),
  fc.constantFrom(4, 7, 8.5, 10).map((endPH) => ({ kind: 'to neutralise' as const, endPH, excessPercent: 10 })),
);
const charge = fc.record({
  material: fc.constantFrom(...Object.keys(materials)),
  rule: fc.oneof(
    rule,
    rule.map((estimate) => ({ kind: 'until' as const, endPoint: 'pH 7', estimate, atMost: 2 })),
  ),
  percent: fc.option(fc.constantFrom(1, 15, 50, 95), { nil: null }),
  overMinutes: fc.option(fc.constant(30), { nil: undefined }),
});
const removal = fc.record({
  how: fc.constantFrom('filter' as const, 'separate' as const, 'distil' as const, 'dry' as const, 'wash away' as const),
  what: fc.constantFrom('liquids', 'solids', 'aqueous layer', 'organic layer', 'all but the product', 'water'),
  percent: fc.constantFrom(0, 50, 95, 100),
});
type Piece = { readonly charge: unknown } | { readonly removal: unknown } | { readonly hold: true };
const piece: fc.Arbitrary<Piece> = fc.oneof(
  { weight: 5, arbitrary: charge.map((one) => ({ charge: one })) },
  { weight: 3, arbitrary: removal.map((one) => ({ removal: one })) },
  { weight: 1, arbitrary: fc.constant({ hold: true as const }) },
);

function operationOf(one: Piece, at: number, stage: Stage): Operation {
  const id = `o${at}`;
  if ('hold' in one) return { do: 'hold', id, stage, until: 'done' };
  if ('removal' in one) {
    const { how, what, percent } = one.removal as { how: 'filter'; what: string; percent: number };
    return { do: 'removal', id, stage, how, takes: [{ what, percent }] };
  }
  const { percent, overMinutes, ...rest } = one.charge as { percent: number | null; overMinutes?: number } & Record<
    string,
    never
  >;
  const form = percent === null ? {} : { form: { kind: 'solution', strength: { value: percent, basis: '% w/w' } } };
  return { do: 'charge', id, stage, ...rest, ...form, ...(overMinutes ? { overMinutes } : {}) } as unknown as Operation;
}

// Whatever a route does, a number of the bench is a number, or says why there is none.
test('every section of every step reads as words and finite numbers', () => {
  fc.assert(
    fc.property(
      fc.array(piece, { minLength: 1, maxLength: 9 }),
      fc.option(fc.constantFrom(5, 200), { nil: undefined }),
      fc.boolean(),
      (pieces, kilojoulesPerMole, gas) => {
        const last = Math.max(1, pieces.length - 1);
        const more = pieces.map((one, at) => operationOf(one, at, STAGES[Math.floor((3.99 * at) / last)] ?? 'reaction'));
        const makes = [{ material: 'b', coefficient: 1 }, ...(gas ? [{ material: 'hydrogen', coefficient: 1, gas: true }] : [])];
        const equation = { uses: [{ material: 'a', coefficient: 1 }], makes };
        const heat = kilojoulesPerMole === undefined ? {} : { heat: { kilojoulesPerMole } };
        const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', more, extra: { equation, ...heat } })]);
        const input = {
          route: one,
          ask: { name: 't', draws: [draw('b', 10)] },
          shelf: EMPTY_SHELF,
          settings,
          reference,
          asOf: TODAY,
        };
        const result = plan(input);
        // A step that uses its own product may have no plan.
        if (!result.steps.some(({ id }) => id === '1')) return;
        for (const section of benchNumbers(input, result, '1')) {
          const words = sectionWords(section.kind);
          for (const line of section.lines) {
            expect(Object.keys(words.lines)).toContain(line.code);
            const text = lineText(section.kind, line);
            expect(text).not.toMatch(/undefined|NaN|Infinity|null|\bsafe\b/);
            const figures =
              line.shown.kind === 'figure' ? [line.shown.figure] : line.shown.kind === 'from to' ? [line.shown.to] : [];
            for (const figure of figures) expect(Number.isFinite(figure.value), `${section.kind} ${text}`).toBe(true);
          }
          expect(assumptionsText(section)).not.toContain('undefined');
        }
      },
    ),
    { numRuns: 300 },
  );
}, 60_000);
