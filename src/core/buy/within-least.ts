import { grouped } from '../grouped.ts';
import { factsOf, foldName } from '../matter/facts.ts';
import { packsByMaterial } from '../plan/solve/step-cost.ts';
import type { Supplier } from '../shelf/pack.ts';
import { chosenOption } from './buy-option.ts';
import { type OrderGroup, withLeastOrders } from './least-orders.ts';
import { serviceFor } from './pack-service.ts';
import { coverOf } from './shared-cover.ts';
import { type Candidate, countedIn, togetherOption } from './shared-order.ts';
import { type ShoppingInput, type ShoppingLine, shoppingTotal } from './shopping.ts';
import { supplierTotals } from './suppliers.ts';

/** Lines of one material that are covered together; more are covered apart. */
const MOST_TOGETHER = 4;

/** The list as it is where every least order is kept. */
export interface WithinLeast {
  readonly lines: readonly ShoppingLine[];
  /** Money, of the lines with a price. */
  readonly cost: number;
  /** What that is more than the list without regard to least orders, money. */
  readonly more: number;
  /** By how much it may be dearer than the least there is, money; 0 where it is the least. */
  readonly doubt: number;
}

/**
 * The shopping list with each supplier's least order kept: from another supplier, or with more than is needed, whichever
 * costs less. Null where the list keeps them anyhow, where it cannot be worked out, and where no way keeps them.
 */
export function withinLeastOrders(
  input: ShoppingInput,
  lines: readonly ShoppingLine[],
  suppliers: readonly Supplier[],
): WithinLeast | null {
  if (!supplierTotals(lines, suppliers).some(({ below }) => below > 0)) return null;
  const limited = new Map(suppliers.map(({ name }, at) => [foldName(name), at]));
  const parts = partsOf(lines, input);
  const groups = parts.map((part) => groupOf(part, limited, input));
  if (groups.includes(null)) return null;
  const choice = withLeastOrders(
    groups.flatMap((group) => group ?? []),
    suppliers.map(({ leastOrder }) => leastOrder),
  );
  if (!choice) return null;
  const changed = new Map<string, ShoppingLine>();
  for (const [at, part] of parts.entries()) {
    const { needs = [], packs = [] } = groups[at] ?? {};
    for (const line of ordered(part, needs, coverOf(needs, packs, choice.counts[at] ?? [], true)))
      changed.set(line.line.id, line);
  }
  const money = (value: number): number => Math.round(value * 1e4) / 1e4;
  return {
    lines: lines.map((one) => changed.get(one.line.id) ?? one),
    cost: choice.cost,
    more: money(choice.cost - shoppingTotal(lines).cost),
    doubt: money(choice.cost - choice.atLeast),
  };
}

interface Part {
  readonly served: readonly ShoppingLine[];
  readonly all: readonly Candidate[];
}

/** Lines with a price, those of one material together, each with the priced packs that are as asked. */
function partsOf(lines: readonly ShoppingLine[], input: ShoppingInput): readonly Part[] {
  const packs = packsByMaterial(input);
  const open = lines.filter((one) => one.toBuy > 0 && (one.coveredBy || (chosenOption(one)?.cover?.cost ?? null) !== null));
  return [...grouped(open, ({ line }) => line.material)].flatMap(([key, group]) => {
    const material = input.route.materials[key];
    if (!material) return [];
    const facts = factsOf(material, input.reference);
    const priced = (packs.get(key) ?? []).filter(({ price }) => price !== undefined);
    // The line that asks for most has the order.
    const strictest = group.toSorted((one, other) => (other.line.leastAssayPercent ?? 0) - (one.line.leastAssayPercent ?? 0));
    const together = group.length > MOST_TOGETHER ? group.map((one) => [one]) : [strictest];
    return together.map((served) => ({
      served,
      all: priced
        .map((pack) => ({
          pack,
          serves: served.flatMap(({ line }, at) => (serviceFor(line, facts, pack, input) === 'as asked' ? [at] : [])),
        }))
        .filter(({ serves }) => serves.length > 0),
    }));
  });
}

function groupOf({ served, all }: Part, limited: ReadonlyMap<string, number>, input: ShoppingInput): OrderGroup | null {
  const material = input.route.materials[served[0]?.line.material ?? ''];
  const counted = material && countedIn(served, all, factsOf(material, input.reference), input.reference);
  if (!counted) return null;
  const packs = counted.packs.map((pack, at) => ({
    ...pack,
    price: pack.price ?? 0,
    supplier: limited.get(foldName(all[at]?.pack.supplier ?? '')) ?? null,
  }));
  return { needs: counted.needs, packs };
}

/** The lines of a part with one order for all of them, which the first one has. */
function ordered({ served, all }: Part, needs: readonly number[], cover: ReturnType<typeof coverOf>): readonly ShoppingLine[] {
  const [leader, ...others] = served;
  if (!leader) return [];
  const option = togetherOption(leader.line, all, needs, cover);
  return [
    { ...leader, options: [option, ...leader.options], also: others.map(({ line }) => line), coveredBy: null },
    ...others.map((one) => ({ ...one, also: [], coveredBy: leader.line })),
  ];
}
