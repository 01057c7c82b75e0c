import type { BuyingLineEntry, BuyingPaper, FetchLineEntry, FetchPaper } from '../../core/paper/paper.ts';
import { paperPageWords as words } from '../../core/words/paper-page-words.ts';
import { MakeUpTable } from './make-up-table.tsx';
import { isLong, titleClass } from './long-name.ts';
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
      <ListHead
        title={paper.title}
        under={[paper.session, paper.start ?? ''].filter((one) => one !== '').join('; ')}
        kind={words.kinds[paper.kind]}
        asOf={paper.asOf}
        state={state}
      />
      <div class="readings">
        {paper.before.map((warning, at) => (
          <WarningLine key={at} warning={warning} lead={words.before.sheet} />
        ))}
      </div>
      <MakeUpTable makeUps={paper.makeUps} />
      {paper.lines === 0 && <p>{words.fetch.empty}</p>}
      {paper.lines > 0 && (
        <table class="list fetch">
          <ListColumns heads={columns} widths={['number', '', 'list', 'list', 'list', 'uses', 'tick']} />
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
      <NameRow line={line} columns={words.fetch.columns.length} />
      <tr>
        {isLong(line.material) ? <td /> : <td class="number">{line.number}</td>}
        <td class="what">
          {!isLong(line.material) && (
            <p>
              <strong class="material">{line.material}</strong>
              {line.form !== '' && ` ${line.form}`}
            </p>
          )}
          {line.lots.map((lot) => (
            <p key={lot}>{lot}</p>
          ))}
        </td>
        <td class="figure">
          <p class={amountClass(line.need)}>{line.need}</p>
          {line.peak !== '' && <p>{line.peak}</p>}
        </td>
        <td class="figure">
          {line.onHand.split('\n').map((one, at) => (
            <p key={at}>{one}</p>
          ))}
        </td>
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
  const under = [paper.route, paper.start ?? ''].filter((one) => one !== '').join('; ');
  return (
    <section class={`sheet ${run(0)}`}>
      <ListHead title={paper.title} under={under} kind={words.kinds[paper.kind]} asOf={paper.asOf} state={state} />
      {paper.lines.length === 0 && <p>{words.buy.empty}</p>}
      {paper.lines.length > 0 && (
        <table class="list buying">
          <ListColumns heads={words.buy.columns} widths={['number', '', 'list', 'buy', 'uses', 'tick']} />
          {paper.lines.map((line) => (
            <tbody key={line.number}>
              <NameRow line={line} columns={words.buy.columns.length} />
              <tr>
                {isLong(line.material) ? <td /> : <td class="number">{line.number}</td>}
                <td class="what">
                  {!isLong(line.material) && (
                    <>
                      <p class="material">{line.material}</p>
                      {line.form !== '' && <p>{line.form}</p>}
                    </>
                  )}
                  {line.cas !== '' && <p>{words.buy.cas(line.cas)}</p>}
                  {line.why !== '' && <p>{line.why}</p>}
                </td>
                <td class="figure">
                  <p class={amountClass(line.short)}>{line.short}</p>
                  <p>{words.buy.amounts(line.need, line.onHand)}</p>
                </td>
                <td>
                  {(line.buy ?? []).map((said, at) => (
                    <p key={said}>{at === 0 || /^\d+\s×/.test(said) ? <strong>{said}</strong> : said}</p>
                  ))}
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
      {paper.within && (
        <div class="end">
          {paper.within.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </div>
      )}
      <p class="end">{words.endOfList(words.linesHere(paper.lines.length))}</p>
      <ScreenFoot />
    </section>
  );
}

/** Number and name of a line over it, where the name is too long for its column. */
function NameRow({ line, columns }: { readonly line: FetchLineEntry | BuyingLineEntry; readonly columns: number }) {
  if (!isLong(line.material)) return null;
  return (
    <tr class="list-name">
      <td class="number">{line.number}</td>
      <td colSpan={columns - 1}>
        <strong class="material">{line.material}</strong>
        {line.form !== '' && ` ${line.form}`}
      </td>
    </tr>
  );
}

/** Signs of an amount that its column holds in the large size. */
const LONGEST_AMOUNT = 8;

function amountClass(amount: string): string {
  return amount.length > LONGEST_AMOUNT ? 'list-target list-target-long' : 'list-target';
}

function ListColumns({ heads, widths }: { readonly heads: readonly string[]; readonly widths: readonly string[] }) {
  return (
    <>
      <colgroup>
        {widths.map((width, at) => (
          <col key={at} class={width === '' ? undefined : `col-${width}`} />
        ))}
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
            <h1 class={titleClass(title)}>{title}</h1>
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
