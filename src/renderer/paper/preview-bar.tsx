import { signal, useSignal } from '@preact/signals';
import type { Paper } from '../../core/paper/paper.ts';
import type { Port } from '../../core/port/port.ts';
import { paperPageWords } from '../../core/words/paper-page-words.ts';
import { troubleWords } from '../../core/words/shell-words.ts';
import { savePdf } from './save-pdf.ts';
import { dayAndTime } from '../parts/day-text.ts';
import type { PaperState } from './paper-state.ts';

const words = paperPageWords.screen;

/** Labels that hold more than their size takes, in words. */
export const tooMuch = signal('');

interface PreviewBarProps {
  readonly kind: Paper['kind'];
  readonly state: PaperState;
  readonly port: Port | null;
}

/** Where a paper is made, and where its page goes back to. */
const home = (kind: Paper['kind']): string => (kind === 'make-up' || kind === 'labels' ? 'shelf' : 'bench');

/** Stands over the paper on the screen and is never printed. */
export function PreviewBar({ kind, state, port }: PreviewBarProps) {
  const said = useSignal('');
  const { id } = state;
  const run = async (busy: string, act: (id: number, port: Port) => Promise<string>): Promise<void> => {
    if (id === null || !port) return;
    said.value = busy;
    said.value = await act(id, port);
  };
  return (
    <nav class="preview-bar" aria-label={words.title('')}>
      <a href={`./index.html#${home(kind)}`}>{words.back}</a>
      <p role="status">
        {tooMuch.value !== '' && <strong role="alert">{tooMuch.value} </strong>}
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
