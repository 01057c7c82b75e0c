import type { SessionDayPaper } from '../../core/paper/paper.ts';
import { paperPageWords } from '../../core/words/paper-page-words.ts';
import { sessionWords as words } from '../../core/words/session-words.ts';
import { inPairs } from './in-pairs.ts';
import { ListHead } from './list-views.tsx';
import { useRunName } from './page-run.ts';
import type { PaperState } from './paper-state.ts';
import { ScreenFoot } from './screen-foot.tsx';

/** What is done before the day, then the batches with their times and room to write when they really began and ended. */
export function SessionDayView({ paper, state }: { readonly paper: SessionDayPaper; readonly state: PaperState }) {
  const run = useRunName();
  return (
    <section class={`sheet ${run(0)}`}>
      <ListHead title={paper.title} under={paper.when} kind={paperPageWords.kinds[paper.kind]} asOf={paper.asOf} state={state} />
      <div class="readings">
        {[...paper.notes, words.papers.least].map((line) => (
          <p key={line}>{line}</p>
        ))}
      </div>
      <Before lines={paper.before} />
      <table class="list session-day">
        <colgroup>
          <col class="col-number" />
          <col />
          <col class="col-ends" />
          <col class="col-tick" />
          <col class="col-tick" />
        </colgroup>
        <thead>
          <tr>
            <th>{words.papers.columns[0]}</th>
            <th>
              {words.papers.columns[1]}, {words.papers.columns[2]}
            </th>
            {words.papers.columns.slice(3).map((head) => (
              <th key={head}>{head}</th>
            ))}
          </tr>
        </thead>
        {paper.batches.map((batch) => (
          <BatchBody key={batch.number} batch={batch} />
        ))}
      </table>
      <p class="end">{paperPageWords.endOfList(paperPageWords.batchesHere(paper.batches.length))}</p>
      <ScreenFoot />
    </section>
  );
}

/** A batch with room to write when it began and ended; its times under it, two beside each other. */
function BatchBody({ batch }: { readonly batch: SessionDayPaper['batches'][number] }) {
  const rows = inPairs([...batch.times, ...batch.open]);
  return (
    <tbody>
      <tr class="day-batch">
        <td class="number">{batch.number}</td>
        <td class="what">
          <p class="material">{batch.title}</p>
          {batch.begins !== '' && <p>{batch.begins}</p>}
        </td>
        <td>{batch.ends}</td>
        <td class="tick-cell" />
        <td class="tick-cell" />
      </tr>
      {rows.length > 0 && (
        <tr>
          <td />
          <td colSpan={4} class="day-times">
            <table>
              <tbody>
                {rows.map((row, at) => (
                  <tr key={at}>
                    {row.map((line) => (
                      <td key={line} colSpan={3 - row.length}>
                        {line}
                      </td>
                    ))}
                  </tr>
                ))}
              </tbody>
            </table>
          </td>
        </tr>
      )}
    </tbody>
  );
}

function Before({ lines }: { readonly lines: readonly string[] }) {
  const [, title, done] = words.papers.beforeColumns;
  return (
    <table class="list session-before">
      <colgroup>
        <col class="col-number" />
        <col />
        <col class="col-list" />
      </colgroup>
      <thead>
        <tr>
          <th>{words.papers.columns[0]}</th>
          <th>{title}</th>
          <th>{done}</th>
        </tr>
      </thead>
      {lines.length === 0 && (
        <tbody>
          <tr>
            <td />
            <td colSpan={2}>{words.before.none}</td>
          </tr>
        </tbody>
      )}
      {lines.map((line, at) => (
        <tbody key={at}>
          <tr>
            <td class="number">{at + 1}</td>
            <td>{line}</td>
            <td class="tick-cell" />
          </tr>
        </tbody>
      ))}
    </table>
  );
}
