import type { Facts } from '../../matter/facts.ts';
import { entered } from '../../quantity/figure.ts';
import type { Notice } from '../../words/notice.ts';
import type { PlanInput } from '../input.ts';
import type { Network } from '../network/network.ts';
import { limitUsed, MOST_BATCHES, runsOf } from './batches.ts';

/** A step as its starts and batches have settled. */
interface SettledStep {
  readonly input: PlanInput;
  readonly network: Network;
  readonly facts: ReadonlyMap<string, Facts>;
  readonly at: number;
  /** mol of basis. */
  readonly start: number;
  readonly batches: number;
  /** mol of product a mole of basis makes. */
  readonly perMole: number;
}

/** Rounding of the starts. */
const ROUNDING = 1e-9;

/**
 * Why no number of batches gives anything: the largest batch that a step's limits allow makes no more than what stays
 * behind in it. Null where it gives something, and where the person chose the number of batches.
 *
 *     most a batch makes  =  start ÷ batches ÷ (how far that is over the limit) × made per mol     ≤     film
 */
export function nothingLeft(of: SettledStep): Notice | null {
  const { input, network, facts, at, start, batches, perMole } = of;
  const [step, film] = [network.steps[at], network.lost[at] ?? 0];
  if (!step || film === 0 || batches < MOST_BATCHES || input.ask.batches?.[step.id] !== undefined) return null;
  const whole = { step, facts, reference: input.reference, basisMoles: entered('basis', start, 'mol', 'the plan') };
  const { need, why, reason } = limitUsed(whole, runsOf(whole), input.settings, batches);
  const most = (start / batches / need) * perMole;
  if (need <= 1 + ROUNDING || most > film * (1 + ROUNDING)) return null;
  const product = facts.get(step.product);
  const mass = product?.molarMass?.value ?? Number.NaN;
  const values = {
    step: step.title,
    material: product?.name ?? step.product,
    made: most * mass,
    lost: film * mass,
    why,
    reason,
    limit: step.batchLimit?.grams ?? 0,
  };
  return { level: 'error', code: 'batch gives nothing', values, at: { step: step.id } };
}
