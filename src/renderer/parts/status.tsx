import type { SessionStatus as StatusWord } from '../../core/paper/session.ts';

type Tone = 'quiet' | 'flow' | 'accent' | 'loss';

interface Look {
  readonly tone: Tone;
  /** Path on a 12 × 12 field; the shape alone tells the states apart. */
  readonly shape: string;
}

/** Every state is told three ways: word, shape, tone. */
export const LOOKS: Readonly<Record<StatusWord, Look>> = {
  enough: { tone: 'quiet', shape: 'M2 6.5 5 9.5 10 3' },
  'make up': {
    tone: 'loss',
    shape: 'M6 1a5 5 0 1 1 0 10A5 5 0 1 1 6 1ZM6 2.4a3.6 3.6 0 1 0 0 7.2 3.6 3.6 0 1 0 0-7.2ZM6 2.4a3.6 3.6 0 0 0 0 7.2Z',
  },
  short: { tone: 'accent', shape: 'M6 1.5 11 10.5H1Z' },
  'out of date': { tone: 'accent', shape: 'M6 1 11 6 6 11 1 6Z' },
  'unknown strength': { tone: 'accent', shape: 'M3 1.5h6v9H3ZM3 6h6' },
  'not made yet': { tone: 'accent', shape: 'M6 1a5 5 0 1 1 0 10A5 5 0 1 1 6 1ZM6 3v3.2l2.4 1.6' },
  'from a step': { tone: 'flow', shape: 'M2 6h7M6 3l3.5 3L6 9' },
  tap: { tone: 'flow', shape: 'M6 1.5C8 4.5 9.5 6 9.5 7.7a3.5 3.5 0 0 1-7 0C2.5 6 4 4.5 6 1.5Z' },
};
const LINES: ReadonlySet<StatusWord> = new Set(['enough', 'from a step', 'unknown strength', 'not made yet']);

/** A state in word, shape and tone. */
export function Status({ status, words }: { readonly status: StatusWord; readonly words: string }) {
  const look = LOOKS[status];
  return (
    <span class={`status tone-${look.tone}`}>
      <svg viewBox="0 0 12 12" class={LINES.has(status) ? 'mark-line' : 'mark-fill'} aria-hidden="true">
        <path d={look.shape} fill-rule="evenodd" />
      </svg>
      {words}
    </span>
  );
}
