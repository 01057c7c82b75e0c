import type { BottleShare } from '../plan/result.ts';
import { partFromShelf, partUpTo } from '../shelf/recycled.ts';

/**
 * What a batch takes of each bottle, when the equal batches of a step use the bottles up one after the other.
 * @param bottles what the whole step takes, in the bottles' order; amounts in each bottle's own unit (g or mL).
 * @param batch 1 … batches. @param returns part of a batch that goes into the next: the first batch takes more than the others.
 */
export function sharesOfBatch(
  bottles: readonly BottleShare[],
  { batch, batches, returns = 0 }: { readonly batch: number; readonly batches: number; readonly returns?: number },
): BottleShare[] {
  const whole = bottles.reduce((sum, bottle) => sum + bottle.amount, 0);
  const each = { returns, batches };
  const from = (whole * partUpTo(each, batch - 1)) / partFromShelf(each);
  const to = (whole * partUpTo(each, batch)) / partFromShelf(each);
  const least = whole * 1e-9;
  const shares: BottleShare[] = [];
  let before = 0;
  for (const bottle of bottles) {
    const amount = Math.min(before + bottle.amount, to) - Math.max(before, from);
    before += bottle.amount;
    if (amount > least) shares.push({ ...bottle, amount });
  }
  return shares;
}
