import { levelOrder, POINTS } from './lattice.ts';
import { yieldLevels } from './series.ts';
import type { YieldDistribution } from './yield-distribution.ts';

/** What the yields of a network may come to. */
export interface Uncertainty {
  /** By step. */
  readonly distributions: readonly YieldDistribution[];
  /** Yields of a row of steps multiplied ÷ what is planned of them, point by point of a dimension; worked out once. */
  readonly factorOf: (row: readonly number[], planned: number, dimension: number) => Float64Array;
}

/** Gathers the distributions of a network's steps. */
export function uncertaintyOf(distributions: readonly YieldDistribution[]): Uncertainty {
  const known = new Map<string, Float64Array>();
  const factorOf = (row: readonly number[], planned: number, dimension: number): Float64Array => {
    const key = `${row.join()} ${planned} ${dimension}`;
    const before = known.get(key);
    if (before) return before;
    const levels = rememberedLevels(row.map((i) => distributions[i] as YieldDistribution));
    const order = levelOrder(dimension);
    const factor = new Float64Array(POINTS);
    for (let i = 0; i < POINTS; i += 1) factor[i] = (levels[order[i] ?? 0] ?? 0) / planned;
    known.set(key, factor);
    return factor;
  };
  return { distributions, factorOf };
}

/** Rows whose levels are kept from plan to plan: yields stay while draws, stock and batches are tried. */
const MOST_ROWS = 128;
const rememberedRows = new Map<string, Float64Array>();

/** The levels of a row: they depend on its distributions alone. The row not asked for longest is forgotten first. */
function rememberedLevels(row: readonly YieldDistribution[]): Float64Array {
  const key = JSON.stringify(row);
  const levels = rememberedRows.get(key) ?? yieldLevels(row, POINTS);
  rememberedRows.delete(key);
  rememberedRows.set(key, levels);
  const [longest] = rememberedRows.keys();
  if (rememberedRows.size > MOST_ROWS && longest !== undefined) rememberedRows.delete(longest);
  return levels;
}
