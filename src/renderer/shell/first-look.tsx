import { shellWords } from '../../core/words/shell-words.ts';
import { call } from '../state/connection.ts';
import { place } from '../state/place.ts';
import { planLoad } from '../state/plan-store.ts';
import { firstLook, planList } from '../state/workbook.ts';

const words = shellWords.firstLook;
/** The parts of the Plan place that the look goes through; the style sheet frames the one it is at. */
const PARTS = ['target', 'cascade', 'fetch'] as const;

/** Three sentences about the Plan place, once; they cover nothing and can be skipped. */
export function FirstLook() {
  const at = firstLook.value;
  if (at === null || place.value !== 'plan' || planLoad.value.at !== 'open') return null;
  const last = at >= PARTS.length - 1;
  return (
    <section class="banner first-look" aria-label={words.label} data-part={PARTS[at]}>
      <span class="soft">{words.at(at + 1, PARTS.length)}</span>
      <p>
        {at === 0 && planList.value?.length === 1 && `${words.example} `}
        {words.steps[at]}
      </p>
      <button type="button" class="button button-strong" onClick={() => (last ? end() : next(at))}>
        {last ? words.done : words.next}
      </button>
      {!last && (
        <button type="button" class="button" onClick={end}>
          {words.skip}
        </button>
      )}
    </section>
  );
}

function next(at: number): void {
  firstLook.value = at + 1;
}

function end(): void {
  firstLook.value = null;
  void call('program.looked', {});
}
