import type { FileProblem } from '../../../core/port/result.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { call } from '../../state/connection.ts';
import { CloseButton } from './close-button.tsx';
import { closePanel, panel, said } from './shelf-store.ts';

const words = shelfWords.files;
const LARGEST = 60_000_000;

/** Takes a shelf file in. Every problem is listed; nothing is written unless there is none. */
export async function importShelf(file: Pick<File, 'name' | 'size' | 'text'>): Promise<void> {
  said.value = words.importing(file.name);
  if (file.size > LARGEST) {
    said.value = words.tooLarge;
    return;
  }
  const text = await file.text().catch(() => null);
  if (text === null) {
    said.value = words.unreadable;
    return;
  }
  const answer = await call('shelf.import', { file: file.name.slice(0, 300) || shelfWords.files.unnamed, text });
  if (answer.ok) {
    const { bottles, twins } = answer.value;
    said.value = [words.imported(bottles, file.name), ...twins.map(words.twins)].join(' ');
    if (panel.value.show === 'problems') closePanel();
    return;
  }
  if (answer.problems && answer.problems.length > 0) {
    said.value = words.problemsTitle(answer.problems.length);
    panel.value = { show: 'problems', file: file.name, problems: answer.problems };
  } else said.value = words.failed(troubleWords(answer));
}

/** Every problem of a file at its place. */
export function FileProblems({ file, problems }: { readonly file: string; readonly problems: readonly FileProblem[] }) {
  return (
    <section aria-labelledby="problems-title">
      <header class="panel-head">
        <h1 id="problems-title">{words.problemsTitle(problems.length)}</h1>
        <CloseButton />
      </header>
      <p>{words.problemsText(file)}</p>
      <ol class="file-problems">
        {problems.map((problem, at) => (
          <li key={at}>
            <b>{placeWords(problem.at)}</b>
            <span>{problem.words}</span>
            {problem.at !== '' && <code>{problem.at}</code>}
          </li>
        ))}
      </ol>
    </section>
  );
}

/** A JSON pointer as a person would say it: "/bottles/2/left" is "bottle 3, left". */
export function placeWords(pointer: string): string {
  const [list, key, ...rest] = pointer
    .split('/')
    .slice(1)
    .map((part) => part.replaceAll('~1', '/').replaceAll('~0', '~'));
  if (list === undefined) return words.wholeFile;
  if (key === undefined) return list;
  const number = Number(key) + 1;
  const named: Readonly<Record<string, string>> = {
    bottles: words.bottle(number),
    packs: words.pack(number),
    materials: words.material(key),
  };
  return [named[list] ?? `${list} ${key}`, ...rest].join(', ');
}
