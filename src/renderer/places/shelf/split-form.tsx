import { useSignal } from '@preact/signals';
import type { BottleRow } from '../../../core/port/shelf.ts';
import { shelfActWords } from '../../../core/words/shelf-act-words.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { call } from '../../state/connection.ts';
import { ActForm } from './act-form.tsx';
import { useTyped } from './move-state.ts';
import { readMovement } from './movement.ts';
import { openBottle } from './shelf-store.ts';
import { shown } from './shown-amount.ts';
import { TextField } from './text-field.tsx';

const words = shelfActWords.split;

interface SplitFormProps {
  readonly bottle: BottleRow;
  readonly onRecorded: () => Promise<void>;
}

/** Part of a bottle into a new one of the same contents, which is then shown. */
export function SplitForm({ bottle, onRecorded }: SplitFormProps) {
  const amount = useTyped(`${bottle.id} split amount`);
  const place = useTyped(`${bottle.id} split place`);
  const said = useSignal('');
  const problem = useSignal<{ readonly at: number; readonly words: string } | undefined>(undefined);
  const ahead = readMovement('used', amount.value, '', bottle);
  const type = (field: typeof amount, text: string): void => {
    field.value = text;
    said.value = '';
    problem.value = undefined;
  };
  const record = async (): Promise<void> => {
    problem.value = ahead.ok ? undefined : ahead.problems.amount;
    if (!ahead.ok) return;
    const there = place.value.trim();
    const answer = await call('shelf.split', {
      id: bottle.id,
      amount: -ahead.change,
      ...(there === '' ? {} : { place: there }),
    });
    if (!answer.ok) {
      said.value = shelfWords.bottle.notSaved(troubleWords(answer));
      return;
    }
    type(amount, '');
    type(place, '');
    await onRecorded();
    openBottle(answer.value.id);
  };
  return (
    <details class="bottle-test">
      <summary>{words.title}</summary>
      <ActForm
        title={words.title}
        record={record}
        button={words.record}
        status={
          said.value === '' && ahead.ok
            ? words.ahead(shown(ahead.left, bottle.unit), shown(-ahead.change, bottle.unit))
            : said.value
        }
      >
        <TextField
          label={words.amount}
          value={amount.value}
          placeholder={`25 ${bottle.unit}`}
          problem={problem.value}
          onInput={(text) => type(amount, text)}
        />
        <TextField label={words.place} value={place.value} placeholder={bottle.place} onInput={(text) => type(place, text)} />
      </ActForm>
    </details>
  );
}
