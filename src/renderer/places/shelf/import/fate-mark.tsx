import type { FateKind } from '../../../../core/shelf/import/fate.ts';
import { shelfImportWords } from '../../../../core/words/shelf-import-words.ts';

interface Look {
  readonly tone: 'quiet' | 'flow' | 'accent' | 'loss';
  /** Path on a 12 × 12 field; the shape alone tells the fates apart. */
  readonly shape: string;
  readonly line: boolean;
}

const LOOKS: Readonly<Record<FateKind, Look>> = {
  new: { tone: 'flow', shape: 'M6 2v8M2 6h8', line: true },
  update: { tone: 'loss', shape: 'M2 4h7M7 2l2.5 2L7 6M10 8H3M5 6 2.5 8 5 10', line: true },
  duplicate: { tone: 'quiet', shape: 'M2 4.5h8M2 7.5h8', line: true },
  refused: { tone: 'accent', shape: 'M3 3l6 6M9 3 3 9', line: true },
};

/** What becomes of a row, in word, shape and tone. */
export function FateMark({ fate }: { readonly fate: FateKind }) {
  const look = LOOKS[fate];
  return (
    <span class={`status tone-${look.tone}`}>
      <svg viewBox="0 0 12 12" class={look.line ? 'mark-line' : 'mark-fill'} aria-hidden="true">
        <path d={look.shape} />
      </svg>
      {shelfImportWords.fates[fate]}
    </span>
  );
}
