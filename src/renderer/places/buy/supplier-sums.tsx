import { useSignal } from '@preact/signals';
import { useId } from 'preact/hooks';
import type { ShoppingLine } from '../../../core/buy/shopping.ts';
import { costWithout, type SupplierTotal, supplierTotals } from '../../../core/buy/suppliers.ts';
import type { PlanResult } from '../../../core/plan/result.ts';
import { parseNumberAlone } from '../../../core/quantity/parse.ts';
import { shoppingWords } from '../../../core/words/shopping-words.ts';
import { FieldProblem } from '../../parts/field-problem.tsx';
import { money } from './buy-amounts.ts';
import { keepLeastOrder, shoppingOf, suppliers } from './buy-store.ts';
import { WithinLeastOrders } from './within-least-orders.tsx';

const words = shoppingWords.suppliers;

interface SupplierSumsProps {
  readonly lines: readonly ShoppingLine[];
  readonly result: PlanResult;
}

/** What the list comes to at each supplier, beside the least an order has to come to there. */
export function SupplierSums({ lines, result }: SupplierSumsProps) {
  const totals = supplierTotals(lines, suppliers.value);
  if (totals.length === 0) return null;
  return (
    <>
      <ul class="buy-suppliers" aria-label={words.title}>
        {totals.map((one) => (
          <li key={one.supplier}>
            <span class="buy-supplier">
              <span>{one.supplier}</span> <b class="numeric">{money(one.cost)}</b>
            </span>
            <LeastOrder of={one} />
            {one.below > 0 && <Below of={one} result={result} />}
          </li>
        ))}
      </ul>
      <WithinLeastOrders lines={lines} result={result} />
    </>
  );
}

/** By how much the least order is not reached, and what the list would cost without that supplier. */
function Below({ of: { supplier, below }, result }: { readonly of: SupplierTotal; readonly result: PlanResult }) {
  const input = shoppingOf(result);
  const cost = input ? costWithout(input, supplier) : null;
  return (
    <p class="small">
      <b class="tone-accent">{words.below(money(below))}</b>
      {'; '}
      {cost === null ? words.onlyThere : words.without(supplier, money(cost))}
    </p>
  );
}

function LeastOrder({ of: { supplier, leastOrder, below } }: { readonly of: SupplierTotal }) {
  const id = useId();
  const typed = useSignal<string | null>(null);
  const kept = leastOrder === null ? '' : money(leastOrder);
  const text = typed.value ?? kept;
  const read = parseNumberAlone(text);
  const value = text.trim() === '' ? null : read.ok ? read.value : Number.NaN;
  const wrong = value !== null && !(value > 0 && value <= 1e9);
  const keep = async (): Promise<void> => {
    if (typed.value === null || wrong) return;
    if (value === leastOrder || (await keepLeastOrder(supplier, value))) typed.value = null;
  };
  return (
    <label class="small soft buy-least">
      {words.least}{' '}
      <span class="buy-add-field">
        <input
          type="text"
          class="plain-input buy-count"
          inputMode="decimal"
          autocomplete="off"
          aria-label={words.leastOf(supplier)}
          aria-invalid={wrong}
          aria-describedby={wrong ? id : undefined}
          value={text}
          onInput={(event) => {
            typed.value = event.currentTarget.value;
          }}
          onBlur={() => void keep()}
          onKeyDown={(event) => {
            if (event.key === 'Enter') void keep();
            if (event.key === 'Escape') typed.value = null;
          }}
        />
        {wrong && <FieldProblem id={id} text={text} problem={read.ok ? { at: 0, words: words.number } : read} />}
      </span>{' '}
      {leastOrder !== null && below === 0 && words.reached}
    </label>
  );
}
