import { useSignal } from '@preact/signals';
import type { TargetedFocusEvent, TargetedInputEvent, TargetedKeyboardEvent } from 'preact';
import { useId } from 'preact/hooks';
import type { ProcedureInput } from '../../../core/port/port.ts';
import type { BottleRow } from '../../../core/port/shelf.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { call } from '../../state/connection.ts';

const words = shelfWords.bottle;

type Change = Omit<ProcedureInput<'shelf.change'>, 'id'>;

interface BottleFieldsProps {
  readonly bottle: BottleRow;
  readonly onSaved: () => void;
}

/** What is written on the bottle, edited where it stands; Enter or leaving a field saves it. */
export function BottleFields({ bottle, onSaved }: BottleFieldsProps) {
  const save = async (change: Change): Promise<string> => {
    const answer = await call('shelf.change', { id: bottle.id, ...change });
    if (!answer.ok) return words.notSaved(troubleWords(answer));
    onSaved();
    return '';
  };
  return (
    <section aria-labelledby="written-title">
      <h2 id="written-title">{words.written}</h2>
      <div class="fields">
        <InlineField label={words.place} value={bottle.place} onSave={(place) => save({ place })} />
        <InlineField label={words.lot} value={bottle.lot} onSave={(lot) => save({ lot })} />
        <InlineField label={words.opened} value={bottle.opened ?? ''} date onSave={(day) => save({ opened: day || null })} />
        <InlineField label={words.useBy} value={bottle.useBy ?? ''} date onSave={(day) => save({ useBy: day || null })} />
        <Fixed label={words.received} value={bottle.received ?? shelfWords.noDate} />
        <Fixed label={words.supplier} value={bottle.supplier === '' ? shelfWords.none : bottle.supplier} />
        <InlineField label={words.note} value={bottle.note} wide onSave={(note) => save({ note })} />
        <HoldBack heldBack={bottle.heldBack} onSave={(heldBack) => save({ heldBack })} />
      </div>
    </section>
  );
}

function Fixed({ label, value }: { readonly label: string; readonly value: string }) {
  return (
    <p class="field">
      <span class="field-label">{label}</span>
      <span class="field-fixed">{value}</span>
    </p>
  );
}

interface InlineFieldProps {
  readonly label: string;
  readonly value: string;
  readonly date?: boolean;
  readonly wide?: boolean;
  /** Gives back what went wrong; empty where it was saved. */
  readonly onSave: (value: string) => Promise<string>;
}

/** Keeps what was typed until it is saved, whatever happens meanwhile. */
function InlineField({ label, value, date = false, wide = false, onSave }: InlineFieldProps) {
  const id = useId();
  const typed = useSignal<string | null>(null);
  const wrong = useSignal('');
  const commit = async (input: HTMLInputElement): Promise<void> => {
    // A date typed halfway reads as empty; it must not be taken for "no date".
    if (input.validity.badInput) {
      wrong.value = shelfWords.halfDate;
      return;
    }
    const text = typed.value?.trim();
    if (text === undefined || text === value) {
      typed.value = null;
      wrong.value = '';
      return;
    }
    wrong.value = await onSave(text);
    if (wrong.value === '') typed.value = null;
  };
  const onKeyDown = (event: TargetedKeyboardEvent<HTMLInputElement>): void => {
    if (event.key === 'Enter') void commit(event.currentTarget);
    if (event.key !== 'Escape' || typed.value === null) return;
    // Takes back what was typed; the panel stays open.
    event.stopPropagation();
    typed.value = null;
    wrong.value = '';
  };
  const input = {
    id,
    class: 'field-input',
    value: typed.value ?? value,
    autocomplete: 'off',
    'aria-invalid': wrong.value !== '',
    'aria-describedby': wrong.value === '' ? undefined : `${id}-wrong`,
    onInput: (event: TargetedInputEvent<HTMLInputElement>) => {
      typed.value = event.currentTarget.value;
    },
    onBlur: (event: TargetedFocusEvent<HTMLInputElement>) => void commit(event.currentTarget),
    onKeyDown,
  } as const;
  return (
    <p class={wide ? 'field field-wide' : 'field'}>
      <label class="field-label" for={id}>
        {label}
      </label>
      {date ? <input type="date" {...input} /> : <input type="text" {...input} />}
      {wrong.value !== '' && (
        <span id={`${id}-wrong`} class="field-wrong" role="alert">
          {wrong.value}
        </span>
      )}
    </p>
  );
}

interface HoldBackProps {
  readonly heldBack: boolean;
  readonly onSave: (heldBack: boolean) => Promise<string>;
}

function HoldBack({ heldBack, onSave }: HoldBackProps) {
  const wrong = useSignal('');
  return (
    <p class="field field-wide">
      <label class="check">
        <input
          type="checkbox"
          checked={heldBack}
          onChange={async (event) => {
            wrong.value = await onSave(event.currentTarget.checked);
          }}
        />
        {words.heldBack}
      </label>
      {wrong.value !== '' && (
        <span class="field-wrong" role="alert">
          {wrong.value}
        </span>
      )}
    </p>
  );
}
