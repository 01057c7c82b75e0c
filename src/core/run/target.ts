import { decimalsOf, roundTo, roundUpTo } from '../quantity/round.ts';
import type { RunCharge } from './run-sheet.ts';

/** What is to be taken of a charge, in its own unit; null where it is not known. */
export interface Target {
  readonly target: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/**
 * The target and accepted range of a charge when the basis was weighed differently: multiplied and rounded to what the
 * device shows. A fixed amount per batch, and the basis itself, stay.
 * @param factor contained basis as weighed ÷ as planned, > 0.
 */
export function shiftTarget(charge: RunCharge, factor: number): Target {
  const { target, low, high, exact } = charge;
  if (factor === 1 || !charge.scales || charge.isBasis) return { target, low, high };
  const shown = (value: number | null): number | null =>
    value === null ? null : Number((value * factor).toFixed(charge.decimals));
  const set = onLine(charge, exact ?? target, factor);
  if (set === null) return inRange({ target: shown(exact ?? target), low: shown(low), high: shown(high) });
  // Where no less may be used the range begins at the target, on its line.
  return inRange({ target: set, low: low !== null && low === target ? set : shown(low), high: shown(high) });
}

/** A target multiplied, portion by portion to a line of its device as the plan sets it; up where no less may be used. */
function onLine({ line, portions, low, target, decimals }: RunCharge, exact: number | null, factor: number): number | null {
  if (line === undefined || exact === null) return null;
  const round = low !== null && low === target ? roundUpTo : roundTo;
  const each = round((exact * factor) / portions, line);
  return each > 0 ? Number((each * portions).toFixed(Math.max(decimals, decimalsOf(line)))) : null;
}

/** A target was rounded to what its device shows, up or down: multiplied, it never leaves its own range. */
function inRange({ target, low, high }: Target): Target {
  if (target === null) return { target, low, high };
  return { target: Math.min(high ?? target, Math.max(low ?? target, target)), low, high };
}

/** What a weighing comes to against its range; `by` how much it misses it, in the charge's unit. */
export type Verdict =
  | { readonly kind: 'in range' }
  | { readonly kind: 'below'; readonly by: number }
  | { readonly kind: 'above'; readonly by: number }
  /** No range, but so many times what was planned that a digit may be wrong. */
  | { readonly kind: 'far'; readonly times: number }
  /** How strong it is, is not known, so no amount is asked for: a person says that it is enough. */
  | { readonly kind: 'untold' }
  /** There is nothing to hold it against: the basis, a charge without a range, an unknown target. */
  | { readonly kind: 'recorded' };

/** A basis is recorded as it is; beyond so many times its target, or below that part of it, a person says so first. Common practice, no source. */
const FAR = 2;

/** A difference below this part of what a device shows is binary noise. */
const NOISE = 1e-6;

/**
 * Judges an amount against a target. Portions but the last are held against their own part of the range; the last one,
 * with those before it, against the whole.
 * @param amount of this portion, in the charge's unit; @param before what the portions before came to.
 * @param portion,portions 1 … portions; a further one is judged as the last.
 */
export function verdictOf(
  { target, low, high }: Target,
  amount: number,
  before: number,
  portion: number,
  portions: number,
  decimals: number,
): Verdict {
  const last = portion >= portions;
  const share = last ? 1 : 1 / portions;
  const got = last ? before + amount : amount;
  const noise = 10 ** -decimals * NOISE;
  // Half of what the device shows: a portion cannot be weighed more finely than that.
  const grain = last ? 0 : 0.5 * 10 ** -decimals;
  if (low !== null && got < low * share - grain - noise) return { kind: 'below', by: low * share - got };
  if (high !== null && got > high * share + grain + noise) return { kind: 'above', by: got - high * share };
  if (low !== null || high !== null) return { kind: target === null ? 'recorded' : 'in range' };
  const times = target !== null && target > 0 ? got / (target * share) : 1;
  return times > FAR || times < 1 / FAR ? { kind: 'far', times } : { kind: 'recorded' };
}
