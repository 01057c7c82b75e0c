import type { RefusalReason } from '../../../../core/port/files.ts';
import { importScreenWords } from '../../../../core/words/shelf-import-screen-words.ts';
import { showReason, shownReason } from './import-rows-store.ts';

const words = importScreenWords.rows;

/** Every reason for which rows are refused, with how many; a reason leads to its rows. */
export function RefusalList({ reasons }: { readonly reasons: readonly RefusalReason[] }) {
  if (reasons.length === 0) return null;
  return (
    <ul class="import-reasons" aria-label={words.reasons}>
      {reasons.map(({ column, words: said, rows }, at) => (
        <li key={at}>
          <button
            type="button"
            class={`import-reason${at === shownReason.value ? ' current' : ''}`}
            aria-pressed={at === shownReason.value}
            onClick={() => showReason(at === shownReason.value ? null : at)}
          >
            <b>{rows.toLocaleString('en')}</b> <span>{column === '' ? said : `${column}: ${said}`}</span>
          </button>
        </li>
      ))}
    </ul>
  );
}
