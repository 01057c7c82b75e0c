import type { BottleRow } from '../../../core/port/shelf.ts';
import { labelWords } from '../../../core/words/label-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { call } from '../../state/connection.ts';
import { CloseButton } from './close-button.tsx';
import { LabelForm } from './label-form.tsx';
import { questionNow, total } from './shelf-store.ts';

const words = labelWords.form;
/** As many as one answer of the shelf holds. */
const MOST = 500;

/** Labels of everything the search finds, in the order of the list. */
export function LabelPanel() {
  const count = total.value ?? 0;
  return (
    <section aria-labelledby="labels-title">
      <header class="panel-head">
        <h1 id="labels-title">{words.all(count)}</h1>
        <CloseButton />
      </header>
      {count > MOST ? <p class="shelf-trouble">{words.tooMany(MOST)}</p> : <LabelForm bottles={found} />}
    </section>
  );
}

async function found(): Promise<readonly BottleRow[] | string> {
  const answer = await call('shelf.list', { ...questionNow(), from: 0, count: MOST });
  if (!answer.ok) return words.failed(troubleWords(answer));
  return answer.value.total > MOST ? words.tooMany(MOST) : answer.value.rows;
}
