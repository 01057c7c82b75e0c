import type { RunRecord } from '../../../../core/port/runs.ts';
import { entryText, runReportWords } from '../../../../core/words/run-entry-words.ts';
import { clockTime } from '../../../parts/day-text.ts';
import { decimalMark } from '../../../parts/locale.ts';

/** Every entry as it was written. */
export function Record({ run }: { readonly run: RunRecord }) {
  return (
    <details class="fold">
      <summary>{runReportWords.end(run.entries.length)}</summary>
      <ol class="weigh-record">
        {run.entries.map((one) => (
          <li key={one.number}>
            <span class="soft">
              {one.number} · {clockTime(one.at)} · {one.entry.by}
            </span>{' '}
            {entryText(one.entry, run.start.sheet, decimalMark)}
          </li>
        ))}
      </ol>
    </details>
  );
}
