import type { SessionDayPaper } from '../../core/paper/paper.ts';
import { paperPageWords } from '../../core/words/paper-page-words.ts';
import { sessionWords as words } from '../../core/words/session-words.ts';
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
          <tbody key={batch.number}>
            <tr>
              <td class="number">{batch.number}</td>
              <td class="what">
                <p class="material">{batch.title}</p>
                {batch.begins !== '' && <p>{batch.begins}</p>}
                {[...batch.times, ...batch.open].map((line, at) => (
                  <p key={at}>{line}</p>
                ))}
              </td>
              <td>{batch.ends}</td>
              <td class="tick-cell" />
              <td class="tick-cell" />
            </tr>
          </tbody>
        ))}
      </table>
      <p class="end">{paperPageWords.endOfList(paperPageWords.batchesHere(paper.batches.length))}</p>
      <ScreenFoot />
    </section>
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
