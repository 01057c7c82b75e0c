import type { BottleState } from '../../../core/shelf/bottle-state.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';

interface Look {
  readonly tone: 'quiet' | 'accent' | 'loss';
  /** Path on a 12 × 12 field; the shape alone tells the states apart. */
  readonly shape: string;
  readonly line?: boolean;
}

const LOOKS: Readonly<Record<BottleState['kind'], Look>> = {
  good: { tone: 'quiet', shape: 'M2 6.5 5 9.5 10 3', line: true },
  soon: { tone: 'loss', shape: 'M6 1.5a4.5 4.5 0 1 1 0 9 4.5 4.5 0 1 1 0-9ZM6 3.5V6l2 1.5', line: true },
  'out of date': { tone: 'accent', shape: 'M6 1 11 6 6 11 1 6Z' },
  'held back': { tone: 'loss', shape: 'M3 2h2v8H3ZM7 2h2v8H7Z' },
  empty: { tone: 'quiet', shape: 'M3 1.5h6v9H3Z', line: true },
  'unknown strength': { tone: 'accent', shape: 'M3 1.5h6v9H3ZM3 6h6', line: true },
};

/** The state in word, shape and tone. */
export function BottleStateMark({ state }: { readonly state: BottleState }) {
  const look = LOOKS[state.kind];
  const words = state.kind === 'soon' ? shelfWords.states.soon(state.days) : shelfWords.states[state.kind];
  return (
    <span class={`status tone-${look.tone}`}>
      <svg viewBox="0 0 12 12" class={look.line ? 'mark-line' : 'mark-fill'} aria-hidden="true">
        <path d={look.shape} />
      </svg>
      {words}
    </span>
  );
}
