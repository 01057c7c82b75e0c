import { useSignal } from '@preact/signals';
import type { Port } from '../../core/port/port.ts';
import { paperPageWords } from '../../core/words/paper-page-words.ts';
import { troubleWords } from '../../core/words/shell-words.ts';
import { savePdf } from './save-pdf.ts';
import { dayAndTime } from './open-paper.ts';
import type { PaperState } from './paper-state.ts';

const words = paperPageWords.screen;

/** Stands over the paper on the screen and is never printed. */
export function PreviewBar({ state, port }: { readonly state: PaperState; readonly port: Port | null }) {
  const said = useSignal('');
  const { id } = state;
  const run = async (busy: string, act: (id: number, port: Port) => Promise<string>): Promise<void> => {
    if (id === null || !port) return;
    said.value = busy;
    said.value = await act(id, port);
  };
  return (
    <nav class="preview-bar" aria-label={words.title('')}>
      <a href="./index.html#bench">{words.back}</a>
      <p role="status">
        {said.value !== '' ? said.value : id === null ? words.preview : words.issued(state.revision, dayAndTime(state.issued))}
      </p>
      {id !== null && (
        <>
          <button type="button" onClick={() => void run(words.printing, print)}>
            {words.print}
          </button>
          <button type="button" onClick={() => void run(words.saving, savePdf)}>
            {words.savePdf}
          </button>
        </>
      )}
    </nav>
  );
}

async function print(id: number, port: Port): Promise<string> {
  const answer = await port.call('papers.print', { id });
  return answer.ok ? '' : words.failed(troubleWords(answer));
}
