import { useSignal } from '@preact/signals';
import { useRef } from 'preact/hooks';
import type { ProcedureInput } from '../../../core/port/port.ts';
import { shelfActWords } from '../../../core/words/shelf-act-words.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { call } from '../../state/connection.ts';
import { ChoiceField } from './choice-field.tsx';
import { chosenBottles, chosenCount } from './chosen.ts';
import { CloseButton } from './close-button.tsx';
import { useTyped } from './move-state.ts';
import { shelfPlaces } from './places.ts';
import { halfDates, TextField } from './text-field.tsx';

const words = shelfActWords.many;

type Change = ProcedureInput<'shelf.changeMany'>['change'];
type Hold = keyof typeof words.holds;

const DATES = ['received', 'opened', 'useBy'] as const;
type DateName = (typeof DATES)[number];
const NOTHING_OFF: ReadonlySet<DateName> = new Set();

interface DateOrOffProps {
  readonly name: DateName;
  readonly text: string;
  readonly off: boolean;
  readonly type: (text: string) => void;
  readonly takeOff: (taken: boolean) => void;
}

/** A date for all of them, or none on any of them. */
function DateOrOff({ name, text, off, type, takeOff }: DateOrOffProps) {
  return (
    <div class="date-or-off">
      <TextField label={words[name]} name={name} value={text} date disabled={off} onInput={type} />
      <label class="date-off small">
        <input type="checkbox" checked={off} onChange={(event) => takeOff(event.currentTarget.checked)} />
        <span aria-hidden="true">{words.takeOff}</span>
        <span class="unseen">{words.takeOffDate(words[name])}</span>
      </label>
    </div>
  );
}

/** Place and dates of all bottles chosen, in one entry that one click undoes. */
export function ManyForm() {
  const form = useRef<HTMLFormElement>(null);
  const texts = {
    place: useTyped('many place'),
    received: useTyped('many received'),
    opened: useTyped('many opened'),
    useBy: useTyped('many useBy'),
  };
  const off = useSignal(NOTHING_OFF);
  const hold = useSignal<Hold>('');
  const said = useSignal('');
  const entry = useSignal<number | null>(null);
  const count = chosenCount.value;
  const put = async (): Promise<void> => {
    if (halfDates(form.current).length > 0) {
      said.value = shelfWords.halfDate;
      return;
    }
    const typed = Object.entries(texts).map(([field, text]) => [field, text.value.trim()] as const);
    const change: Change = {
      ...Object.fromEntries(typed.filter(([, value]) => value !== '')),
      ...Object.fromEntries([...off.value].map((field) => [field, null])),
      ...(hold.value === '' ? {} : { heldBack: hold.value === 'hold' }),
    };
    if (Object.keys(change).length === 0 || count === 0) {
      said.value = words.nothing;
      return;
    }
    const answer = await call('shelf.changeMany', { bottles: chosenBottles(), change });
    said.value = answer.ok ? words.changed(answer.value.bottles) : words.failed(troubleWords(answer));
    if (!answer.ok) return;
    entry.value = answer.value.edit;
    for (const text of Object.values(texts)) text.value = '';
    hold.value = '';
    off.value = NOTHING_OFF;
  };
  const undo = async (edit: number): Promise<void> => {
    const answer = await call('shelf.undoChange', { edit });
    said.value = answer.ok ? words.undone(answer.value.bottles, answer.value.left) : words.failed(troubleWords(answer));
    if (answer.ok) entry.value = null;
  };
  return (
    <section aria-labelledby="many-title">
      <header class="panel-head">
        <h1 id="many-title">{words.title(count)}</h1>
        <CloseButton />
      </header>
      <p class="soft small panel-hint">{words.hint}</p>
      <form
        ref={form}
        class="new-bottle"
        aria-labelledby="many-title"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          void put();
        }}
      >
        <div class="fields">
          <TextField
            label={words.place}
            name="place"
            value={texts.place.value}
            suggestions={shelfPlaces.value.map((one) => one.place)}
            onInput={(text) => {
              texts.place.value = text;
              said.value = '';
            }}
          />
          {DATES.map((name) => (
            <DateOrOff
              key={name}
              name={name}
              text={off.value.has(name) ? '' : texts[name].value}
              off={off.value.has(name)}
              type={(text) => {
                texts[name].value = text;
                said.value = '';
              }}
              takeOff={(taken) => {
                off.value = new Set([...off.value].filter((one) => one !== name).concat(taken ? [name] : []));
                if (taken) texts[name].value = '';
                said.value = '';
              }}
            />
          ))}
          <ChoiceField
            label={words.heldBack}
            value={hold.value}
            choices={words.holds}
            onChoose={(one) => {
              hold.value = one;
              said.value = '';
            }}
          />
        </div>
        <p class="move-foot">
          <button type="submit" class="button button-first" disabled={count === 0}>
            {words.put(count)}
          </button>
          {entry.value !== null && (
            <button type="button" class="text-button" onClick={() => entry.value !== null && void undo(entry.value)}>
              {words.undo}
            </button>
          )}
          <span class="small" role="status">
            {said.value}
          </span>
        </p>
      </form>
    </section>
  );
}
