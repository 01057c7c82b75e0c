import { cumulative, limits, quantile, type YieldDistribution } from './yield-distribution.ts';

/**
 * Steps in a row lose one after another: their yields multiply, so the logs of their yields add. The sum of
 * independent numbers has the convolution of their distributions, worked out here on one grid:
 *
 *     ln Y₁ ▂▅█▃        ln Y₂ ▁▆█        ln Y₁Y₂ ▁▃▆██▅▂
 *           │ each cell holds P(Y within it)    │ every pair of cells adds up
 */
interface Cells {
  /** ln of the yield at the middle of the first cell. */
  readonly first: number;
  readonly chances: Float64Array;
}

/** Cells a row is spread over: so many for each step, and at most. */
const CELLS_PER_STEP = 1000;
const MOST_CELLS = 2000;
/** What lies below this quantile is counted at it: a yield may go to nothing, and its logarithm without end. */
const TAIL = 1e-7;

/**
 * The yields of a row of steps multiplied, at `count` equally likely levels from low to high, as fractions of theory:
 * entry i is the quantile of (i + ½)/count.
 */
export function yieldLevels(row: readonly YieldDistribution[], count: number): Float64Array {
  const certain = row.reduce((product, one) => (one.kind === 'certain' ? product * one.value : product), 1);
  const open = row.filter((one) => one.kind !== 'certain');
  if (open.length === 0) return new Float64Array(count).fill(certain);
  const spans = open.map(logSpan);
  const width = spans.reduce((sum, [low, high]) => sum + high - low, 0) / Math.min(MOST_CELLS, CELLS_PER_STEP * open.length);
  const sum = addAll(open.map((one, i) => cellsOf(one, spans[i] as readonly [number, number], width)));
  const most = spans.reduce((total, [, high]) => total + high, 0);
  return levelsOf(sum, width, most, count, certain);
}

/** Variance of the logarithm of a yield, no unit. */
export function logVariance(of: YieldDistribution): number {
  if (of.kind === 'certain') return 0;
  const span = logSpan(of);
  const width = (span[1] - span[0]) / 400;
  const { first, chances } = cellsOf(of, span, width);
  const moment = (power: number): number => chances.reduce((sum, chance, i) => sum + chance * (first + i * width) ** power, 0);
  return Math.max(0, moment(2) - moment(1) ** 2);
}

function logSpan(of: YieldDistribution): readonly [number, number] {
  const [low, high] = limits(of);
  return [Math.log(low > 0 ? low : Math.max(quantile(of, TAIL), 1e-30)), Math.log(high)];
}

function cellsOf(of: YieldDistribution, [low, high]: readonly [number, number], width: number): Cells {
  const count = Math.max(1, Math.ceil((high - low) / width)) + 1;
  const chances = new Float64Array(count);
  let before = 0;
  for (let i = 0; i < count; i += 1) {
    const below = i === count - 1 ? 1 : cumulative(of, Math.exp(low + (i + 0.5) * width));
    chances[i] = below - before;
    before = below;
  }
  return { first: low, chances };
}

/** Neighbours are added first, so that long and short are never added a cell at a time. */
function addAll(parts: readonly Cells[]): Cells {
  const [first, second] = parts;
  if (!first) return { first: 0, chances: new Float64Array([1]) };
  if (!second) return first;
  const half = Math.ceil(parts.length / 2);
  return add(addAll(parts.slice(0, half)), addAll(parts.slice(half)));
}

function add(one: Cells, other: Cells): Cells {
  const chances = new Float64Array(one.chances.length + other.chances.length - 1);
  one.chances.forEach((chance, i) => {
    if (chance > 0)
      for (let j = 0; j < other.chances.length; j += 1) chances[i + j] = (chances[i + j] ?? 0) + chance * (other.chances[j] ?? 0);
  });
  return { first: one.first + other.first, chances };
}

/**
 * Quantiles read off the cells; within a cell the chance is spread evenly. The outermost cells end where the yields do:
 * nothing lies below the lowest or above the highest there can be.
 */
function levelsOf({ first, chances }: Cells, width: number, most: number, count: number, factor: number): Float64Array {
  const levels = new Float64Array(count);
  let cell = 0;
  let below = 0;
  for (let i = 0; i < count; i += 1) {
    const chance = (i + 0.5) / count;
    while (cell < chances.length - 1 && below + (chances[cell] ?? 0) < chance) {
      below += chances[cell] ?? 0;
      cell += 1;
    }
    const inside = (chance - below) / Math.max(chances[cell] ?? 0, 1e-300);
    const from = Math.max(first, first + (cell - 0.5) * width);
    const to = Math.max(from, Math.min(most, first + (cell + 0.5) * width));
    levels[i] = factor * Math.exp(from + Math.min(1, inside) * (to - from));
  }
  return levels;
}
