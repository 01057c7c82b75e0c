import type { Warning } from '../../../../core/paper/sheet.ts';
import { readOf, type RunState } from '../../../../core/run/state.ts';
import { cautionWords } from '../../../../core/words/caution-words.ts';
import { weighWords as words } from '../../../../core/words/weigh-words.ts';
import { clockTime } from '../../../parts/day-text.ts';
import { acknowledgeHere } from '../../../state/weigh-read.ts';
import { who } from '../../../state/who.ts';

interface CautionsProps {
  readonly warnings: readonly Warning[];
  /** Null at the head of the sheet. */
  readonly operation: string | null;
  readonly state: RunState;
}

/** Cautions and limits, immediately before what they belong to, then notes; who has read one stands under it, and it stays. */
export function Cautions({ warnings, operation, state }: CautionsProps) {
  const warning = warnings.filter((one) => one.kind !== 'note');
  const notes = warnings.filter((one) => one.kind === 'note');
  return (
    <>
      {warning.length > 0 && (
        <ul class="weigh-cautions" aria-label={words.cautions}>
          {warning.map((one) => (
            <Line key={one.words} warning={one} operation={operation} state={state} />
          ))}
        </ul>
      )}
      {notes.length > 0 && (
        <ul class="weigh-notes" aria-label={words.notes}>
          {notes.map((one) => (
            <li key={one.words}>{one.words}</li>
          ))}
        </ul>
      )}
    </>
  );
}

function Line({ warning, operation, state }: Omit<CautionsProps, 'warnings'> & { readonly warning: Warning }) {
  const read = readOf(state, operation, warning.words);
  const mine = read.some(({ entry }) => entry.by === who.value);
  return (
    <li class={`weigh-${warning.kind}`}>
      <svg viewBox="0 0 12 12" aria-hidden="true">
        <path d="M6 .8 11.6 11H.4ZM5.3 4.4v3h1.4v-3ZM5.3 8.4v1.4h1.4V8.4Z" />
      </svg>
      <span>
        {warning.words}
        {read.map(({ number, at, entry }) => (
          <small key={number} class="weigh-read-by">
            {cautionWords.read(entry.by, clockTime(at))}
          </small>
        ))}
      </span>
      {!mine && (
        <button
          type="button"
          class="weigh-initial"
          aria-label={cautionWords.acknowledgeFor(warning.words)}
          onClick={() => void acknowledgeHere(operation, warning.words)}
        >
          {cautionWords.readAs(who.value)}
        </button>
      )}
    </li>
  );
}
