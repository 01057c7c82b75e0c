/** An item to be stacked in a layer: how far it reaches above and below its middle, and where it would like to be. */
export interface Stacked {
  readonly above: number;
  readonly below: number;
  readonly wished: number;
}

/**
 * Middles for items stacked in a fixed order: none overlaps, all stay between 0 and `height`, and together they are as
 * near to their wishes as that allows (least squares; pool adjacent violators).
 */
export function stackMiddles(items: readonly Stacked[], height: number): readonly number[] {
  const offsets: number[] = [];
  let reach = 0;
  for (const item of items) {
    offsets.push(reach + item.above);
    reach += item.above + item.below;
  }
  const wishes = items.map((item, index) => item.wished - (offsets[index] ?? 0));
  const room = Math.max(0, height - reach);
  return nonDecreasing(wishes).map((free, index) => Math.min(Math.max(free, 0), room) + (offsets[index] ?? 0));
}

/** The non-decreasing row nearest to a row of numbers, by least squares. */
function nonDecreasing(row: readonly number[]): readonly number[] {
  const pools: { mean: number; count: number }[] = [];
  for (const value of row) {
    let pool = { mean: value, count: 1 };
    for (let before = pools.at(-1); before && before.mean > pool.mean; before = pools.at(-1)) {
      pools.pop();
      const count = before.count + pool.count;
      pool = { mean: (before.mean * before.count + pool.mean * pool.count) / count, count };
    }
    pools.push(pool);
  }
  return pools.flatMap(({ mean, count }) => Array.from({ length: count }, () => mean));
}
