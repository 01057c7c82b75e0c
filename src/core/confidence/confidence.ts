import type { PlanInput } from '../plan/input.ts';
import { prepare } from '../plan/plan.ts';
import { learnedRuns, yieldEntered } from '../plan/solve/starts.ts';
import { basisMass } from '../plan/step/run-step.ts';
import { computed, type Figure, entered, EXACT } from '../quantity/figure.ts';
import { startSlopes, type StartSlope } from './start-slopes.ts';
import { type PlanOutcomes, riskShares } from './outcomes.ts';
import { outcomeAt } from './sorted-outcomes.ts';
import { uncertaintyOf } from './uncertainty.ts';
import {
  chancesOf,
  type Chances,
  chooseStart,
  distributionsOf,
  isOpen,
  outcomesOf,
  type Situation,
  startsAt,
} from './start-choice.ts';

/** How sure a plan is. */
export type Confidence =
  /** The plan could not be worked out. */
  | { readonly kind: 'unknown' }
  /** Every step that runs has a yield taken as certain: there is no chance to speak of. */
  | { readonly kind: 'certain'; readonly slopes: readonly StartSlope[] }
  /** Stock covers every draw, and stock is certain. */
  | { readonly kind: 'nothing to start' }
  | ({ readonly kind: 'chance' } & Outlook);

export interface Outlook {
  /** That all draws are met from the start the plan has now, %. */
  readonly chance: Figure<'%'>;
  /** The same for the start at the likeliest yields, %: seldom fifty. */
  readonly atLikeliest: Figure<'%'>;
  /** Material and amount of the first start, as planned now. */
  readonly first: FirstStart;
  /** The start for each chance. */
  readonly levels: readonly Level[];
  readonly products: readonly ProductSpread[];
  /** Part of the uncertainty, %; the largest first, certain steps left out. */
  readonly risks: readonly { readonly step: string; readonly share: Figure<'%'> }[];
  readonly slopes: readonly StartSlope[];
  /** Chance against the multiplier of the likeliest start, rising. */
  readonly curve: readonly { readonly multiplier: number; readonly percent: number; readonly grams: number | null }[];
}

export interface FirstStart {
  readonly step: string;
  readonly material: string;
  readonly grams: Figure<'g'> | null;
}

export interface Level {
  readonly percent: number;
  /** Null where no start has this chance. */
  readonly multiplier: Figure<''> | null;
  readonly grams: Figure<'g'> | null;
}

export interface ProductSpread {
  readonly draw: string;
  readonly material: string;
  readonly asked: Figure<'g'>;
  /** What one plan in ten falls below, half, nine in ten: contained grams for this draw. */
  readonly p10: Figure<'g'>;
  readonly p50: Figure<'g'>;
  readonly p90: Figure<'g'>;
}

const LEVELS: readonly number[] = [50, 80, 90, 95];
/** Chances between which the curve is drawn, and its points. */
const CURVE_FROM = 0.005;
const CURVE_TO = 0.995;
const CURVE_POINTS = 21;

/**
 * Chance of enough: that all draws are met, with one yield a step shared by its batches, steps independent, stock
 * certain and the planned split. Deterministic; apart from plan() because it is slower.
 */
export function confidenceOf(input: PlanInput): Confidence {
  const prepared = prepare(input);
  if (!prepared.ok) return { kind: 'unknown' };
  const { situation } = prepared;
  if (!situation.base.steps.some((step) => step.active)) return { kind: 'nothing to start' };
  const slopes = startSlopes(situation, firstStep(situation));
  if (!isOpen(situation)) return { kind: 'certain', slopes };
  const chosen = chooseStart(situation);
  if (!chosen.ok) return { kind: 'unknown' };
  const { network } = situation;
  const uncertainty = uncertaintyOf(distributionsOf(network, situation.input.ask));
  const chances = chancesOf(situation, uncertainty);
  const outcomes = outcomesOf(situation, chosen.starts, uncertainty);
  const { multiplier } = chosen.start;
  const at = firstStep(situation);
  const ranges = rangeFigures(situation);
  const chanceAt = (of: Figure<''>, label: string): Figure<'%'> =>
    computed(label, 100 * chances.of(of.value), '%', 'share of possible outcomes in which every draw is met', [of, ...ranges]);
  return {
    kind: 'chance',
    chance: chanceAt(multiplier, 'chance of enough'),
    atLikeliest: chanceAt(entered('start', 1, '', 'the likeliest yields', EXACT), 'chance of enough at the likeliest yields'),
    first: firstStart(situation, at, multiplier),
    levels: LEVELS.map((percent) => level(situation, chances, at, percent, ranges)),
    products: spreads(situation, outcomes, [multiplier, ...ranges]),
    risks: riskShares(outcomes, uncertainty.distributions)
      .flatMap((share, i) => {
        const step = network.steps[i];
        if (!step || share <= 0) return [];
        const figure = computed(
          `risk carried by ${step.title}`,
          100 * share,
          '%',
          'its part in the variance of the logarithm',
          ranges,
        );
        return [{ step: step.id, share: figure }];
      })
      .sort((a, b) => b.share.value - a.share.value),
    slopes,
    curve: curve(situation, chances, at),
  };
}

