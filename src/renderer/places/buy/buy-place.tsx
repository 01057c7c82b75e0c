import './buy.css';
import { useEffect } from 'preact/hooks';
import { chosenOption } from '../../../core/buy/buy-option.ts';
import { type ShoppingLine, shoppingTotal } from '../../../core/buy/shopping.ts';
import { shoppingRows } from '../../../core/buy/shopping-rows.ts';
import { needText } from '../../../core/buy/buy-text.ts';
import { withinLeastOrders } from '../../../core/buy/within-least.ts';
import { onHandText } from '../../../core/paper/on-hand-text.ts';
import { passedOverText } from '../../../core/paper/passed-over-text.ts';
import { isShort } from '../../../core/buy/short.ts';
import { buyingPaper } from '../../../core/paper/buying-list.ts';
import type { FetchLine, PlanResult } from '../../../core/plan/result.ts';
import { buyWords as words } from '../../../core/words/bench-words.ts';
import { shoppingWords as more } from '../../../core/words/shopping-words.ts';
import { startText } from '../../../core/words/start-text.ts';
import { Amount } from '../../parts/amount.tsx';
import { EmptyState } from '../../parts/empty-state.tsx';
import { decimalMark } from '../../parts/locale.ts';
import { goTo } from '../../state/place.ts';
import { chooseStep } from '../../state/plan-view.ts';
import { paperContext } from '../../state/paper-context.ts';
import { paperSaid } from '../bench/bench-store.ts';
import { NewPaper } from '../bench/papers.tsx';
import { WithPlan } from '../bench/with-plan.tsx';
import { openBottle } from '../shelf/shelf-store.ts';
import { money } from './buy-amounts.ts';
import { buySaid, followBuying, linesOf, placeOrders, putPackBack, removedPack, shoppingOf, suppliers } from './buy-store.ts';
import { Expiring } from './expiring.tsx';
import { WhereLot } from './lot-trace.tsx';
import { Orders } from './orders.tsx';
import { saveCsv } from './save-csv.ts';
import { PriceList } from './price-list.tsx';
import { SupplierSums } from './supplier-sums.tsx';
import { ToBuy } from './to-buy.tsx';

/** What has to be bought before the plan can be done, what is on order, dates that pass, and where lots went. */
export function BuyPlace() {
  useEffect(followBuying, []);
  return (
    <div class="buy-whole">
      <WithPlan>{(result) => <Shortfalls result={result} />}</WithPlan>
      <p class="buy-said" role="status">
        {buySaid.value}
        {removedPack.value && (
          <>
            {' '}
            <button type="button" class="text-button" onClick={() => void putPackBack()}>
              {more.putBack}
            </button>
          </>
        )}
      </p>
      <div class="buy-parts">
        <Orders />
        <PriceList />
        <Expiring />
        <WhereLot />
      </div>
    </div>
  );
}

export function Shortfalls({ result }: { readonly result: PlanResult }) {
  const short = result.fetch.filter(isShort);
  const context = paperContext(result);
  const lines = linesOf(result);
  if (short.length === 0) return <EmptyState title={words.nothing.title} text={words.nothing.text} />;
  return (
    <div class="buy">
      <section class="buy-lines" aria-labelledby="buy-title">
        <header class="part-head">
          <h1 id="buy-title">{words.title}</h1>
          <span class="part-note">{words.note(short.length)}</span>
        </header>
        <p class="buy-start small soft">{startText(result, decimalMark)}</p>
        <table class="stock-table buy-table">
          <thead>
            <tr>
              <th>{more.columns.material}</th>
              <th class="numeric">{more.columns.short}</th>
              <th>{more.columns.buy}</th>
              <th>{more.columns.why}</th>
              <th>{more.columns.uses}</th>
            </tr>
          </thead>
          <tbody>
            {short.map((line) => (
              <Line key={line.id} line={line} buy={lines.find((one) => one.line.id === line.id)} result={result} />
            ))}
          </tbody>
        </table>
      </section>
      <aside class="buy-paper">
        {lines.length > 0 && <Total lines={lines} result={result} />}
        {context && (
          <NewPaper
            title={words.paper}
            note={words.note(short.length)}
            build={() => {
              const input = shoppingOf(result);
              return buyingPaper(context, lines, suppliers.value, input && withinLeastOrders(input, lines, suppliers.value));
            }}
          />
        )}
        {paperSaid.value !== '' && (
          <p class="bench-said" role="status">
            {paperSaid.value}
          </p>
        )}
      </aside>
    </div>
  );
}

