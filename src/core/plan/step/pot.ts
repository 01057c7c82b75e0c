import type { Phase } from '../../bench/phase.ts';
import { keptOf } from '../../bench/taken.ts';
import type { Facts } from '../../matter/facts.ts';
import type { Removal } from '../../route/route.ts';
import type { Amount } from '../amounts.ts';

/** Density a solid is taken to have where none is known, g/mL; said as an estimate. Common practice, no source. */
export const ASSUMED_SOLID_DENSITY = 1.3;

/** One charge as it lies in the vessel. */
interface Content {
  readonly material: string;
  readonly liquid: boolean;
  /** Counts as solvent for "to concentration": a liquid measured by volume, or what a solution brings. */
  readonly solvent: boolean;
  /** A fixed amount per batch: in the vessel, but outside every ratio. */
  readonly fixed: boolean;
  readonly isBasis: boolean;
  readonly layer: Phase;
  /** Room it takes, mL. */
  readonly millilitres: number;
  readonly estimated: boolean;
}

/** What is in the vessel. Volumes are additive: an upper bound, never used for making solutions. */
export type Pot = readonly Content[];

/** A vessel with nothing in it. */
export const EMPTY_POT: Pot = [];

export interface Added {
  readonly material: string;
  readonly facts: Facts;
  readonly amount: Amount;
  /** Times the amount that may have to fit. */
  readonly times: number;
  readonly liquid: boolean;
  readonly solvent: boolean;
  readonly fixed: boolean;
  readonly isBasis: boolean;
  readonly layer: Phase;
}

/** The pot with one more charge in it. */
export function addToPot(pot: Pot, added: Added): Pot {
  const room = roomOf(added);
  const { material, liquid, solvent, fixed, isBasis, layer } = added;
  const millilitres = room.millilitres * added.times;
  return [...pot, { material, liquid, solvent, fixed, isBasis, layer, millilitres, estimated: room.estimated }];
}

/** The pot with solvent that comes along with a charge. */
export function addSolvent(pot: Pot, material: string, millilitres: number, layer: Phase): Pot {
  const plain = { liquid: true, solvent: true, fixed: false, isBasis: false, estimated: false };
  return [...pot, { material, ...plain, layer, millilitres }];
}

/** mL taken by a charge: its volume, else grams by the solid's density, else by an assumed one. Gases take none, their solutions do. */
function roomOf({ facts, amount, liquid }: Added): { readonly millilitres: number; readonly estimated: boolean } {
  if (facts.state === 'gas' && !liquid) return { millilitres: 0, estimated: false };
  if (liquid && amount.millilitres.ok) return { millilitres: amount.millilitres.figure.value, estimated: false };
  // A solid that is charged by volume takes it; what has neither mass nor volume is said by the section of the vessel.
  if (!amount.grams.ok) return { millilitres: amount.millilitres.ok ? amount.millilitres.figure.value : 0, estimated: true };
  const grams = amount.grams.figure.value;
  if (liquid) return { millilitres: grams, estimated: true };
  if (facts.solidDensity) return { millilitres: grams / facts.solidDensity.value, estimated: false };
  return { millilitres: grams / ASSUMED_SOLID_DENSITY, estimated: true };
}

/** Total volume in the vessel, mL. */
export function volumeOf(pot: Pot): number {
  return pot.reduce((sum, content) => sum + content.millilitres, 0);
}

/** Volume of the liquids in the vessel, mL. */
export function liquidsOf(pot: Pot): number {
  return pot.reduce((sum, content) => (content.liquid ? sum + content.millilitres : sum), 0);
}

/** Volume that counts in ratios, mL: all of it, or the solvents alone; fixed amounts per batch are left out. */
export function ratioVolume(pot: Pot, which: 'all' | 'solvents'): number {
  return pot
    .filter((content) => !content.fixed && (which === 'all' || content.solvent))
    .reduce((sum, content) => sum + content.millilitres, 0);
}

/**
 * What a removal leaves. The basis stands for the product it turns into, so "all but the product" spares it.
 * @param basisGrams contained basis, g, for "distil to n volumes".
 */
export function removeFromPot(pot: Pot, removal: Removal, basisGrams: number): Pot {
  const left = pot.map((content) => {
    const kept = keptOf(removal.takes, { ...content, product: content.isBasis });
    return kept === 1 ? content : { ...content, millilitres: content.millilitres * kept };
  });
  return removal.leavesMillilitresPerGram === undefined ? left : distilTo(left, removal.leavesMillilitresPerGram * basisGrams);
}

function distilTo(pot: Pot, millilitres: number): Pot {
  const liquids = liquidsOf(pot);
  if (liquids <= millilitres) return pot;
  const kept = millilitres / liquids;
  return pot.map((content) => (content.liquid ? { ...content, millilitres: content.millilitres * kept } : content));
}
