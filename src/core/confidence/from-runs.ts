import type { YieldDistribution } from './yield-distribution.ts';

/** Yields are held inside these fractions before their logit is taken. */
const LEAST = 0.005;
const MOST = 0.995;
/** The prior: worth one run, about half a logit unit of spread. */
const KAPPA = 1;
const ALPHA = 1.5;
const BETA = 0.19;

/**
 * What the next run of a step may yield, from its runs so far: logit of the yield with a normal–inverse-gamma prior
 * centred on the entered likeliest yield; its predictive distribution is Student-t.
 * @param likeliest,runs fractions of theory; held inside 0.5 … 99.5 %.
 * Conjugate formulas as in Murphy, Conjugate Bayesian analysis of the Gaussian distribution (2007), section 6.
 */
export function yieldFromRuns(likeliest: number, runs: readonly number[]): Extract<YieldDistribution, { kind: 'logit-t' }> {
  const prior = logit(likeliest);
  const seen = runs.map(logit);
  const count = seen.length;
  const mean = count === 0 ? prior : seen.reduce((sum, one) => sum + one, 0) / count;
  const squares = seen.reduce((sum, one) => sum + (one - mean) ** 2, 0);
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

function logit(fraction: number): number {
  const held = Math.min(MOST, Math.max(LEAST, fraction));
  return Math.log(held / (1 - held));
}
