import { useId } from 'preact/hooks';
import type { BottleRow } from '../../../core/port/shelf.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { useMove } from './move-state.ts';
import { MOVE_KINDS, type MoveKind, needsReason, readMovement } from './movement.ts';
import { shown } from './shown-amount.ts';
import { TextField } from './text-field.tsx';

const words = shelfWords.move;

interface MoveFormProps {
  readonly bottle: BottleRow;
  readonly onRecorded: () => void;
}

/** Receive, use, adjust, discard: each is one line of the ledger. */
export function MoveForm({ bottle, onRecorded }: MoveFormProps) {
  const { kind, amount, reason, problems, said, record } = useMove(bottle, onRecorded);
  const type = (field: typeof amount, text: string): void => {
    field.value = text;
    problems.value = {};
    said.value = '';
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
      <Kinds
        kind={kind.value}
        onChoose={(next) => {
          kind.value = next;
          type(amount, amount.value);
        }}
      />
      <div class="fields">
        <TextField
          label={words.amount[kind.value]}
          value={amount.value}
          placeholder={kind.value === 'adjusted' ? shown(bottle.left, bottle.unit) : `25 ${bottle.unit}`}
          problem={problems.value.amount}
          onInput={(text) => type(amount, text)}
        />
        <TextField
          label={words.reason[kind.value]}
          value={reason.value}
          placeholder={needsReason(kind.value) ? '' : words.optional}
          problem={problems.value.reason}
          onInput={(text) => type(reason, text)}
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

function Kinds({ kind, onChoose }: { readonly kind: MoveKind; readonly onChoose: (kind: MoveKind) => void }) {
  const name = useId();
  return (
    <div class="segments" role="radiogroup" aria-label={words.title}>
      {MOVE_KINDS.map((one) => (
        <label key={one} class="segment">
          <input type="radio" name={name} checked={kind === one} onChange={() => onChoose(one)} />
          <span>{words.kinds[one]}</span>
        </label>
      ))}
    </div>
  );
}
