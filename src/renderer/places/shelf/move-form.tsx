import { useSignal } from '@preact/signals';
import { useId } from 'preact/hooks';
import type { BottleRow } from '../../../core/port/shelf.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { call } from '../../state/connection.ts';
import { MOVE_KINDS, type MoveKind, type MoveProblems, needsReason, readMovement } from './movement.ts';
import { shown } from './shown-amount.ts';
import { TextField } from './text-field.tsx';

const words = shelfWords.move;

interface MoveFormProps {
  readonly bottle: BottleRow;
  readonly onRecorded: () => void;
}

/** Receive, use, adjust, discard: each is one line of the ledger. */
export function MoveForm({ bottle, onRecorded }: MoveFormProps) {
  const id = useId();
  const kind = useSignal<MoveKind>('used');
  const amount = useSignal('');
  const reason = useSignal('');
  const problems = useSignal<MoveProblems>({});
  const said = useSignal('');
  const choose = (next: MoveKind): void => {
    kind.value = next;
    problems.value = {};
    said.value = '';
  };
  const record = async (): Promise<void> => {
    const read = readMovement(kind.value, amount.value, reason.value, bottle);
    problems.value = read.ok ? {} : read.problems;
    if (!read.ok) return;
    const move = { id: bottle.id, kind: kind.value, change: read.change, reason: reason.value.trim() };
    const answer = await call('shelf.move', move);
    if (!answer.ok) {
      said.value = shelfWords.bottle.notSaved(troubleWords(answer));
      return;
    }
    amount.value = '';
    reason.value = '';
    said.value = words.recorded(shown(answer.value.left, bottle.unit));
    onRecorded();
  };
  const ahead = readMovement(kind.value, amount.value, 'looking ahead', bottle);
  return (
    <form
      class="move"
      aria-label={words.title}
      onSubmit={(event) => {
        event.preventDefault();
        void record();
      }}
    >
      <div class="segments" role="radiogroup" aria-label={words.title}>
        {MOVE_KINDS.map((one) => (
          <label key={one} class="segment">
            <input type="radio" name={`${id}-kind`} checked={kind.value === one} onChange={() => choose(one)} />
            <span>{words.kinds[one]}</span>
          </label>
        ))}
      </div>
      <div class="fields">
        <TextField
          label={words.amount[kind.value]}
          value={amount.value}
          placeholder={kind.value === 'adjusted' ? shown(bottle.left, bottle.unit) : `25 ${bottle.unit}`}
          problem={problems.value.amount}
          onInput={(text) => {
            amount.value = text;
            problems.value = {};
            said.value = '';
          }}
        />
        <TextField
          label={words.reason[kind.value]}
          value={reason.value}
          placeholder={needsReason(kind.value) ? '' : words.optional}
          problem={problems.value.reason}
          onInput={(text) => {
            reason.value = text;
            problems.value = {};
          }}
        />
      </div>
      <p class="move-foot">
        <button type="submit" class="button">
          {words.record[kind.value]}
        </button>
        <span class="soft small" role="status">
          {said.value !== '' ? said.value : ahead.ok ? words.willBe(shown(ahead.left, bottle.unit)) : ''}
        </span>
      </p>
    </form>
  );
}
