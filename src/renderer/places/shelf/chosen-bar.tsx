import { shelfActWords } from '../../../core/words/shelf-act-words.ts';
import { allChosen, chooseAll, chooseNone, chosenCount } from './chosen.ts';
import { panel, total } from './shelf-store.ts';

const words = shelfActWords.choose;

/** What can be done with the bottles chosen; nothing where none is. */
export function ChosenBar() {
  const count = chosenCount.value;
  if (count === 0) return null;
  const all = total.value ?? 0;
  return (
    <p class="chosen-bar">
      <span role="status">{allChosen.value ? words.allChosen(count) : words.count(count)}</span>
      {!allChosen.value && all > count && (
        <button type="button" class="text-button" onClick={chooseAll}>
          {words.all(all)}
        </button>
      )}
      <button type="button" class="text-button" onClick={chooseNone}>
        {words.none}
      </button>
      <button
        type="button"
        class="button"
        onClick={() => {
          panel.value = { show: 'many' };
        }}
      >
        {words.change}
      </button>
    </p>
  );
}
