import { useSignal } from '@preact/signals';
import { useId } from 'preact/hooks';
import type { ProcedureInput } from '../../../core/port/port.ts';
import type { BottleRow } from '../../../core/port/shelf.ts';
import { shelfActWords } from '../../../core/words/shelf-act-words.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { call } from '../../state/connection.ts';
import { useInlineEdit } from './inline-edit.ts';
import { readMeasure } from './read-measure.ts';
import { ledgerNumber } from './shown-amount.ts';

const words = shelfWords.bottle;

type Change = Omit<ProcedureInput<'shelf.change'>, 'id'>;

interface BottleFieldsProps {
  readonly bottle: BottleRow;
  /** Reads the bottle again; done when it has been read. */
  readonly onSaved: () => Promise<void>;
}

/** What is written on the bottle, edited where it stands; Enter or leaving a field saves it. */
export function BottleFields({ bottle, onSaved }: BottleFieldsProps) {
  const save = async (change: Change): Promise<string> => {
    const answer = await call('shelf.change', { id: bottle.id, ...change });
    if (!answer.ok) return words.notSaved(troubleWords(answer));
    await onSaved();
    return '';
  };
  return (
    <section aria-labelledby="written-title">
      <h2 id="written-title">{words.written}</h2>
      <div class="fields">
        <InlineField field={`${bottle.id} place`} label={words.place} value={bottle.place} onSave={(place) => save({ place })} />
        <InlineField field={`${bottle.id} lot`} label={words.lot} value={bottle.lot} onSave={(lot) => save({ lot })} />
        <InlineField
          field={`${bottle.id} opened`}
          label={words.opened}
          value={bottle.opened ?? ''}
          date
          onSave={(day) => save({ opened: day || null })}
        />
        <InlineField
          field={`${bottle.id} useBy`}
          label={words.useBy}
          value={bottle.useBy ?? ''}
          date
          onSave={(day) => save({ useBy: day || null })}
        />
        <InlineField
          field={`${bottle.id} received`}
          label={words.received}
          value={bottle.received ?? ''}
          date
          onSave={(day) => save({ received: day || null })}
        />
        <InlineField
          field={`${bottle.id} supplier`}
          label={words.supplier}
          value={bottle.supplier}
          onSave={(supplier) => save({ supplier })}
        />
        {MEASURES.map((name) => (
          <InlineField
            key={name}
            field={`${bottle.id} ${name}`}
            label={shelfActWords.fields[name]}
            value={bottle[name] === null ? '' : ledgerNumber(bottle[name])}
            onSave={(typed) => saveMeasure(name, typed, save)}
          />
        ))}
        <InlineField field={`${bottle.id} note`} label={words.note} value={bottle.note} wide onSave={(note) => save({ note })} />
        <HoldBack heldBack={bottle.heldBack} onSave={(heldBack) => save({ heldBack })} />
      </div>
    </section>
  );
}

const MEASURES = ['tare', 'water', 'price'] as const;

/** An emptied field takes the value off; what cannot be read is said and stays typed. */
async function saveMeasure(
  name: (typeof MEASURES)[number],
  typed: string,
  save: (change: Change) => Promise<string>,
): Promise<string> {
  if (typed === '') return save({ [name]: null });
  const read = readMeasure[name](typed);
  return read.ok ? save({ [name]: read.value }) : read.words;
}

interface InlineFieldProps {
  /** The name what is typed is kept by. */
  readonly field: string;
  readonly label: string;
  readonly value: string;
  readonly date?: boolean;
  readonly wide?: boolean;
  /** Gives back what went wrong; empty where it was saved. */
  readonly onSave: (value: string) => Promise<string>;
}

/** Keeps what was typed until it is saved, whatever happens meanwhile. */
function InlineField({ field, label, value, date = false, wide = false, onSave }: InlineFieldProps) {
  const id = useId();
  const { wrong, handlers } = useInlineEdit(field, value, onSave);
  const input = {
    ...handlers,
    id,
    class: 'field-input',
    autocomplete: 'off',
    'aria-invalid': wrong.value !== '',
    'aria-describedby': wrong.value === '' ? undefined : `${id}-wrong`,
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
      <label class="check-box">
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
