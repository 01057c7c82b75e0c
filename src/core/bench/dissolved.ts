import type { Take } from '../plan/result.ts';
import { decimalsOf } from '../quantity/round.ts';

/**
 * What is weighed out of a bottle for a charge of one batch. Mostly that is what goes in; of what is too little to be weighed
 * it is what is dissolved, and only an aliquot of that goes in:
 *
 *     4.36 mg wanted → 60 mg dissolved in 1 g → 0.0727 g of it taken: the bottle gives 60 mg
 */

/** In the take's own unit, with the decimals of the device: what is dissolved, else the target. */
export function outOfBottle({ target, decimals, stock }: Take): { readonly amount: number; readonly decimals: number } {
  return stock ? { amount: stock.dissolve.value, decimals: decimalsOf(stock.readability) } : { amount: target, decimals };
}

/** The same as a multiple of what goes in, exactly as planned; 1 where nothing is dissolved for it. */
export function timesDissolved({ exact, stock }: Take): number {
  return stock && exact && exact.value > 0 ? stock.dissolve.value / exact.value : 1;
}
