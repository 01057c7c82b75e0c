import type { BuyingPaper, FetchLineEntry, FetchPaper } from '../../core/paper/paper.ts';
import { paperPageWords as words } from '../../core/words/paper-page-words.ts';
import { MakeUpTable } from './make-up-table.tsx';
import { useRunName } from './page-run.ts';
import { dayText } from '../parts/day-text.ts';
import { ScreenFoot } from './screen-foot.tsx';
import type { PaperState } from './paper-state.ts';
import { WarningLine } from './warnings.tsx';

interface ListViewProps<P> {
  readonly paper: P;
  readonly state: PaperState;
}

/** What to carry to the bench: make-ups first, then each place once. */
export function FetchView({ paper, state }: ListViewProps<FetchPaper>) {
  const run = useRunName();
  const columns = words.fetch.columns;
  return (
    <section class={`sheet ${run(0)}`}>
      <ListHead title={paper.title} under={paper.session} kind={words.kinds[paper.kind]} asOf={paper.asOf} state={state} />
      <div class="readings">
        {paper.before.map((warning, at) => (
          <WarningLine key={at} warning={warning} lead={words.before.sheet} />
        ))}
      </div>
      <MakeUpTable makeUps={paper.makeUps} />
      {paper.lines === 0 && <p>{words.fetch.empty}</p>}
      {paper.lines > 0 && (
        <table class="list">
          <ListColumns heads={columns} />
          {paper.places.map((place) =>
            place.lines.map((line, at) => <FetchRows key={line.number} line={line} place={at === 0 ? place.place : ''} />),
          )}
        </table>
      )}
      <p class="end">{words.endOfList(words.linesHere(paper.lines))}</p>
      <ScreenFoot />
    </section>
  );
}

/** A line, under the head of its place where it is the first there. */
function FetchRows({ line, place }: { readonly line: FetchLineEntry; readonly place: string }) {
  return (
    <tbody>
      {place !== '' && (
        <tr class="stage">
          <td colSpan={words.fetch.columns.length}>
            <strong class="stage-title">{place}</strong>
          </td>
        </tr>
      )}
      <tr>
        <td class="number">{line.number}</td>
        <td class="what">
          <p class="material">{line.material}</p>
          {line.form !== '' && <p>{line.form}</p>}
          {line.lots.map((lot) => (
            <p key={lot}>{lot}</p>
          ))}
        </td>
        <td class="figure">
          <p class="list-target">{line.need}</p>
          {line.peak !== '' && <p>{line.peak}</p>}
        </td>
        <td class="figure">{line.onHand}</td>
        <td>
          {line.mark === 'act' && '▲ '}
          {line.mark === 'wait' && '◐ '}
          {line.mark === 'ok' ? line.status : <strong>{line.status}</strong>}
        </td>
        <td>{line.uses}</td>
        <td class="tick-cell" />
      </tr>
    </tbody>
  );
}

/** What has to be bought, with what it is for. */
export function BuyingView({ paper, state }: ListViewProps<BuyingPaper>) {
  const run = useRunName();
  return (
    <section class={`sheet ${run(0)}`}>
      <ListHead title={paper.title} under={paper.route} kind={words.kinds[paper.kind]} asOf={paper.asOf} state={state} />
      {paper.lines.length === 0 && <p>{words.buy.empty}</p>}
      {paper.lines.length > 0 && (
        <table class="list buying">
          <ListColumns heads={words.buy.columns} />
          {paper.lines.map((line) => (
            <tbody key={line.number}>
              <tr>
                <td class="number">{line.number}</td>
                <td class="what">
                  <p class="material">{line.material}</p>
                  {line.form !== '' && <p>{line.form}</p>}
                  {line.cas !== '' && <p>{words.buy.cas(line.cas)}</p>}
                  {line.why !== '' && <p>{line.why}</p>}
                  {(line.buy ?? []).map((said) => (
                    <p key={said}>{said}</p>
                  ))}
                </td>
                <td class="figure">{line.need}</td>
                <td class="figure">{line.onHand}</td>
                <td class="figure">
                  <p class="list-target">{line.short}</p>
                </td>
                <td>{line.uses}</td>
                <td class="tick-cell" />
              </tr>
            </tbody>
          ))}
        </table>
      )}
      {paper.total !== undefined && (
        <p class="end">
          <strong>{paper.total}</strong>
        </p>
      )}
      <p class="end">{words.endOfList(words.linesHere(paper.lines.length))}</p>
      <ScreenFoot />
    </section>
  );
}

function ListColumns({ heads }: { readonly heads: readonly string[] }) {
  return (
    <>
      <colgroup>
        <col class="col-number" />
        <col />
        <col class="col-list" />
        <col class="col-list" />
        <col class="col-list" />
        <col class="col-uses" />
        <col class="col-tick" />
      </colgroup>
      <thead>
        <tr>
          {heads.map((head) => (
            <th key={head}>{head}</th>
          ))}
        </tr>
      </thead>
    </>
  );
}

interface ListHeadProps {
  readonly title: string;
  readonly under: string;
  readonly kind: string;
  readonly asOf: string;
  readonly state: PaperState;
}

/** What every list begins with: its title, what it belongs to, and what it follows. */
export function ListHead({ title, under, kind, asOf, state }: ListHeadProps) {
  return (
    <table class="title">
      <tbody>
        <tr>
          <td>
            <h1>{title}</h1>
            <p>{under}</p>
          </td>
          <td class="title-right">
            <p>
              <strong>{kind}</strong>
            </p>
            <p>{state.words}</p>
            <p>{words.asOf(dayText(asOf))}</p>
          </td>
        </tr>
      </tbody>
    </table>
  );
}
