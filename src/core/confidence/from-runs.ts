import { quantile, type YieldDistribution } from './yield-distribution.ts';

/** Yields are held inside these fractions before their logit is taken. */
const LEAST = 0.005;
const MOST = 0.995;
/** The prior: worth one run, about half a logit unit of spread. */
const KAPPA = 1;
const ALPHA = 1.5;
const BETA = 0.19;

export type LearnedYield = Extract<YieldDistribution, { kind: 'logit-t' }>;

/**
 * What the next run of a step may yield, from its runs so far: logit of the yield with a normal–inverse-gamma prior
 * centred on the entered likeliest yield; its predictive distribution is Student-t. A run of weight w counts as w runs.
 * @param likeliest,runs fractions of theory; held inside 0.5 … 99.5 %.
 * @param weights ≥ 0, one for each run; every run counts once where none are given.
 * Conjugate formulas as in Murphy, Conjugate Bayesian analysis of the Gaussian distribution (2007), section 6.
 */
export function yieldFromRuns(likeliest: number, runs: readonly number[], weights?: readonly number[]): LearnedYield {
  const prior = logit(likeliest);
  const seen = runs.map((run, i) => ({ logit: logit(run), weight: weights ? (weights[i] ?? 0) : 1 }));
  const count = seen.reduce((sum, one) => sum + one.weight, 0);
  const mean = count === 0 ? prior : seen.reduce((sum, one) => sum + one.weight * one.logit, 0) / count;
  const squares = seen.reduce((sum, one) => sum + one.weight * (one.logit - mean) ** 2, 0);
  const kappa = KAPPA + count;
  const alpha = ALPHA + count / 2;
  const beta = BETA + squares / 2 + (KAPPA * count * (mean - prior) ** 2) / (2 * kappa);
  return {
    kind: 'logit-t',
    centre: (KAPPA * prior + count * mean) / kappa,
    spread: Math.sqrt((beta * (kappa + 1)) / (alpha * kappa)),
    freedom: 2 * alpha,
  };
}

/** The yield as often passed as not, and those that one run in ten falls below and above; fractions of theory. */
export function learnedSpread(of: LearnedYield): { readonly p10: number; readonly median: number; readonly p90: number } {
  return { p10: quantile(of, 0.1), median: medianOf(of), p90: quantile(of, 0.9) };
}

/** The median of a learned yield, a fraction of theory: the logistic function of its centre. */
export function medianOf({ centre }: LearnedYield): number {
  return 1 / (1 + Math.exp(-centre));
}

function logit(fraction: number): number {
  const held = Math.min(MOST, Math.max(LEAST, fraction));
  return Math.log(held / (1 - held));
}
