import { foldName } from '../matter/facts.ts';
import type { Supplier } from '../shelf/pack.ts';
import { chosenOption } from './buy-option.ts';
import { type ShoppingInput, type ShoppingLine, shoppingList, shoppingTotal } from './shopping.ts';

/** What a list comes to at one supplier, money. */
export interface SupplierTotal {
  readonly supplier: string;
  readonly cost: number;
  /** The least an order has to come to there; null where nothing is known of one. */
  readonly leastOrder: number | null;
  /** By how much it falls short of that; 0 where it is reached, or not known. */
  readonly below: number;
}

const cents = (value: number): number => Math.round(value * 1e4) / 1e4;

/**
 * What the options chosen come to at each supplier, dearest first, held against the least a supplier delivers for; money, packs
 * without a price and without a supplier left out. A supplier's name is one whatever its capitals and blanks.
 */
export function supplierTotals(lines: readonly ShoppingLine[], suppliers: readonly Supplier[] = []): readonly SupplierTotal[] {
  const least = new Map(suppliers.map(({ name, leastOrder }) => [foldName(name), leastOrder]));
  const sums = new Map<string, { readonly supplier: string; readonly cost: number }>();
  for (const line of lines.filter((one) => one.toBuy > 0)) {
    const option = chosenOption(line);
    for (const [at, { supplier = '', price = 0 }] of (option?.packs ?? []).entries()) {
      const cost = price * (option?.cover?.counts[at] ?? 0);
      const key = foldName(supplier);
      const before = sums.get(key);
      if (key !== '' && cost > 0) sums.set(key, { supplier: before?.supplier ?? supplier, cost: (before?.cost ?? 0) + cost });
    }
  }
  return [...sums]
    .map(([key, { supplier, cost: sum }]): SupplierTotal => {
      const [cost, leastOrder] = [cents(sum), least.get(key) ?? null];
      return { supplier, cost, leastOrder, below: Math.max(0, cents((leastOrder ?? 0) - cost)) };
    })
    .sort((one, other) => other.cost - one.cost || (one.supplier < other.supplier ? -1 : 1));
}

/** What the whole list would cost without one supplier, money; null where more lines than now would have no known price. */
export function costWithout(input: ShoppingInput, supplier: string): number | null {
  const key = foldName(supplier);
  const packs = (input.shelf.packs ?? []).filter((pack) => foldName(pack.supplier ?? '') !== key);
  const now = shoppingTotal(shoppingList(input));
  const { cost, unknown } = shoppingTotal(shoppingList({ ...input, shelf: { ...input.shelf, packs } }));
  return unknown > now.unknown ? null : cost;
}
