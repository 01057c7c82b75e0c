import { useSignal } from '@preact/signals';
import { useId } from 'preact/hooks';
import { readPack } from '../../../core/buy/pack-text.ts';
import { type BuyOption, chosenOption, type ShoppingLine } from '../../../core/buy/shopping.ts';
import { sameMaterial } from '../../../core/matter/facts.ts';
import type { PlanResult } from '../../../core/plan/result.ts';
import { sentence } from '../../../core/words/sentences.ts';
import { shoppingWords as words } from '../../../core/words/shopping-words.ts';
import { FieldProblem } from '../../parts/field-problem.tsx';
import { route } from '../../state/plan-route.ts';
import { amount, coverFacts, packFacts, packSize } from './buy-amounts.ts';
import { addPack, packRows, placeOrders, removePack } from './buy-store.ts';

interface ToBuyProps {
  readonly line: ShoppingLine;
  readonly result: PlanResult;
}

/** What the list proposes for a line, what else could be bought, and the packs that are known. */
export function ToBuy({ line, result }: ToBuyProps) {
  const chosen = chosenOption(line);
  const others = line.options.filter((one) => one !== chosen);
  return (
    <div class="to-buy">
      {line.onOrder > 0 && <p class="soft">{words.onOrder(amount(line.onOrder, line.line.unit))}</p>}
      {line.toBuy === 0 && <p>{words.allOnOrder}</p>}
      {line.toBuy > 0 && chosen && <Option option={chosen} line={line} result={result} label={words.order} />}
      {line.toBuy > 0 && !chosen && <p class="soft">{line.options.length === 0 ? words.noPacks : words.notProved}</p>}
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
        <KnownPacks line={line} />
        <AddPack line={line} />
      </details>
    </div>
  );
}

function Option({ option, line, result, label }: ToBuyProps & { readonly option: BuyOption; readonly label: string }) {
  return (
    <>
      <ul>
        {option.packs.map((pack, at) => {
          const count = option.cover?.counts[at] ?? 0;
          return count === 0 ? null : (
            <li key={at}>
              <b>{words.packs(count, packSize(pack))}</b> <span class="soft small">{packFacts(pack, false)}</span>
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

function KnownPacks({ line }: { readonly line: ShoppingLine }) {
  const material = route.value?.materials[line.line.material];
  const rows = packRows.value.filter((row) => material && sameMaterial(row.material, material));
  if (rows.length === 0) return null;
  return (
    <ul class="buy-known">
      {rows.map(({ id, pack }) => (
        <li key={id}>
          {packSize(pack)} <span class="soft small">{packFacts(pack, true)}</span>{' '}
          <button
            type="button"
            class="text-button small"
            aria-label={words.remove(`${packSize(pack)} ${packFacts(pack, true)}`)}
            onClick={() => void removePack(id)}
          >
            ×
          </button>
        </li>
      ))}
    </ul>
  );
}

function AddPack({ line }: { readonly line: ShoppingLine }) {
  const id = useId();
  const text = useSignal('');
  const tried = useSignal(false);
  const material = route.value?.materials[line.line.material];
  const read = readPack(text.value, line.line.form);
  const problem = tried.value && text.value.trim() !== '' && !read.ok ? read : null;
  const add = async (): Promise<void> => {
    tried.value = true;
    // What is wrong shows at the field while it has the focus.
    if (!read.ok) document.getElementById(id)?.focus();
    // What was typed goes only when it is on the list.
    if (read.ok && material && (await addPack(material, read.value))) {
      text.value = '';
      tried.value = false;
    }
  };
  return (
    <form
      class="buy-add"
      onSubmit={(event) => {
        event.preventDefault();
        void add();
      }}
    >
      <span class="buy-add-field">
        <input
          id={id}
          type="text"
          class="plain-input"
          aria-label={words.add.label(line.line.name)}
          aria-invalid={problem !== null}
          aria-describedby={problem ? `${id}-problem` : undefined}
          placeholder={words.add.hint}
          autocomplete="off"
          spellcheck={false}
          value={text.value}
          onInput={(event) => {
            text.value = event.currentTarget.value;
          }}
        />
        {problem && <FieldProblem id={`${id}-problem`} text={text.value} problem={problem} />}
      </span>
      <button type="submit" class="button">
        {words.add.button}
      </button>
    </form>
  );
}
