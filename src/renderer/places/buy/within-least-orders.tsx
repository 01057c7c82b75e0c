import { chosenOption } from '../../../core/buy/buy-option.ts';
import type { ShoppingLine } from '../../../core/buy/shopping.ts';
import { withinLeastOrders } from '../../../core/buy/within-least.ts';
import type { PlanResult } from '../../../core/plan/result.ts';
import { shoppingWords } from '../../../core/words/shopping-words.ts';
import { money, packFacts, packSize } from './buy-amounts.ts';
import { placeOrders, shoppingOf, suppliers } from './buy-store.ts';

const words = shoppingWords.suppliers;

interface WithinProps {
  readonly lines: readonly ShoppingLine[];
  readonly result: PlanResult;
}

/** What to buy instead where a supplier's least order is not reached, and what that costs. */
export function WithinLeastOrders({ lines, result }: WithinProps) {
  const input = shoppingOf(result);
  const within = input && withinLeastOrders(input, lines, suppliers.value);
  if (!within) return null;
  const wanted = within.lines.flatMap((line) => {
    const option = chosenOption(line);
    return option && line.toBuy > 0 ? [{ line, option }] : [];
  });
  return (
    <section class="buy-within">
      <p>{words.within(money(within.cost), money(within.more))}</p>
      <ul>
        {wanted.flatMap(({ line, option }) =>
          option.packs.map((pack, at) => {
            const count = option.cover?.counts[at] ?? 0;
            return count === 0 ? null : (
              <li key={`${line.line.id} ${at}`}>
                {line.line.name}: <b>{shoppingWords.packs(count, packSize(pack))}</b>{' '}
                <span class="soft small">{packFacts(pack, option.mixed)}</span>
              </li>
            );
          }),
        )}
      </ul>
      <p class="soft small">{within.doubt > 0 ? words.withinDoubt(money(within.doubt)) : words.withinLeast}</p>
      <button type="button" class="button" onClick={() => void placeOrders(wanted, result)}>
        {words.withinOrder}
      </button>
    </section>
  );
}
