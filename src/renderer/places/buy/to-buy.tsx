import { type BuyOption, chosenOption } from '../../../core/buy/buy-option.ts';
import { sharedText, thinnedTexts } from '../../../core/buy/buy-text.ts';
import type { ShoppingLine } from '../../../core/buy/shopping.ts';
import type { PlanResult } from '../../../core/plan/result.ts';
import { sentence } from '../../../core/words/sentences.ts';
import { shoppingWords as words } from '../../../core/words/shopping-words.ts';
import { decimalMark } from '../../parts/locale.ts';
import { route } from '../../state/plan-route.ts';
import { amount, coverFacts, packFacts, packSize } from './buy-amounts.ts';
import { placeOrders } from './buy-store.ts';
import { KnownPacks } from './known-packs.tsx';

interface ToBuyProps {
  readonly line: ShoppingLine;
  readonly result: PlanResult;
}

/** What the list proposes for a line, what else could be bought, and the packs that are known. */
export function ToBuy({ line, result }: ToBuyProps) {
  const chosen = chosenOption(line);
  const material = route.value?.materials[line.line.material];
  const others = line.options.filter((one) => one !== chosen);
  const shared = line.toBuy > 0 ? sharedText(line) : null;
  return (
    <div class="to-buy">
      {line.onOrder > 0 && <p class="soft">{words.onOrder(amount(line.onOrder, line.line.unit), line.orderedFor)}</p>}
      {line.toBuy === 0 && <p>{words.allOnOrder}</p>}
      {line.toBuy > 0 && chosen && <Option option={chosen} line={line} result={result} label={words.order} />}
      {shared !== null && <p class={line.coveredBy ? '' : 'small'}>{shared}</p>}
      {line.toBuy > 0 && !chosen && shared === null && <p class="soft">{noneWords(line)}</p>}
      {thinnedTexts(line, decimalMark).map((text) => (
        <p key={text}>{text}</p>
      ))}
      <details class="fold">
        <summary>{words.more(others.length)}</summary>
        {others.map((option) => (
          <div key={option.formWords + option.unit} class="buy-other">
            <p>{words.service[option.service](option.formWords)}</p>
            <Changes option={option} />
            {line.toBuy > 0 && option.cover && (
              <Option option={option} line={line} result={result} label={words.orderInstead(option.formWords)} />
            )}
          </div>
        ))}
        {material && <KnownPacks material={material} name={line.line.name} usual={line.line.form} />}
      </details>
    </div>
  );
}

/** Why nothing is proposed. */
function noneWords({ options }: ShoppingLine): string {
  if (options.length === 0) return words.noPacks;
  return options.some((one) => one.service === 'as asked') ? words.notProved : words.noneAsAsked;
}

function Option({ option, line, result, label }: ToBuyProps & { readonly option: BuyOption; readonly label: string }) {
  return (
    <>
      <ul>
        {option.packs.map((pack, at) => {
          const count = option.cover?.counts[at] ?? 0;
          return count === 0 ? null : (
            <li key={at}>
              <b>{words.packs(count, packSize(pack))}</b> <span class="soft small">{packFacts(pack, option.mixed)}</span>
            </li>
          );
        })}
      </ul>
      <p class="small">{coverFacts(option)}</p>
      <button
        type="button"
        class="button"
        aria-label={`${label}: ${line.line.name}`}
        onClick={() => void placeOrders([{ line, option }], result)}
      >
        {label}
      </button>
    </>
  );
}

/** What another strength changes: solvent brought in, volume, and that equal moles are not equal behaviour. */
function Changes({ option: { change } }: { readonly option: BuyOption }) {
  if (!change) return null;
  const { moreOthers, moreVolume, notes } = change;
  const grams = moreOthers.ok ? moreOthers.figure.value : null;
  const volume = moreVolume.ok ? moreVolume.figure.value : null;
  const solvent =
    grams === null ? words.changes.unknown : words.changes[grams < 0 ? 'less' : 'more'](amount(Math.abs(grams), 'g'));
  return (
    <p class="soft small">
      {[solvent, volume === null ? '' : words.changes.volume(amount(Math.abs(volume), 'mL'), volume > 0)]
        .filter((one) => one !== '')
        .join('; ')}
      . {notes.map((note) => sentence(note)).join(' ')}
    </p>
  );
}
