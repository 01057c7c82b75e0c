import { useSignal } from '@preact/signals';
import type { BottleEdit } from '../../../core/port/shelf.ts';
import type { Written } from '../../../core/shelf/written.ts';
import { shelfActWords } from '../../../core/words/shelf-act-words.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { dayText } from '../../parts/day-text.ts';
import { call } from '../../state/connection.ts';
import { useFollowUndo } from './follow-undo.ts';
import { ledgerNumber } from './shown-amount.ts';

const words = shelfActWords.edits;

interface EditHistoryProps {
  readonly edits: readonly BottleEdit[];
  readonly onUndone: () => Promise<void>;
}

/** Every change of what is written on a bottle, newest first, each undone by an entry of its own. */
export function EditHistory({ edits, onUndone }: EditHistoryProps) {
  const wrong = useSignal('');
  const { list, begin } = useFollowUndo<HTMLOListElement>(edits.length);
  const undo = async (edit: number): Promise<void> => {
    begin();
    const answer = await call('shelf.undoChange', { edit });
    wrong.value = answer.ok ? '' : shelfWords.files.failed(troubleWords(answer));
    if (answer.ok) await onUndone();
  };
  if (edits.length === 0) return null;
  return (
    <section aria-labelledby="edits-title">
      <h2 id="edits-title">{words.title}</h2>
      {wrong.value !== '' && (
        <p class="shelf-trouble" role="alert">
          {wrong.value}
        </p>
      )}
      <ol class="bottle-edits" ref={list}>
        {edits.toReversed().map((edit) => (
          <Edit key={edit.id} edit={edit} onUndo={() => void undo(edit.id)} />
        ))}
      </ol>
    </section>
  );
}

function Edit({ edit, onUndo }: { readonly edit: BottleEdit; readonly onUndo: () => void }) {
  const lines = changesIn(edit);
  return (
    <li>
      <time class="soft" dateTime={edit.at}>
        {dayText(edit.at)}
      </time>
      <span>
        {lines.map((line) => (
          <span key={line} class={edit.undone ? 'edit-line edit-undone' : 'edit-line'}>
            {line}
          </span>
        ))}
        <small class="soft">
          {[
            edit.undoes === null ? '' : words.undoes,
            edit.bottles > 1 ? words.ofMany(edit.bottles) : '',
            edit.undone ? words.undone : '',
          ]
            .filter((one) => one !== '')
            .join(' · ')}
        </small>
      </span>
      {edit.undone ? (
        <span />
      ) : (
        <button type="button" class="text-button" aria-label={words.undoOne(lines.join(', '))} onClick={onUndo}>
          {words.undo}
        </button>
      )}
    </li>
  );
}

function changesIn({ before, after }: BottleEdit): readonly string[] {
  const fields = Object.keys(after) as (keyof Written)[];
  return fields.map((field) => words.fromTo(words.fields[field], valueText(field, before), valueText(field, after)));
}

const DATES: ReadonlySet<keyof Written> = new Set<keyof Written>(['received', 'opened', 'useBy']);

function valueText(field: keyof Written, of: Written): string {
  const value = of[field];
  if (value === null || value === undefined || value === '') return words.none;
  if (typeof value === 'boolean') return value ? words.yes : words.no;
  if (typeof value === 'number') return ledgerNumber(value);
  return DATES.has(field) ? dayText(value) : value;
}
