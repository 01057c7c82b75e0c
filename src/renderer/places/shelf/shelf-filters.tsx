import { useSignalEffect } from '@preact/signals';
import { useId } from 'preact/hooks';
import { STATE_KINDS } from '../../../core/shelf/bottle-state.ts';
import { type Filter, USE_BY_WINDOWS } from '../../../core/shelf/find/filters.ts';
import { HAZARD_GROUPS } from '../../../core/shelf/find/hazard-groups.ts';
import { shelfActWords } from '../../../core/words/shelf-act-words.ts';
import { readPlaces, shelfPlaces } from './places.ts';
import { filter, showEverything, total } from './shelf-store.ts';
import { shelfChanges } from '../../state/workbook.ts';

const words = shelfActWords.filters;

/** What the list is narrowed to: place, state, hazard, use-by date. */
export function ShelfFilters() {
  useSignalEffect(() => {
    void shelfChanges.value;
    void readPlaces();
  });
  const narrowed = Object.keys(filter.value).length > 0;
  if (total.value === null || (total.value === 0 && !narrowed)) return null;
  return (
    <div class="shelf-filters" role="group" aria-label={words.title}>
      <Choice
        name="place"
        choices={shelfPlaces.value.map(({ place, bottles }) => [
          place,
          words.placeOption(place === '' ? words.noPlace : place, bottles),
        ])}
      />
      <Choice name="state" choices={STATE_KINDS.map((kind) => [kind, words.states[kind]])} />
      <Choice name="hazard" choices={HAZARD_GROUPS.map((group) => [group, words.hazards[group]])} />
      <Choice name="useBy" choices={USE_BY_WINDOWS.map((window) => [window, words.useBys[window]])} />
      {narrowed && (
        <button type="button" class="text-button" onClick={showEverything}>
          {words.none}
        </button>
      )}
    </div>
  );
}

interface ChoiceProps {
  readonly name: keyof Filter;
  readonly choices: readonly (readonly [value: string, label: string])[];
}

/** A value that stands for none: no place is called so, since places are kept trimmed. */
const ANY = ' ';

function Choice({ name, choices }: ChoiceProps) {
  const id = useId();
  const now = filter.value[name];
  return (
    <span class={now === undefined ? 'shelf-filter' : 'shelf-filter narrowed'}>
      <label for={id}>{words[name]}</label>
      <select
        id={id}
        value={now ?? ANY}
        onChange={(event) => {
          const { [name]: _before, ...rest } = filter.value;
          const { value } = event.currentTarget;
          filter.value = value === ANY ? rest : ({ ...rest, [name]: value } satisfies Record<string, string>);
        }}
      >
        <option value={ANY}>{words.any}</option>
        {choices.map(([value, label]) => (
          <option key={value} value={value}>
            {label}
          </option>
        ))}
      </select>
    </span>
  );
}
