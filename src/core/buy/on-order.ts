import { factsOf } from '../matter/facts.ts';
import { NEAT } from '../matter/form.ts';
import type { FetchLine } from '../plan/result.ts';
import type { Pack } from '../shelf/pack.ts';
import { amountIn, serviceFor } from './pack-service.ts';
import type { ShoppingInput, ShoppingLine } from './shopping.ts';

type OnOrder = Pick<ShoppingLine, 'onOrder' | 'orderedFor'>;

/**
 * What is on order for each line that is short, by its id, in the line's unit. A pack counts once: where several lines of
 * a material could have it, the one that asks for the highest purity takes what it is short of, and the last what is left.
 * @param ordered kinds of pack on order, by the route's key of the material.
 */
export function onOrderByLine(
  short: readonly FetchLine[],
  ordered: ReadonlyMap<string, readonly Pack[]>,
  input: ShoppingInput,
): ReadonlyMap<string, OnOrder> {
  const left = new Map<Pack, number>();
  for (const { pack, count } of input.onOrder) left.set(pack, (left.get(pack) ?? 0) + count);
  const inOrder = short.toSorted((one, other) => (other.leastAssayPercent ?? 0) - (one.leastAssayPercent ?? 0));
  return new Map(
    inOrder.map((line, at) => {
      const isLast = inOrder.slice(at + 1).every(({ material }) => material !== line.material);
      return [line.id, takenBy(line, ordered.get(line.material) ?? [], isLast, left, input)];
    }),
  );
}

/** Takes out of `left` what a line counts of it; the last line of a material counts all that serves it. */
function takenBy(
  line: FetchLine,
  packs: readonly Pack[],
  isLast: boolean,
  left: Map<Pack, number>,
  input: ShoppingInput,
): OnOrder {
  const material = input.route.materials[line.material];
  if (!material) return { onOrder: 0, orderedFor: [] };
  const facts = factsOf(material, input.reference);
  const names = new Map(input.onOrder.map(({ pack, forPlan = '' }) => [pack, forPlan]));
  const orderedFor = new Set<string>();
  let onOrder = 0;
  for (const pack of packs) {
    if (serviceFor(line, facts, pack, input) !== 'as asked') continue;
    const worth = amountIn(facts, { form: pack.form ?? NEAT, unit: pack.unit }, line, pack.amount, input.reference) ?? 0;
    const there = left.get(pack) ?? 0;
    const open = Math.max(0, (line.short?.value ?? 0) - onOrder);
    const count = worth <= 0 ? 0 : isLast ? there : Math.min(there, open / worth);
    if (count <= 0) continue;
    left.set(pack, there - count);
    onOrder += count * worth;
    const name = names.get(pack) ?? '';
    if (name !== '') orderedFor.add(name);
  }
  return { onOrder, orderedFor: [...orderedFor] };
}
