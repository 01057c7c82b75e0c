import { type ChargeState, inUnitOf } from './state.ts';

/**
 * A charge that the plan takes from several sources, bottles or a bottle and a dish, is weighed one source after the other:
 * what the first gives is not the whole of it, however well it is recorded.
 */

/** A source that has given this part of its share is used up; a basis that has come to less than this part of the plan lacks some. */
const ALMOST = 0.95;
/** Off its share by this part, what is weighed against a range is no share of it but a wrong weighing. */
const NEAR = 0.05;

/** What is still to come from the source that is next, in the charge's unit, and whether that is the last one. */
export interface Share {
  readonly amount: number;
  readonly last: boolean;
}

/**
 * The share of the source that is next.
 * @param bottle label of the bottle that is taken from; null for a dish or none.
 * @returns null where there is one source, where amounts are not known, or where another bottle than planned is taken.
 */
export function shareNow({ charge, target, parts, net }: ChargeState, bottle: string | null): Share | null {
  const planned = charge.target;
  if (charge.portions > 1 || target.target === null || planned === null || planned <= 0 || net === null) return null;
  const shares = charge.bottles.map((one) => ({
    bottle: one.bottle,
    amount: inUnitOf(charge, one.amount, one.unit) ?? Number.NaN,
  }));
  const inBottles = shares.reduce((sum, one) => sum + one.amount, 0);
  if (Number.isNaN(inBottles)) return null;
  const rest = planned - inBottles;
  const all = rest > (1 - ALMOST) * planned ? [...shares, { bottle: null, amount: rest }] : shares;
  if (all.length < 2 || parts.length >= all.length) return null;
  const [scale, next] = [target.target / planned, all[parts.length]];
  if (!next || next.bottle !== bottle) return null;
  const last = parts.length === all.length - 1;
  return { amount: last ? Math.max(0, target.target - net) : next.amount * scale, last };
}

/** Whether a weighing, in the charge's unit, is what one of several sources gives, so that more follows. */
export function isShare(state: ChargeState, amount: number, bottle: string | null): boolean {
  const share = shareNow(state, bottle);
  const { target, low } = state.target;
  if (!share || share.last || target === null) return false;
  if ((state.net ?? 0) + amount >= (low ?? target * ALMOST)) return false;
  return state.charge.isBasis ? amount <= share.amount * 2 : Math.abs(amount / share.amount - 1) <= NEAR;
}