/** The first step in working order that runs at the likeliest yields. */
function firstStep({ network, base }: Situation): number {
  return network.groups.flat().find((i) => base.steps[i]?.active) ?? 0;
}

function gramsAt(situation: Situation, at: number, multiplier: Figure<''>): Figure<'g'> | null {
  const started = startsAt(situation, multiplier);
  const step = situation.network.steps[at];
  const basisMoles = started.ok ? started.starts.steps[at]?.basisMoles : undefined;
  return step && basisMoles ? basisMass({ step, facts: situation.facts, basisMoles }) : null;
}

function firstStart(situation: Situation, at: number, multiplier: Figure<''>): FirstStart {
  const step = situation.network.steps[at];
  return { step: step?.id ?? '', material: step?.basis ?? '', grams: gramsAt(situation, at, multiplier) };
}

function level(situation: Situation, chances: Chances, at: number, percent: number, ranges: readonly Figure[]): Level {
  const value = chances.multiplierFor(percent / 100);
  if (value === null) return { percent, multiplier: null, grams: null };
  const wanted = entered('chance of enough', percent, '%', 'the question', EXACT);
  const multiplier = computed('aimed at, times what has to be made', value, '', 'the least start with this chance of enough', [
    wanted,
    ...ranges,
  ]);
  return { percent, multiplier, grams: gramsAt(situation, at, multiplier) };
}

function spreads(situation: Situation, outcomes: PlanOutcomes, of: readonly Figure[]): readonly ProductSpread[] {
  return situation.wants.flatMap((want, d): readonly ProductSpread[] => {
    const ratios = outcomes.draws[d]?.toSorted();
    const mass = situation.facts.get(want.material)?.molarMass;
    const draw = situation.input.ask.draws[d];
    if (!ratios || !mass || !draw) return [];
    const name = situation.facts.get(want.material)?.name ?? want.material;
    const asked = computed(`${name} wanted`, want.moles.value * mass.value, 'g', 'moles × molar mass', [want.moles, mass]);
    const part = (chance: number, words: string): Figure<'g'> =>
      computed(`${name}, ${words}`, outcomeAt(ratios, chance) * asked.value, 'g', 'wanted × outcome', [asked, ...of]);
    return [
      {
        draw: draw.id,
        material: want.material,
        asked,
        p10: part(0.1, 'one time in ten less than this'),
        p50: part(0.5, 'as often more as less'),
        p90: part(0.9, 'one time in ten more than this'),
      },
    ];
  });
}

function curve(situation: Situation, chances: Chances, at: number): Outlook['curve'] {
  const from = chances.multiplierFor(CURVE_FROM);
  const to = chances.multiplierFor(CURVE_TO);
  if (from === null || to === null) return [];
  const base = gramsAt(situation, at, entered('start', 1, '', 'the likeliest yields'))?.value ?? null;
  return Array.from({ length: CURVE_POINTS }, (_, i) => {
    const multiplier = from + ((to - from) * i) / (CURVE_POINTS - 1);
    const solved = chances.proportional ? null : gramsAt(situation, at, entered('start', multiplier, '', 'trial'));
    const grams = chances.proportional && base !== null ? base * multiplier : (solved?.value ?? null);
    return { multiplier, percent: 100 * chances.of(multiplier), grams };
  });
}

/** The ranges of the steps that run, as figures an explanation can show. */
function rangeFigures({ network, base, input }: Situation): readonly Figure[] {
  return network.steps.flatMap((step, i) => {
    const range = yieldEntered(step, input.ask);
    const runs = base.steps[i]?.active ? learnedRuns(step, input.ask) : [];
    if (runs.length > 0) {
      return runs.map((one) => entered(`yield of run ${one.run} of ${step.title}`, one.percent, '%', 'its record'));
    }
    if (typeof range === 'number' || !base.steps[i]?.active) return [];
    const label = (which: string): string => `${which} yield of ${step.title}`;
    return [
      entered(label('lowest'), range.lowest, '%', range.limits ?? 'absolute'),
      entered(label('likeliest'), range.likeliest, '%', 'the step'),
      entered(label('highest'), range.highest, '%', range.limits ?? 'absolute'),
    ];
  });
}
