import type { Facts } from '../matter/facts.ts';
import { foldName } from '../matter/facts.ts';
import type { Form } from '../matter/form.ts';
import type { ChargePlan } from '../plan/result.ts';
import { computed, entered, type Figure } from '../quantity/figure.ts';
import type { Pack } from '../shelf/pack.ts';
import type { Shelf } from '../shelf/shelf.ts';
import { formWords } from '../words/form-words.ts';

/** Material cost: what is known, and the names of what has no price. Unknown is never counted as nothing. */
export interface Cost {
  /** In the person's own currency, of everything with a price. */
  readonly known: Figure<''>;
  readonly unpriced: readonly string[];
}

type Priced = Pick<Shelf, 'materials' | 'packs'>;

/**
 * What a charge uses up, at the cheapest pack of the same material and form, by the part of the pack that is used.
 * Null where no pack with a price holds it, or its amount is not known in the pack's unit.
 */
export function chargeCost(charge: ChargePlan, facts: Facts, shelf: Priced): Figure<''> | null {
  const costs = (shelf.packs ?? []).flatMap((pack) => {
    const amount = pack.unit === 'g' ? charge.grams : charge.millilitres;
    if (pack.price === undefined || !amount || !holds(pack, facts, charge.form, shelf)) return [];
    const price = entered(`pack of ${pack.amount} ${pack.unit}`, pack.price, '', pack.supplier ?? 'the shelf');
    return [
      computed(`${facts.name}, cost`, (pack.price * amount.value) / pack.amount, '', 'price × amount ÷ pack', [price, amount]),
    ];
  });
  return costs.reduce<Figure<''> | null>((least, one) => (least && least.value <= one.value ? least : one), null);
}

function holds(pack: Pack, facts: Facts, form: Form, shelf: Priced): boolean {
  const material = shelf.materials[pack.material];
  if (!material) return false;
  const same = facts.cas && material.cas ? facts.cas === material.cas : foldName(facts.name) === foldName(material.name);
  return same && formWords(pack.form ?? { kind: 'neat' }) === formWords(form);
}

/** Costs together. @param label what they are the cost of. */
export function costSum(label: string, costs: readonly Figure<''>[], unpriced: readonly string[]): Cost {
  const value = costs.reduce((sum, one) => sum + one.value, 0);
  return { known: computed(label, value, '', 'sum of what has a price', costs), unpriced: [...new Set(unpriced)] };
}
