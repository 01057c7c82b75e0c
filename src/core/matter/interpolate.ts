/**
 * Monotone cubic interpolation between table points: it passes through every point, never overshoots between two,
 * and does not leave the table. Source: Fritsch & Carlson, SIAM J. Numer. Anal. 17 (1980) 238; slopes of
 * Fritsch & Butland (weighted harmonic mean).
 * @param xs strictly increasing, at least two. @param ys as many. @param x any number.
 * @returns the value, or null outside the table (no extrapolation).
 */
export function interpolateMonotone(xs: readonly number[], ys: readonly number[], x: number): number | null {
  const last = xs.length - 1;
  const first = xs[0];
  const end = xs[last];
  if (last < 1 || first === undefined || end === undefined || !(x >= first && x <= end)) return null;
  const left = Math.min(intervalOf(xs, x), last - 1);
  const x0 = xs[left] as number;
  const x1 = xs[left + 1] as number;
  const y0 = ys[left] as number;
  const y1 = ys[left + 1] as number;
  const width = x1 - x0;
  const t = (x - x0) / width;
  const slope0 = slopeAt(xs, ys, left) * width;
  const slope1 = slopeAt(xs, ys, left + 1) * width;
  const h00 = (1 + 2 * t) * (1 - t) ** 2;
  const h10 = t * (1 - t) ** 2;
  const h01 = t ** 2 * (3 - 2 * t);
  const h11 = t ** 2 * (t - 1);
  return h00 * y0 + h10 * slope0 + h01 * y1 + h11 * slope1;
}

/** Index of the last point that is not above x. */
function intervalOf(xs: readonly number[], x: number): number {
  let low = 0;
  let high = xs.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((xs[middle] as number) <= x) low = middle;
    else high = middle;
  }
  return low;
}

function slopeAt(xs: readonly number[], ys: readonly number[], at: number): number {
  const secant = (from: number): number => ((ys[from + 1] as number) - (ys[from] as number)) / widthOf(xs, from);
  const last = xs.length - 1;
  if (at === 0) return last === 1 ? secant(0) : edgeSlope(secant(0), secant(1), widthOf(xs, 0), widthOf(xs, 1));
  if (at === last)
    return last === 1 ? secant(0) : edgeSlope(secant(last - 1), secant(last - 2), widthOf(xs, last - 1), widthOf(xs, last - 2));
  const before = secant(at - 1);
  const after = secant(at);
  if (before * after <= 0) return 0;
  const w1 = 2 * widthOf(xs, at) + widthOf(xs, at - 1);
  const w2 = widthOf(xs, at) + 2 * widthOf(xs, at - 1);
  return (w1 + w2) / (w1 / before + w2 / after);
}

/** One-sided three-point slope, held so that the end interval stays monotone. */
function edgeSlope(near: number, far: number, nearWidth: number, farWidth: number): number {
  const slope = ((2 * nearWidth + farWidth) * near - nearWidth * far) / (nearWidth + farWidth);
  if (slope * near <= 0) return 0;
  return near * far <= 0 && Math.abs(slope) > 3 * Math.abs(near) ? 3 * near : slope;
}

function widthOf(xs: readonly number[], from: number): number {
  return (xs[from + 1] as number) - (xs[from] as number);
}
