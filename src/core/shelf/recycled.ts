import type { Step } from '../route/route.ts';

/**
 * What comes back of one batch goes into the next, so that of n equal batches only the first takes all from the shelf:
 *
 *     batch 1   c              ┐
 *     batch 2   c·(1 − r)      │ together n·c · (1 − r·(n − 1)/n), where n·c is what the batches charge
 *     batch n   c·(1 − r)      ┘
 *
 * The batches are taken to be done one after the other; side by side each needs its c. What the last one gives back is
 * left over, so that the net use, n·c·(1 − r), is less still. Source: a balance over the batches.
 */
export interface Recycled {
  /** Part of what a batch charges that comes back of it, 0 … 1. */
  readonly returns: number;
  /** Equal batches; from 1 on. */
  readonly batches: number;
}

/** Which part of all that is charged has to come from the shelf, over all batches; 1 where nothing comes back. */
export function partFromShelf(of: Recycled): number {
  return partUpTo(of, Math.max(1, of.batches));
}

/** Which part of all that is charged the batches 1 … `last` take from the shelf. */
export function partUpTo({ returns, batches }: Recycled, last: number): number {
  return last <= 0 ? 0 : (1 + (last - 1) * (1 - returns)) / Math.max(1, batches);
}

/** Which part of all that is charged one batch takes from the shelf. @param batch 1 … batches. */
export function partOfBatch(of: Recycled, batch: number): number {
  return partUpTo(of, batch) - partUpTo(of, batch - 1);
}

/** Part of its charges of a material that a step gets back of each batch, 0 … 1, as the step's recoveries say. */
export function returnsOf(step: Pick<Step, 'recovers'> | undefined, material: string): number {
  const percent = (step?.recovers ?? []).reduce(
    (sum, one) => (one.material === material && 'percentOfCharge' in one ? sum + one.percentOfCharge : sum),
    0,
  );
  return Math.min(1, percent / 100);
}
