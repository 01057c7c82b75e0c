import type { LedgerLine } from '../port/shelf.ts';

type Line = Pick<LedgerLine, 'id' | 'kind' | 'change' | 'undoes'>;

/** Amounts are kept to a millionth of a gram or millilitre; sums of them are compared at that grain. */
const GRAINS = 1e6;

/**
 * The measured amount ("adjusted") that would no longer hold if a line were undone, or null where none is touched. What
 * was really found in the bottle counts everything before it in, so a line before it cannot be taken back on its own.
 * @param ledger every line of one bottle, in g or mL.
 * @param undo id of the line to be undone.
 */
export function brokenMeasurement<L extends Line>(ledger: readonly L[], undo: number): L | null {
  const before = new Set(ledger.flatMap((line) => (line.undoes === null ? [] : [line.undoes])));
  const now = standing(ledger, before);
  const then = standing(ledger, new Set([...before, undo]), undo);
  const broken = ledger.filter((line) => {
    if (line.kind !== 'adjusted' || !then.has(line.id)) return false;
    const off = drift(ledger, line.id, then);
    return off !== 0 && !(now.has(line.id) && drift(ledger, line.id, now) === off);
  });
  return broken.at(-1) ?? null;
}

/** Ids of the movements that count: not undone, or undone and brought back. */
function standing(ledger: readonly Line[], undone: ReadonlySet<number>, last?: number): ReadonlySet<number> {
  const counters = new Map(ledger.flatMap((line) => (line.undoes === null ? [] : [[line.undoes, line.id]])));
  const counts = (id: number): boolean => {
    if (!undone.has(id)) return true;
    const counter = counters.get(id);
    return id === last || counter === undefined ? false : !counts(counter);
  };
  return new Set(ledger.filter((line) => line.kind !== 'undone' && counts(line.id)).map((line) => line.id));
}

/** By how much what counts up to a line misses what was in the bottle when it was written. */
function drift(ledger: readonly Line[], at: number, counting: ReadonlySet<number>): number {
  let off = 0;
  for (const line of ledger) {
    if (line.id > at) continue;
    off += Math.round(line.change * GRAINS) * (Number(counting.has(line.id)) - 1);
  }
  return off;
}
