import type { RunReportPaper } from '../../core/paper/paper.ts';
import { paperPageWords } from '../../core/words/paper-page-words.ts';
import { runReportWords as words } from '../../core/words/run-entry-words.ts';
import { dayText } from '../parts/day-text.ts';
import { runName } from './page-rules.ts';
import type { PaperState } from './paper-state.ts';
import { ScreenFoot } from './screen-foot.tsx';

/** What was really done: charges, what it came to, and the whole record, entry by entry. */
export function RunReportView({ paper, state }: { readonly paper: RunReportPaper; readonly state: PaperState }) {
  return (
    <section class={`sheet ${runName(0)}`}>
      <table class="title">
        <tbody>
          <tr>
            <td>
              <h1>{paper.step}</h1>
              <p>{paper.title}</p>
            </td>
            <td class="title-right">
              <p>
                <strong>{paperPageWords.kinds[paper.kind]}</strong>
              </p>
              <p>{state.words}</p>
              <p>{paperPageWords.asOf(dayText(paper.asOf))}</p>
            </td>
          </tr>
        </tbody>
      </table>
      <Facts facts={paper.facts} />
      <Charges paper={paper} />
      <h2 class="report-head">{words.outcome}</h2>
      <Facts facts={paper.outcome} />
      <Entries paper={paper} />
      <p class="end">{paperPageWords.endOfList(words.end(paper.entries.length))}</p>
      <ScreenFoot />
    </section>
  );
}

function Facts({ facts }: { readonly facts: RunReportPaper['facts'] }) {
  return (
    <table class="list report-facts">
      <colgroup>
        <col class="col-fact" />
        <col />
      </colgroup>
      <tbody>
        {facts.map((one) => (
          <tr key={one.label}>
            <td>{one.label}</td>
            <td>
              <strong>{one.value}</strong>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Charges({ paper }: { readonly paper: RunReportPaper }) {
  return (
    <>
      <h2 class="report-head">{words.charges.title}</h2>
      {paper.scaled !== '' && <p>{paper.scaled}</p>}
      <table class="list report-charges">
        <colgroup>
          <col class="col-number" />
          <col />
          <col class="col-list" />
          <col class="col-list" />
          <col class="col-list" />
          <col class="col-list" />
        </colgroup>
        <Heads heads={words.charges.columns} />
        {paper.charges.map((one) => (
          <tbody key={one.number}>
            <tr>
              <td class="number">{one.number}</td>
              <td>
                <p class="material">{one.material}</p>
                {one.remarks.map((line) => (
                  <p key={line}>▲ {line}</p>
                ))}
              </td>
              <td class="figure">
                <p>{one.target}</p>
                <p>{one.range}</p>
              </td>
              <td class="figure">
                <Lines lines={one.taken} strong />
              </td>
              <td>
                <Lines lines={one.from} />
              </td>
              <td>
                <Lines lines={one.done} />
              </td>
            </tr>
          </tbody>
        ))}
      </table>
    </>
  );
}

function Entries({ paper }: { readonly paper: RunReportPaper }) {
  return (
    <>
      <h2 class="report-head">{words.entries.title}</h2>
      <table class="list report-entries">
        <colgroup>
          <col class="col-number" />
          <col class="col-moment" />
          <col class="col-tick" />
          <col />
        </colgroup>
        <Heads heads={words.entries.columns} />
        {paper.entries.map((one) => (
          <tbody key={one.number}>
            <tr>
              <td class="number">{one.number}</td>
              <td>{one.at}</td>
              <td>{one.by}</td>
              <td>{one.struck ? <s>{one.words}</s> : one.words}</td>
            </tr>
          </tbody>
        ))}
      </table>
    </>
  );
}

function Heads({ heads }: { readonly heads: readonly string[] }) {
  return (
    <thead>
      <tr>
        {heads.map((head) => (
          <th key={head}>{head}</th>
        ))}
      </tr>
    </thead>
  );
}

function Lines({ lines, strong = false }: { readonly lines: readonly string[]; readonly strong?: boolean }) {
  return (
    <>
      {lines.map((line, at) => (
        <p key={at}>{strong ? <strong>{line}</strong> : line}</p>
      ))}
    </>
  );
}
