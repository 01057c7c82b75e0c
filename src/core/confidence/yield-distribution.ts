import type { StepYield } from '../route/route.ts';
import { incompleteBeta, normalBelow, studentBelow } from './special.ts';

/**
 * How a yield may come out, as a fraction of theory (0 … 1; a lognormal one may pass 1).
 * certain: one value. beta: between two limits. logit-t: Student-t on ln(y/(1 − y)), from recorded runs.
 */
export type YieldDistribution =
  | { readonly kind: 'certain'; readonly value: number }
  | { readonly kind: 'beta'; readonly alpha: number; readonly beta: number; readonly lowest: number; readonly highest: number }
  | { readonly kind: 'logit-t'; readonly centre: number; readonly spread: number; readonly freedom: number }
  | { readonly kind: 'lognormal'; readonly median: number; readonly sigma: number };

/** Weight of the likeliest value in a PERT distribution. */
const PERT_WEIGHT = 4;

/**
 * PERT distribution from absolute limits: beta with α = 1 + 4(m − a)/(b − a), β = 1 + 4(b − m)/(b − a).
 * @param lowest,likeliest,highest rising, any one unit. Limits that coincide give a certain value.
 * Malcolm, Roseboom, Clark & Fazar, Operations Research 7 (1959) 646, with the beta's own standard deviation.
 */
export function pert(lowest: number, likeliest: number, highest: number): YieldDistribution {
  const width = highest - lowest;
  if (!(width > 0)) return { kind: 'certain', value: likeliest };
  const alpha = 1 + (PERT_WEIGHT * (likeliest - lowest)) / width;
  return { kind: 'beta', alpha, beta: 2 + PERT_WEIGHT - alpha, lowest, highest };
}

/** The estimate (a + 4m + b)/6 and the textbook's standard deviation (b − a)/6, for comparison only. */
export function classicalPert(
  lowest: number,
  likeliest: number,
  highest: number,
): { readonly mean: number; readonly sd: number } {
  return { mean: (lowest + PERT_WEIGHT * likeliest + highest) / (PERT_WEIGHT + 2), sd: (highest - lowest) / 6 };
}

/** "About one in ten": the share outside each limit that is not meant absolutely. */
const ONE_IN_TEN = 0.1;

/**
 * PERT distribution of which a tenth lies below `lowest` and a tenth above `highest`, fractions of theory. Where 0 or
 * 1 stands in the way, that is the limit, and less than a tenth lies outside.
 */
export function pertOneInTen(lowest: number, likeliest: number, highest: number): YieldDistribution {
  if (!(highest > lowest)) return { kind: 'certain', value: likeliest };
  const key = `${lowest} ${likeliest} ${highest}`;
  const known = fitted.get(key);
  if (known) return known;
  const fit = fitOneInTen(lowest, likeliest, highest);
  if (fitted.size >= MOST_FITTED) fitted.clear();
  fitted.set(key, fit);
  return fit;
}

/** Fits depend on their three values alone and take long: they are kept from plan to plan. */
const MOST_FITTED = 512;
const fitted = new Map<string, YieldDistribution>();

function fitOneInTen(lowest: number, likeliest: number, highest: number): YieldDistribution {
  const withTop = (top: number): YieldDistribution => {
    const bottom = bisect(0, lowest, (a) => cumulative(pert(a, likeliest, top), lowest) > ONE_IN_TEN);
    return pert(bottom, likeliest, top);
  };
  const top = bisect(highest, 1, (b) => 1 - cumulative(withTop(b), highest) < ONE_IN_TEN);
  return withTop(top);
}

/** The distribution meant by an entered yield (per cent), as fractions. */
export function distributionOf(entered: StepYield): YieldDistribution {
  if (typeof entered === 'number') return { kind: 'certain', value: entered / 100 };
  const { lowest, likeliest, highest } = entered;
  const fit = entered.limits === 'one in ten' ? pertOneInTen : pert;
  return fit(lowest / 100, likeliest / 100, highest / 100);
}

/** P(yield ≤ value), 0 … 1; value as a fraction of theory. */
export function cumulative(of: YieldDistribution, value: number): number {
  switch (of.kind) {
    case 'certain':
      return value >= of.value ? 1 : 0;
    case 'beta':
      return incompleteBeta((value - of.lowest) / (of.highest - of.lowest), of.alpha, of.beta);
    case 'logit-t':
      if (value <= 0) return 0;
      return value >= 1 ? 1 : studentBelow((Math.log(value / (1 - value)) - of.centre) / of.spread, of.freedom);
    case 'lognormal':
      return value <= 0 ? 0 : normalBelow(Math.log(value / of.median) / of.sigma);
  }
}

/** The value below which a part `chance` (0 … 1) of the yields lies, as a fraction of theory; to about 1e-15. */
export function quantile(of: YieldDistribution, chance: number): number {
  if (of.kind === 'certain') return of.value;
  const [low, high] = limits(of);
  return bisect(low, high, (value) => cumulative(of, value) < chance);
}

/** Values no yield of this distribution passes, as fractions of theory; eight σ for a lognormal one. */
export function limits(of: YieldDistribution): readonly [number, number] {
  switch (of.kind) {
    case 'certain':
      return [of.value, of.value];
    case 'beta':
      return [of.lowest, of.highest];
    case 'logit-t':
      return [0, 1];
    case 'lognormal':
      return [of.median * Math.exp(-8 * of.sigma), of.median * Math.exp(8 * of.sigma)];
  }
}

/** Mean and standard deviation of a certain, beta or lognormal yield, fractions; of a logit-t one by its quantiles. */
export function moments(of: YieldDistribution): { readonly mean: number; readonly sd: number } {
  switch (of.kind) {
    case 'certain':
      return { mean: of.value, sd: 0 };
    case 'beta': {
      const sum = of.alpha + of.beta;
      const width = of.highest - of.lowest;
      const sd = (width / sum) * Math.sqrt((of.alpha * of.beta) / (sum + 1));
      return { mean: of.lowest + (width * of.alpha) / sum, sd };
    }
    case 'lognormal': {
      const mean = of.median * Math.exp(of.sigma ** 2 / 2);
      return { mean, sd: mean * Math.sqrt(Math.expm1(of.sigma ** 2)) };
    }
    case 'logit-t': {
      const values = Array.from({ length: 1000 }, (_, i) => quantile(of, (i + 0.5) / 1000));
      const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
      return { mean, sd: Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length) };
    }
  }
}

/**
 * Mean and standard deviation of the product of independent yields, exact: E = Π mean, E² + V = Π(mean² + sd²).
 * Goodman, J. Am. Stat. Assoc. 55 (1960) 708.
 */
export function productMoments(parts: readonly { readonly mean: number; readonly sd: number }[]): {
  readonly mean: number;
  readonly sd: number;
} {
  const mean = parts.reduce((product, part) => product * part.mean, 1);
  const square = parts.reduce((product, part) => product * (part.mean ** 2 + part.sd ** 2), 1);
  return { mean, sd: Math.sqrt(Math.max(0, square - mean ** 2)) };
}

/** The point between two values where `below` turns false. */
function bisect(low: number, high: number, below: (value: number) => boolean): number {
  let [from, to] = [low, high];
  for (let round = 0; round < 60; round += 1) {
    const middle = (from + to) / 2;
    if (middle === from || middle === to) break;
    if (below(middle)) from = middle;
    else to = middle;
  }
  return (from + to) / 2;
}
