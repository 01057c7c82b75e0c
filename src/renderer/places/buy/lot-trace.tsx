import { useSignal } from '@preact/signals';
import { lotRows } from '../../../core/buy/shopping-rows.ts';
import type { LotTrace } from '../../../core/port/buy.ts';
import { shoppingWords } from '../../../core/words/shopping-words.ts';
import { dayText } from '../../parts/day-text.ts';
import { goTo } from '../../state/place.ts';
import { openBottle } from '../shelf/shelf-store.ts';
import { amount } from './buy-amounts.ts';
import { trace, traceLot } from './buy-store.ts';
import { saveCsv } from './save-csv.ts';

const words = shoppingWords.lot;

/** Where the bottles of a lot went, and what was made from them: for a recall. */
export function WhereLot() {
  const text = useSignal(trace.value?.asked ?? '');
  const now = trace.value;
  return (
    <section class="buy-part" aria-labelledby="lot-title">
      <header class="part-head">
        <h2 id="lot-title">{words.title}</h2>
      </header>
      <form
        class="buy-receive"
        onSubmit={(event) => {
          event.preventDefault();
          void traceLot(text.value);
        }}
      >
        <label>
          <span class="soft small">{words.label}</span>
          <input
            type="text"
            class="plain-input"
            placeholder={words.hint}
            autocomplete="off"
            spellcheck={false}
            value={text.value}
            onInput={(event) => {
              text.value = event.currentTarget.value;
            }}
          />
        </label>
        <button type="submit" class="button">
          {words.look}
        </button>
      </form>
      <div role="status">
        {now && now.found.bottles.length === 0 && <p class="soft">{words.none(now.asked)}</p>}
        {now && now.found.bottles.length > 0 && <Found asked={now.asked} found={now.found} />}
      </div>
    </section>
  );
}

function Found({ asked, found }: { readonly asked: string; readonly found: LotTrace }) {
  return (
    <>
      <ul class="buy-orders">
        {found.bottles.map((bottle) => (
          <li key={bottle.id}>
            <Label id={bottle.id} /> {bottle.material}
            {bottle.lot === '' ? '' : `, lot ${bottle.lot}`}{' '}
            <span class="soft small">
              {[words.steps(bottle.depth), words.left(amount(bottle.left, bottle.unit)), bottle.place]
                .filter(Boolean)
                .join(' · ')}
            </span>
          </li>
        ))}
      </ul>
      {found.uses.length === 0 && <p class="soft">{words.unused}</p>}
      {found.uses.length > 0 && <Uses found={found} />}
      {found.cut && <p class="tone-accent">{words.cut}</p>}
      {found.uses.length > 0 && (
        <button type="button" class="button" onClick={() => saveCsv(words.file(asked), lotRows(found))}>
          {shoppingWords.csv.save}
        </button>
      )}
    </>
  );
}

function Uses({ found }: { readonly found: LotTrace }) {
  return (
    <table class="stock-table lot-uses">
      <thead>
        <tr>
          <th>{words.columns.day}</th>
          <th>{words.columns.from}</th>
          <th class="numeric">{words.columns.amount}</th>
          <th>{words.columns.run}</th>
          <th>{words.columns.made}</th>
        </tr>
      </thead>
      <tbody>
        {found.uses.map((use, at) => (
          <tr key={at}>
            <td>{dayText(use.at.slice(0, 10))}</td>
            <td>
              {use.carriedFrom === null && <Label id={use.bottle} />} <span class="soft small">{use.material}</span>
              {use.carriedFrom !== null && <div class="soft small">{words.carried(use.carriedFrom)}</div>}
            </td>
            <td class="numeric">{amount(use.amount, use.unit, 4)}</td>
            <td>{use.run === null ? use.reason : words.run(use.plan, use.sheet, use.run)}</td>
            <td>
              {use.made.map((id) => (
                <Label key={id} id={id} />
              ))}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Label({ id }: { readonly id: string }) {
  return (
    <button
      type="button"
      class="text-button"
      onClick={() => {
        openBottle(id);
        goTo('shelf');
      }}
    >
      {id}
    </button>
  );
}
