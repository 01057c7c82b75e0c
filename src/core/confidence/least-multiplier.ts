/** Multipliers beyond which no start is looked for. */
export const LEAST_MULTIPLIER = 0.01;
export const MOST_MULTIPLIER = 100;
/** How closely the least multiplier is found, relative to itself. */
const CLOSE = 1e-4;
/** A guess is tried this far above itself, so that it is likely to be enough, and this far below for what is not. */
const ABOVE = 1 + 0.3 * CLOSE;
const BELOW = 1 + 0.95 * CLOSE;

/**
 * The least multiplier with which a plan is enough, to 1e-4 of itself and never less.
 *
 *     ln enough ▲            ╱ ·       enough grows nearly in proportion to the start, so the first guess
 *           0 ──┼─────────╱─●──▶ ln    is 1 ÷ enough; then the line through the two nearest that were
 *               │      ╱ ·  m          tried, a hair above where it meets enough and a hair below
 *
 * @param enough what the wanted part of the outcomes gets ÷ what is asked, at a multiplier; rises with it.
 * @returns null where even MOST_MULTIPLIER is not enough.
 */
export function leastMultiplier(enough: (multiplier: number) => number): number | null {
  const tried: Tried[] = [];
  let low: Tried | null = null;
  let high: Tried | null = null;
  for (let at = 1; ; ) {
    const one = { at, height: Math.log(Math.max(enough(at), 1e-9)) };
    tried.push(one);
    if (one.height >= 0) high = one;
    else low = one;
    if (!high && at >= MOST_MULTIPLIER) return null;
    if (!low && high && at <= LEAST_MULTIPLIER) return at;
    if (low && high && high.at / low.at <= 1 + CLOSE) return high.at;
    at = low && high ? between(low, high, tried) : beyond(one, tried);
  }
}

interface Tried {
  readonly at: number;
  /** ln of enough: from 0 on it is. */
  readonly height: number;
}

/** Where all that was tried was enough, or nothing was: on along the line, at first in proportion; at most sixteenfold. */
function beyond(one: Tried, tried: readonly Tried[]): number {
  const { at, height } = one;
  // A curve that hardly rises is not followed, but left behind.
  if (tried.length > 5) return Math.min(MOST_MULTIPLIER, Math.max(LEAST_MULTIPLIER, height >= 0 ? at / 2 : at * 2));
  const line = meets(nearest(tried));
  const along = height >= 0 ? line < at : line > at;
  const guess = (along ? line : at * Math.exp(-height)) * ABOVE;
  // Enough already, and by the guess no less would be: a little below has to be shown not to be.
  const next = height >= 0 ? Math.min(guess, at / BELOW) : Math.max(guess, at * ABOVE);
  const held = Math.min(at * 16, Math.max(at / 16, next));
  return Math.min(MOST_MULTIPLIER, Math.max(LEAST_MULTIPLIER, held));
}

/** From the seventh trial on every other cut is halfway, so that the interval shrinks whatever the shape of the curve. */
function between(low: Tried, high: Tried, tried: readonly Tried[]): number {
  const halfway = Math.sqrt(low.at * high.at);
  const guess = meets(nearest(tried));
  if ((tried.length > 6 && tried.length % 2 === 0) || !(guess >= low.at && guess <= high.at)) return halfway;
  const cut = high.at / guess <= 1 + 0.5 * CLOSE ? high.at / BELOW : guess * ABOVE;
  return cut > low.at && cut < high.at ? cut : halfway;
}

function nearest(tried: readonly Tried[]): readonly Tried[] {
  return tried.toSorted((a, b) => Math.abs(a.height) - Math.abs(b.height)).slice(0, 2);
}

/** Where the line through two that were tried meets enough; not a number where it never does. */
function meets([one, other]: readonly Tried[]): number {
  if (!one || !other || one.height === other.height) return Number.NaN;
  const slope = (other.height - one.height) / Math.log(other.at / one.at);
  return one.at * Math.exp(-one.height / slope);
}
