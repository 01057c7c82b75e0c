import type { FateRow } from '../../../../core/port/files.ts';
import { importScreenWords } from '../../../../core/words/shelf-import-screen-words.ts';
import { FateMark } from './fate-mark.tsx';

const words = importScreenWords.rows;

/** All that is to be said of one row. */
export function FateDetail({ row, close }: { readonly row: FateRow; readonly close: () => void }) {
  const { number, fate, label, name, form, left, place, says, problems } = row;
  const what = [label === '' ? words.noLabel : words.label(label), name, form, left, place].filter((one) => one !== '');
  return (
    <section class="import-detail" aria-label={words.detail(number)} aria-live="polite">
      <header>
        <h3>{words.detail(number)}</h3>
        <FateMark fate={fate} />
        <p>{what.join(' · ')}</p>
        <button type="button" class="text-button" onClick={close}>
          {importScreenWords.close}
        </button>
      </header>
      <ul>
        {problems.map(({ column, value, words: said }, at) => (
          <li key={at}>
            {column !== '' && <b>{words.wrongIn(column, value)} </b>}
            {said}
          </li>
        ))}
        {says.map((said) => (
          <li key={said}>{said}</li>
        ))}
        {problems.length + says.length === 0 && <li class="soft">{words.nothingElse}</li>}
      </ul>
    </section>
  );
}
