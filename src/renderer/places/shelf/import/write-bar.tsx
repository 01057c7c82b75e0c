import { importScreenWords } from '../../../../core/words/shelf-import-screen-words.ts';
import { asking, progress, stop, stopping, type TablePreview, writeRows } from './import-store.ts';

const words = importScreenWords.write;

/** What would be written, the button that does it, and how far it is. */
export function WriteBar({ preview, writing }: { readonly preview: TablePreview; readonly writing: boolean }) {
  const { new: added, update: updated, duplicate, refused } = preview.counts;
  const { stage, done, of } = progress.value;
  const busy = writing || asking.value;
  return (
    <footer class="import-foot">
      <p class="import-sum" role="status">
        {busy && stage !== 'idle' ? (
          workWords(stage, done, of)
        ) : (
          <Sum added={added} updated={updated} duplicate={duplicate} refused={refused} />
        )}
      </p>
      {busy && <progress aria-label={importScreenWords.judging} {...(of > 0 ? { value: done, max: of } : {})} />}
      {busy && (
        <button type="button" class="button" disabled={stopping.value} onClick={() => void stop()}>
          {stopping.value ? importScreenWords.stopping : importScreenWords.stop}
        </button>
      )}
      <button
        type="button"
        class="button button-strong"
        disabled={busy || added + updated === 0}
        onClick={() => void writeRows()}
      >
        {words.button(added + updated)}
      </button>
    </footer>
  );
}

function workWords(stage: string, done: number, of: number): string {
  if (stage === 'writing') return importScreenWords.writing(done, of);
  return stage === 'judging' ? importScreenWords.judging : importScreenWords.readingOn;
}

interface SumProps {
  readonly added: number;
  readonly updated: number;
  readonly duplicate: number;
  readonly refused: number;
}

function Sum({ added, updated, duplicate, refused }: SumProps) {
  const leftOut = words.leftOut(duplicate, refused);
  return (
    <>
      <b>{words.sum(added, updated)}.</b> {leftOut !== '' && `${leftOut}. `}
      <span class="soft">{words.allOrNothing}</span>
    </>
  );
}
