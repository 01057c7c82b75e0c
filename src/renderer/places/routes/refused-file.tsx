import type { FileProblem } from '../../../core/port/result.ts';
import { routesWords } from '../../../core/words/routes-words.ts';
import { refusedFile } from '../../state/routes-store.ts';

interface RefusedFileProps {
  readonly file: { readonly name: string; readonly problems: readonly FileProblem[] };
}

/** Every problem of a file that was not taken in, each with its place. */
export function RefusedFile({ file }: RefusedFileProps) {
  const words = routesWords.refused;
  return (
    <section class="refused" role="alert" aria-labelledby="refused-title">
      <h1 id="refused-title">{words.title(file.name, file.problems.length)}</h1>
      <p class="soft">{words.text}</p>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.place}</th>
            <th scope="col">{words.problem}</th>
          </tr>
        </thead>
        <tbody>
          {file.problems.map((problem) => (
            <tr key={`${problem.at} ${problem.words}`}>
              <th scope="row">
                <code>{problem.at === '' ? words.wholeFile : problem.at}</code>
              </th>
              <td>{problem.words}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <button
        type="button"
        class="button"
        onClick={() => {
          refusedFile.value = null;
        }}
      >
        {words.close}
      </button>
    </section>
  );
}
