import { useSignal } from '@preact/signals';
import type { OrderRow } from '../../../core/port/buy.ts';
import { shoppingWords } from '../../../core/words/shopping-words.ts';
import { today } from '../../state/workbook.ts';
import { dayText } from '../../parts/day-text.ts';
import { packFacts, packSize } from './buy-amounts.ts';
import { cancelOrder, finishedOrders, orders, receiveOrder, showFinished, undoOrder } from './buy-store.ts';

const words = shoppingWords.orders;

/** What was ordered and is not there yet; receiving turns packs into bottles. */
export function Orders() {
  const open = orders.value;
  return (
    <section class="buy-part" aria-labelledby="orders-title">
      <header class="part-head">
        <h2 id="orders-title">{words.title}</h2>
      </header>
      {open.length === 0 && <p class="soft">{words.none}</p>}
      {open.length > 0 && (
        <ul class="buy-orders">
          {open.map((order) => (
            <Order key={order.id} order={order} />
          ))}
        </ul>
      )}
      <details class="fold" onToggle={(event) => showFinished(event.currentTarget.open)}>
        <summary>{words.finished}</summary>
        {finishedOrders.value?.length === 0 && <p class="soft">{words.noneFinished}</p>}
        <ul class="buy-orders">
          {(finishedOrders.value ?? []).map((order) => (
            <li key={order.id}>
              <p>
                {words.line(order.count, packSize(order.pack), order.material.name)}{' '}
                <span class="soft small">{packFacts(order.pack, true)}</span>
              </p>
              <Events order={order} />
            </li>
          ))}
        </ul>
      </details>
    </section>
  );
}

/** What came of an order and what will not, each to be taken back. */
function Events({ order }: { readonly order: OrderRow }) {
  return (
    <>
      {order.events.map(({ id, kind, count, on, bottles, used }) => {
        const text =
          kind === 'received'
            ? words.events.received(count, dayText(on), bottles.join(', '))
            : words.events.cancelled(count, dayText(on));
        return (
          <p key={id} class="small">
            {text}{' '}
            {used.length > 0 ? (
              <span class="soft">{words.used(used.join(', '))}</span>
            ) : (
              <button type="button" class="text-button" aria-label={words.takeBackWhat(text)} onClick={() => void undoOrder(id)}>
                {words.takeBack}
              </button>
            )}
          </p>
        );
      })}
    </>
  );
}

function Order({ order }: { readonly order: OrderRow }) {
  const open = order.count - order.received - order.cancelled;
  const name = words.line(open, packSize(order.pack), order.material.name);
  const late = order.expected !== null && order.expected < today.value;
  return (
    <li>
      <p>
        <b>{name}</b> <span class="soft small">{packFacts(order.pack, true)}</span>
      </p>
      <p class="small">
        {words.ordered(dayText(order.ordered))} ·{' '}
        <span class={late ? 'tone-accent' : ''}>
          {order.expected === null ? words.noDay : (late ? words.late : words.expected)(dayText(order.expected))}
        </span>
        {order.planName !== '' && ` · ${words.forPlan(order.planName)}`}
        {order.note !== '' && <span class="soft"> · {order.note}</span>}
      </p>
      <Events order={order} />
      <Receive order={order} open={open} name={name} />
    </li>
  );
}

function Receive({ order, open, name }: { readonly order: OrderRow; readonly open: number; readonly name: string }) {
  const count = useSignal(String(open));
  const [lot, place, useBy] = [useSignal(''), useSignal(''), useSignal('')];
  const number = /^\d+$/.test(count.value.trim()) ? Number(count.value) : Number.NaN;
  const wrong = !(number >= 1 && number <= Math.min(open, 200));
  const receive = async (): Promise<void> => {
    if (wrong) return;
    const each = {
      ...(lot.value.trim() === '' ? {} : { lot: lot.value.trim() }),
      ...(place.value.trim() === '' ? {} : { place: place.value.trim() }),
      ...(useBy.value === '' ? {} : { useBy: useBy.value }),
    };
    await receiveOrder(
      order.id,
      Array.from({ length: number }, () => each),
    );
    count.value = String(Math.max(1, open - number));
  };
  return (
    <form
      class="buy-receive"
      onSubmit={(event) => {
        event.preventDefault();
        void receive();
      }}
    >
      <Field label={words.count} of={count} wrong={wrong} short />
      <Field label={words.lot} of={lot} />
      <Field label={words.place} of={place} />
      <Field label={words.useBy} of={useBy} type="date" />
      <button type="submit" class="button" aria-label={words.receiveWhat(name)} disabled={wrong}>
        {words.receive}
      </button>
      <button
        type="button"
        class="text-button"
        aria-label={words.cancelWhat(name)}
        onClick={() => void cancelOrder(order.id, open)}
      >
        {words.cancel}
      </button>
      {wrong && (
        <p class="small tone-accent" role="alert">
          {words.wrongCount(Math.min(open, 200))}
        </p>
      )}
    </form>
  );
}

interface FieldProps {
  readonly label: string;
  readonly of: { value: string };
  readonly type?: 'text' | 'date';
  readonly wrong?: boolean;
  readonly short?: boolean;
}

function Field({ label, of, type = 'text', wrong = false, short = false }: FieldProps) {
  return (
    <label>
      <span class="soft small">{label}</span>
      {type === 'date' ? (
        <input
          type="date"
          class="plain-input"
          value={of.value}
          onInput={(event) => {
            of.value = event.currentTarget.value;
          }}
        />
      ) : (
        <input
          type="text"
          class={short ? 'plain-input buy-count' : 'plain-input'}
          aria-invalid={wrong}
          autocomplete="off"
          value={of.value}
          onInput={(event) => {
            of.value = event.currentTarget.value;
          }}
        />
      )}
    </label>
  );
}
