import { render } from 'preact';
import { shellWords, troubleWords } from '../../core/words/shell-words.ts';
import { EmptyState } from '../parts/empty-state.tsx';
import { findPort } from '../find-port.ts';
import { StartUpScreen } from './screen.tsx';

const root = document.getElementById('start-up');
if (root) void begin(root);

async function begin(root: HTMLElement): Promise<void> {
  const port = findPort();
  if (!port) {
    render(<EmptyState title={shellWords.noKey.title} text={shellWords.noKey.text} />, root);
    return;
  }
  const answer = await port.call('program.trouble', {});
  if (!answer.ok) render(<EmptyState title={shellWords.cannotStart.title} text={troubleWords(answer)} />, root);
  else if (answer.value === null) again();
  else render(<StartUpScreen trouble={answer.value} port={port} again={again} />, root);
}

/** The host serves the program itself again as soon as a workbook is open. */
function again(): void {
  location.replace('./');
}
