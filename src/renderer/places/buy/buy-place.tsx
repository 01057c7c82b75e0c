import './buy.css';
import { buyingPaper, isShort } from '../../../core/paper/buying-list.ts';
import type { FetchLine, PlanResult } from '../../../core/plan/result.ts';
import { buyWords as words } from '../../../core/words/bench-words.ts';
import { Amount } from '../../parts/amount.tsx';
import { EmptyState } from '../../parts/empty-state.tsx';
import { goTo } from '../../state/place.ts';
import { chooseStep } from '../../state/plan-view.ts';
import { paperContext } from '../../state/paper-context.ts';
import { paperSaid } from '../bench/bench-store.ts';
import { NewPaper } from '../bench/papers.tsx';
import { WithPlan } from '../bench/with-plan.tsx';
import { openBottle } from '../shelf/shelf-store.ts';

/** What has to be bought before the plan can be done. */
export function BuyPlace() {
  return <WithPlan>{(result) => <Shortfalls result={result} />}</WithPlan>;
}

export function Shortfalls({ result }: { readonly result: PlanResult }) {
  const lines = result.fetch.filter(isShort);
  const context = paperContext(result);
  if (lines.length === 0) return <EmptyState title={words.nothing.title} text={words.nothing.text} />;
  return (
    <div class="buy">
      <section class="buy-lines" aria-labelledby="buy-title">
        <header class="part-head">
          <h1 id="buy-title">{words.title}</h1>
          <span class="part-note">{words.note(lines.length)}</span>
        </header>
        <table class="stock-table buy-table">
          <thead>
            <tr>
              <th>{words.columns.material}</th>
              <th class="numeric">{words.columns.need}</th>
              <th class="numeric">{words.columns.onHand}</th>
              <th class="numeric">{words.columns.short}</th>
              <th>{words.columns.why}</th>
              <th>{words.columns.uses}</th>
            </tr>
          </thead>
          <tbody>
            {lines.map((line) => (
              <Line key={line.id} line={line} result={result} />
            ))}
          </tbody>
        </table>
      </section>
      <aside class="buy-paper">
        {context && <NewPaper title={words.paper} note={words.note(lines.length)} build={() => buyingPaper(context)} />}
        {paperSaid.value !== '' && (
          <p class="bench-said" role="status">
            {paperSaid.value}
          </p>
        )}
      </aside>
    </div>
  );
}

function Line({ line, result }: { readonly line: FetchLine; readonly result: PlanResult }) {
  const cas = result.materials[line.material]?.cas ?? '';
  return (
    <tr>
      <td>
        <b class="buy-name">{line.name}</b> {line.formWords !== 'neat' && <span class="soft">{line.formWords}</span>}
        {cas !== '' && <span class="soft small buy-cas">{cas}</span>}
      </td>
      <td class="numeric">
        <Amount figure={line.need} />
      </td>
      <td class="numeric">
        <Amount figure={line.onHand} />
      </td>
      <td class="numeric buy-short">
        <Amount figure={line.short} size="large" />
      </td>
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
          {words.passedOver[bottle.why]}
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
