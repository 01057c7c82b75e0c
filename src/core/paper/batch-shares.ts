import type { BottleShare } from '../plan/result.ts';

/**
 * What a batch takes of each bottle, when the equal batches of a step use the bottles up one after the other.
 * @param bottles what the whole step takes, in the bottles' order; amounts in each bottle's own unit (g or mL).
 * @param batch 1 … batches.
 */
export function sharesOfBatch(
  bottles: readonly BottleShare[],
  { batch, batches }: { readonly batch: number; readonly batches: number },
): BottleShare[] {
  const whole = bottles.reduce((sum, bottle) => sum + bottle.amount, 0);
  const from = (whole * (batch - 1)) / batches;
  const to = (whole * batch) / batches;
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
