import type { Removal } from '../route/route.ts';
import type { Phase } from './phase.ts';

/** Something in the vessel, as a removal sees it. */
export interface Takeable {
  readonly material: string;
  readonly liquid: boolean;
  readonly layer: Phase;
  /** The product, or the basis that stands for it. */
  readonly product: boolean;
}

/** Whether a removal of `what` takes it: the one rule for volumes, residues and contents. */
export function isTaken(what: string, one: Takeable): boolean {
  switch (what) {
    case 'liquids':
      return one.liquid;
    case 'solids':
      return !one.liquid;
    case 'aqueous layer':
      return one.layer === 'aqueous';
    case 'organic layer':
      return one.layer === 'organic';
    case 'all but the product':
      return !one.product;
    default:
      return what === one.material;
  }
}

/** The part a removal leaves of it, 0 … 1. */
export function keptOf(takes: Removal['takes'], one: Takeable): number {
  return takes.reduce((kept, taken) => (isTaken(taken.what, one) ? kept * (1 - taken.percent / 100) : kept), 1);
}
