/** Chance (0 … 1) that an outcome is at least `value`; between two outcomes in proportion. `sorted` rises. */
export function chanceOfAtLeast(sorted: Float64Array, value: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] ?? 0) < value) low = middle + 1;
    else high = middle;
  }
  if (low === 0) return 1;
  if (low === sorted.length) return 0;
  const [before, after] = [sorted[low - 1] ?? 0, sorted[low] ?? 0];
  const inside = after > before ? (value - before) / (after - before) : 0;
  return 1 - (low - 0.5 + inside) / sorted.length;
}

/** The value that an outcome falls below with this chance (0 … 1); `sorted` rises. */
export function outcomeAt(sorted: Float64Array, chance: number): number {
  const place = Math.min(Math.max(chance * sorted.length - 0.5, 0), sorted.length - 1);
  const before = Math.floor(place);
  const low = sorted[before] ?? 0;
  return low + ((sorted[before + 1] ?? low) - low) * (place - before);
}

/**
 * The value at one place (0 … length − 1) of the outcomes if they were sorted, without sorting them.
 * Hoare, Communications of the ACM 4 (1961) 321: only the part that holds the place is divided further.
 */
export function valueAt(outcomes: Float64Array, place: number): number {
  const list = outcomes.slice();
  let from = 0;
  let to = list.length - 1;
  while (from < to) {
    const middle = list[(from + to) >> 1] ?? 0;
    let [i, j] = [from, to];
    while (i <= j) {
      while ((list[i] ?? 0) < middle) i += 1;
      while ((list[j] ?? 0) > middle) j -= 1;
      if (i <= j) {
        const held = list[i] ?? 0;
        list[i] = list[j] ?? 0;
        list[j] = held;
        i += 1;
        j -= 1;
      }
    }
    if (place <= j) to = j;
    else if (place >= i) from = i;
    else break;
  }
  return list[place] ?? Number.NaN;
}
