import { benchNumbers } from '../../src/core/bench/bench-numbers.ts';
import { stepCautions } from '../../src/core/caution/step-cautions.ts';
import type { Form } from '../../src/core/matter/form.ts';
import type { SessionContext } from '../../src/core/paper/session-papers.ts';
import type { PlanInput } from '../../src/core/plan/input.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { PlanResult } from '../../src/core/plan/result.ts';
import type { Route } from '../../src/core/route/route.ts';
import type { Bottle } from '../../src/core/shelf/shelf.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { reference } from '../reference/tables.ts';
import { bottle, draw, route, settings, shelfOf, step, TODAY } from './build.ts';

/**
 * What papers have the hardest time with, as a plan that is really computed: names that run over lines, Greek and
 * subscripts, a make-up from several bottles, strengths that are not known, places that are not written, a step whose
 * times nobody wrote down, batches by the dozen. Nothing here is a preparation: every step only gives its basis back.
 */
const percent = (value: number): Form => ({ kind: 'solution', strength: { value, basis: '% w/w' } });

export const LONG =
  'N,N-diethyl-α-(4-methoxyphenyl)-β-[3-(1,1-dimethylethoxy)-3-oxopropyl]-γ-butyrolactam-5-carboxylic acid 2,2,2-trifluoroethyl ester';

export const hardRoute: Route = route(
  {
    start: { name: LONG, formula: 'C6H6', state: 'solid' },
    middle: { name: 'Δ⁹-α,β-unsaturated “middle” Ⅱ', formula: 'C6H6', state: 'solid' },
    end: { name: '(±)-ω-end, 2:1 adduct with H₂SO₄·H₂O', formula: 'C6H6', state: 'solid' },
    lye: { name: 'sodium hydroxide', formula: 'NaOH', cas: '1310-73-2', state: 'solid' },
    acid: { name: 'H₂SO₄·H₂O', formula: 'H2SO4', cas: '7664-93-9', state: 'liquid' },
    seed: { name: 'κ-seed', formula: 'C6H6', state: 'solid' },
    ethanol: { name: 'ethanol', formula: 'C2H6O', cas: '64-17-5', state: 'liquid' },
  },
  [
    step({
      id: 'one',
      basis: 'start',
      product: 'middle',
      yieldPercent: { lowest: 40, likeliest: 60, highest: 70 },
      more: [
        {
          do: 'charge',
          id: 'lye',
          stage: 'reaction',
          material: 'lye',
          rule: { kind: 'equivalents', equivalents: 1 },
          form: percent(10),
          portions: 7,
          overMinutes: 45,
          temperature: { from: -10, to: 0 },
          limit: { celsius: 5, side: 'above', action: 'stop adding, wait until it is below −5 °C, then go on at half the rate' },
          caution: 'κ, λ ≥ 2: a caution with signs “that fonts forget” − × · → ⇌ ½ ± √',
        },
        { do: 'hold', id: 'wait', stage: 'reaction', until: 'it is clear', aboutMinutes: 900, ifNot: 'wait another night' },
        {
          do: 'charge',
          id: 'acid',
          stage: 'quench',
          material: 'acid',
          rule: { kind: 'equivalents', equivalents: 0.6 },
          form: percent(37),
        },
        { do: 'removal', id: 'filter', stage: 'work-up', how: 'filter', takes: [{ what: 'liquids', percent: 95 }] },
      ],
      extra: { title: `Step with ${LONG}` },
    }),
    step({
      id: 'two',
      basis: 'middle',
      product: 'end',
      yieldPercent: 80,
      more: [
        {
          do: 'charge',
          id: 'ethanol',
          stage: 'reaction',
          material: 'ethanol',
          form: { kind: 'solution', strength: { value: 96, basis: '% v/v' }, solvent: 'water' },
          rule: { kind: 'volumes', millilitresPerGram: 10 },
          by: 'volume',
        },
        { do: 'charge', id: 'seed', stage: 'reaction', material: 'seed', rule: { kind: 'equivalents', equivalents: 0.001 } },
        { do: 'hold', id: 'open', stage: 'reaction', until: 'nothing more happens' },
      ],
    }),
  ],
);

const own = (id: string, material: string, left: number, form: Form, more: Partial<Bottle> = {}): Bottle =>
  bottle(material, left, 'g', form, { id, lot: id, ...more });

const BOTTLES: readonly Bottle[] = [
  own('p', 'lye', 2, { kind: 'neat' }, { useBy: '2027-01-31' }),
  own('l', 'lye', 15, percent(50), { place: 'bases, B1, the lower shelf behind the glass doors of the small room' }),
  own('acid-old', 'acid', 50, { kind: 'unknown' }),
  own('s', 'seed', 0.5, { kind: 'neat' }),
];

/** The plan for so much of the end product. */
export function hardPlan(amount: number, unit: 'g' | 'mol' = 'g', limitGrams?: number): { input: PlanInput; result: PlanResult } {
  const steps = hardRoute.steps.map((one) =>
    limitGrams === undefined ? one : { ...one, batchLimit: { grams: limitGrams, reason: 'one small flask' } },
  );
  const input: PlanInput = {
    route: { ...hardRoute, steps },
    ask: { name: `Plan of ${LONG}`, draws: [draw('end', amount, unit)] },
    shelf: shelfOf(hardRoute, BOTTLES),
    settings,
    reference,
    asOf: TODAY,
  };
  return { input, result: plan(input) };
}

/** What its papers are built from. */
export function hardContext({ input, result }: ReturnType<typeof hardPlan>, size: 'A4' | 'Letter' = 'A4'): SessionContext {
  return {
    result,
    input,
    size,
    mark: '.',
    settings,
    secondCheck: size === 'Letter',
    say: sentence,
    statements: reference.statement,
    bench: (id) => benchNumbers(input, result, id),
    cautions: (id) => stepCautions(input, result, id, []),
    day: (iso) => iso,
  };
}

/** Every batch of a plan. */
export function everyBatch(result: PlanResult): { readonly step: string; readonly batch: number }[] {
  return result.steps.flatMap((one) =>
    Array.from({ length: one.batches.count }, (_none, at) => ({ step: one.id, batch: at + 1 })),
  );
}
