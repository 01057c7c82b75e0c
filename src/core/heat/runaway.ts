import type { BenchInput } from '../bench/bench-section.ts';
import { momentsOf } from '../bench/moments.ts';
import { riseOf } from '../matter/heat-capacity.ts';
import { computed, type Figure, entered } from '../quantity/figure.ts';
import type { Charge } from '../route/route.ts';
import { type Maybe, known, unknown, type Why } from '../words/why.ts';
import { highestOfSynthesis } from './adiabatic.ts';
import { heatOfMoles } from './calorimetry.ts';
import { type ExtraHeat, extraHeats } from './extra-heats.ts';
import { hottestWhileReacting, isSlow, lastReactant } from './last-reactant.ts';
import { type Mixture, reactingMixture } from './mixture.ts';
import { heatPerBasis, reactionHeat, type ReactionHeat } from './reaction-heat.ts';

/** The heat of one batch and what it does when cooling is lost. */
export interface Runaway {
  /** Where the heat of the reaction is from; null where it is not known. */
  readonly source: ReactionHeat | null;
  /** Of the reaction alone, kJ. */
  readonly reaction: Maybe<'kJ'>;
  /** Beside the reaction, charge by charge. */
  readonly extras: readonly ExtraHeat[];
  /** Those of the charge with which the reaction starts, known ones summed, kJ; null where there are none. */
  readonly extra: Figure<'kJ'> | null;
  /** The charge with which the reaction starts. */
  readonly last: Charge | null;
  readonly slow: boolean;
  readonly mixture: { readonly ok: true; readonly mixture: Mixture } | { readonly ok: false; readonly why: Why };
  readonly rise: Maybe<'K'>;
  readonly process: Maybe<'°C'>;
  /** MTSR. */
  readonly highest: Maybe<'°C'>;
}

/** Works out heat, rise and highest temperature of one batch of a step; what is not known says why. */
export function runawayOf(of: BenchInput): Runaway {
  const { plan } = of;
  const source = reactionHeat(of);
  const per = heatPerBasis(of);
  const reaction: Maybe<'kJ'> = per.ok ? known(heatOfMoles(plan.batches.basisMoles, per.figure)) : per;
  const last = reactingCharge(of);
  const slow = last !== null && isSlow(last);
  const extras = extraHeats(of);
  // What earlier charges gave was carried away before the reaction starts.
  const extra = sumOf(extras.filter((one) => one.charge.id === last?.id));
  const mixture = last ? reactingMixture(of, last) : unknown('nothing in the vessel');
  const rise = riseIn(reaction, extra, mixture);
  const process = processOf(of, last);
  const highest = highestIn({ of, rise, process, mixture, slow });
  return { source: source.ok ? source.heat : null, reaction, extras, extra, last, slow, mixture, rise, process, highest };
}

/**
 * The charge with which the reaction starts: with it everything the equation uses is there, what solutions bring as well.
 * Where that cannot be told by amounts, the charge of the last material of the equation.
 */
function reactingCharge(of: BenchInput): Charge | null {
  const first = momentsOf(of).find((moment) => moment.extent > 0);
  const charge = of.step.operations.find((one): one is Charge => one.do === 'charge' && one.id === first?.operation);
  return charge ?? lastReactant(of.step);
}

/** Reaction and what else its last charge frees, kJ. */
export function togetherWith(reaction: Figure<'kJ'>, extra: Figure<'kJ'> | null): Figure<'kJ'> {
  if (!extra) return reaction;
  const value = reaction.value + extra.value;
  return computed('heat given off, one batch', value, 'kJ', 'reaction + dilution + neutralisation', [reaction, extra]);
}

function riseIn(reaction: Maybe<'kJ'>, extra: Figure<'kJ'> | null, found: Runaway['mixture']): Maybe<'K'> {
  if (!reaction.ok) return reaction;
  if (!found.ok) return found;
  return known(riseOf(togetherWith(reaction.figure, extra), found.mixture.grams, found.mixture.capacity));
}

function processOf(of: BenchInput, last: Charge | null): Maybe<'°C'> {
  return last ? hottestWhileReacting(of, last) : unknown('no temperature window');
}

function highestIn(one: {
  readonly of: BenchInput;
  readonly rise: Maybe<'K'>;
  readonly process: Maybe<'°C'>;
  readonly mixture: Runaway['mixture'];
  readonly slow: boolean;
}): Maybe<'°C'> {
  if (!one.rise.ok) return one.rise;
  if (!one.process.ok) return one.process;
  if (!one.mixture.ok) return one.mixture;
  const percent = one.of.step.heat?.accumulationPercent;
  const accumulation = percent === undefined ? null : entered('accumulation', percent, '%', 'the step');
  const feed = one.slow ? one.mixture.mixture.feed : null;
  return known(highestOfSynthesis({ process: one.process.figure, rise: one.rise.figure, accumulation, feed }));
}

function sumOf(extras: readonly ExtraHeat[]): Figure<'kJ'> | null {
  const figures = extras.flatMap(({ heat }) => (heat.ok ? [heat.figure] : []));
  if (figures.length === 0) return null;
  const value = figures.reduce((sum, figure) => sum + figure.value, 0);
  return computed('heats of dilution and neutralisation', value, 'kJ', 'Σ', figures);
}