/** What the whole list comes to, to be ordered at once or taken along as a file. */
function Total({ lines, result }: { readonly lines: readonly ShoppingLine[]; readonly result: PlanResult }) {
  const { cost, unknown } = shoppingTotal(lines);
  const wanted = lines.flatMap((line) => {
    const option = chosenOption(line);
    return option && line.toBuy > 0 ? [{ line, option }] : [];
  });
  const priced = wanted.some(({ option }) => option.cover?.cost !== null);
  return (
    <div class="buy-total">
      <p>
        <b>{more.total.title}</b> {priced ? more.total.cost(money(cost)) : more.total.none}
      </p>
      {unknown > 0 && priced && <p class="small tone-accent">{more.total.unknown(unknown)}</p>}
      <SupplierSums lines={lines} result={result} />
      <p class="soft small">{more.total.assumed}</p>
      <p class="buy-acts">
        <button type="button" class="button" disabled={wanted.length === 0} onClick={() => void placeOrders(wanted, result)}>
          {more.total.orderAll}
        </button>
        <button
          type="button"
          class="button"
          onClick={() => saveCsv(more.csv.file(result.name), shoppingRows(lines, result, suppliers.value))}
        >
          {more.csv.save}
        </button>
      </p>
    </div>
  );
}

interface LineProps {
  readonly line: FetchLine;
  readonly buy: ShoppingLine | undefined;
  readonly result: PlanResult;
}

function Line({ line, buy, result }: LineProps) {
  const cas = result.materials[line.material]?.cas ?? '';
  return (
    <tr>
      <td>
        <b class="buy-name">{line.name}</b> {line.formWords !== 'neat' && <span class="soft">{line.formWords}</span>}
        {cas !== '' && <span class="soft small buy-cas">{cas}</span>}
      </td>
      <td class="numeric buy-short">
        <Amount figure={line.short} size="large" />
        <small class="soft">{more.amounts(needText(line, decimalMark), onHandText(line, decimalMark))}</small>
      </td>
      <td>{buy && <ToBuy line={buy} result={result} />}</td>
      <td>
        <Why line={line} />
      </td>
      <td>
        <Uses line={line} result={result} />
      </td>
    </tr>
  );
}

/** Bottles that would serve but for a reason, each a way to the bottle; else that there is not enough. */
function Why({ line }: { readonly line: FetchLine }) {
  if (line.comesBack) return <>{words.toBegin}</>;
  if (line.passedOver.length === 0) return <>{line.onHand.value > 0 ? words.notEnough : words.notOnShelf}</>;
  return (
    <ul>
      {line.passedOver.map((bottle) => (
        <li key={bottle.bottle}>
          <button
            type="button"
            class="text-button"
            onClick={() => {
              openBottle(bottle.bottle);
              goTo('shelf');
            }}
          >
            {words.lot(bottle.lot)}
          </button>{' '}
          {passedOverText(bottle, decimalMark)}
        </li>
      ))}
    </ul>
  );
}

function Uses({ line, result }: { readonly line: FetchLine; readonly result: PlanResult }) {
  const ids = new Set(line.uses.map((use) => use.step));
  return (
    <ul>
      {result.steps
        .filter((step) => ids.has(step.id))
        .map((step) => (
          <li key={step.id}>
            <button
              type="button"
              class="text-button buy-use"
              title={step.title}
              onClick={() => {
                chooseStep(step.id);
                goTo('plan');
              }}
            >
              {words.use(step.number, step.title)}
            </button>
          </li>
        ))}
    </ul>
  );
}
