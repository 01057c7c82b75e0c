import type { BottleRow } from '../../../core/port/shelf.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';

export type BottleState =
  | { readonly kind: 'good' | 'out of date' | 'held back' | 'empty' | 'unknown strength' }
  | { readonly kind: 'soon'; readonly days: number };

/** So many days ahead a use-by date is worth a word. */
const SOON_DAYS = 30;
const DAY = 86_400_000;

/** The one thing to know about a bottle first, on a day (ISO). What keeps it out of a plan comes before what does not. */
export function bottleState(bottle: Pick<BottleRow, 'left' | 'form' | 'heldBack' | 'useBy'>, today: string): BottleState {
  if (bottle.left <= 0) return { kind: 'empty' };
  if (bottle.heldBack) return { kind: 'held back' };
  if (bottle.form.kind === 'unknown') return { kind: 'unknown strength' };
  if (bottle.useBy === null || today === '') return { kind: 'good' };
  const days = Math.round((Date.parse(bottle.useBy) - Date.parse(today)) / DAY);
  if (days < 0) return { kind: 'out of date' };
  return days <= SOON_DAYS ? { kind: 'soon', days } : { kind: 'good' };
}

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
