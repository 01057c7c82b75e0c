import { passedOverText } from '../../../core/paper/passed-over-text.ts';
import { makeUpLabel } from '../../../core/paper/charge-sources.ts';
import { type SessionLine, sessionOf, type SessionStatus } from '../../../core/paper/session.ts';
import { takeWords } from '../../../core/paper/sheet-take.ts';
import type { PlanResult } from '../../../core/plan/result.ts';
import { withForm } from '../../../core/session/day-before.ts';
import { uncounted as uncountedWords } from '../../../core/words/session-words.ts';
import { benchWords } from '../../../core/words/bench-words.ts';
import { paperWords } from '../../../core/words/paper-words.ts';
import { Amount } from '../../parts/amount.tsx';
import { OnHand } from '../../parts/on-hand.tsx';
import { decimalMark } from '../../parts/locale.ts';
import { Status } from '../../parts/status.tsx';
import { goTo } from '../../state/place.ts';
import { openBottle } from '../shelf/shelf-store.ts';
import { SessionDayView } from './session-day.tsx';
import { chosenBatches } from './bench-store.ts';

const words = benchWords.check;

/** What the chosen batches take from the shelf, by place, and whether it is there. */
export function StockCheck({ result }: { readonly result: PlanResult }) {
  const batches = chosenBatches(result);
  const { lines, uncounted } = sessionOf(result, batches);
  return (
    <section class="bench-check" aria-labelledby="check-title">
      <header class="part-head">
        <h1 id="check-title">{words.title}</h1>
        <span class="part-note">{words.note}</span>
      </header>
      {batches.length === 0 && <p class="soft">{words.nothing}</p>}
      {lines.length + uncounted.length > 0 && (
        <>
          <p class="bench-verdict" role="status">
            {verdict(
              lines.map((line) => line.status),
              uncounted.length,
            )}
          </p>
          {uncounted.map((one) => (
            <p key={`${one.step} ${one.material}`} class="bench-uncounted">
              {uncountedWords(withForm(one), one.step)}.
            </p>
          ))}
          <table class="stock-table">
            <thead>
              <tr>
                <th>{words.columns.material}</th>
                <th class="numeric">{words.columns.take}</th>
                <th class="numeric">{words.columns.onHand}</th>
                <th>{words.columns.state}</th>
              </tr>
            </thead>
            {byPlace(lines).map(([place, group]) => (
              <tbody key={place}>
                <tr>
                  <th colSpan={4} scope="rowgroup" class="stock-place">
                    {place}
                  </th>
                </tr>
                {group.map((line) => (
                  <Line key={line.line.id} mine={line} result={result} />
                ))}
              </tbody>
            ))}
          </table>
        </>
      )}
      <SessionDayView result={result} />
    </section>
  );
}

/** States in which nothing is left to do before the session. */
const READY: ReadonlySet<SessionStatus> = new Set<SessionStatus>(['enough', 'tap', 'from a step']);

function verdict(states: readonly SessionStatus[], uncounted: number): string {
  const open = states.filter((status) => !READY.has(status)).length + uncounted;
  return open === 0 ? words.ready : words.missing(open, states.length + uncounted);
}

function byPlace(lines: readonly SessionLine[]): readonly (readonly [string, readonly SessionLine[]])[] {
  const { fetch } = paperWords;
  const place = ({ line }: SessionLine): string =>
    line.bottles[0]?.place || line.place || (line.status === 'from a step' ? fetch.fromSteps : fetch.noPlace);
  const last = (name: string): number => Number(name === fetch.fromSteps || name === fetch.noPlace);
  return [...Map.groupBy(lines, place)].sort(([a], [b]) => last(a) - last(b) || a.localeCompare(b));
}

interface LineProps {
  readonly mine: SessionLine;
  readonly result: PlanResult;
}

function Line({ mine, result }: LineProps) {
  const { line, part, peakPart, status } = mine;
  // The figure behind it is the whole line's.
  const figure = peakPart > 1 - 1e-9 ? line.peak : part > 1 - 1e-9 ? line.need : null;
  const { take, beside } = takeWords(mine, decimalMark);
  const [text = '', unit = ''] = take.split('\u00a0');
  return (
    <tr>
      <td>
        {line.name} {line.formWords !== 'neat' && <span class="soft">{line.formWords}</span>}
        <span class="stock-lots">
          {line.bottles.map((bottle) => (
            <Lot key={bottle.bottle} id={bottle.bottle} words={words.lot(bottle.lot)} lot={bottle.lot} />
          ))}
          {line.passedOver.map((bottle) => (
            <Lot
              key={bottle.bottle}
              id={bottle.bottle}
              words={`${words.lot(bottle.lot)}, ${passedOverText(bottle, decimalMark)}`}
              lot={bottle.lot}
            />
          ))}
          {line.makeUp !== null && <span class="soft small">{words.makeUp(makeUpLabel(result, line.makeUp))}</span>}
        </span>
      </td>
      <td class="numeric">
        <Amount figure={figure} text={text} unit={unit} />
        {beside !== '' && <small class="soft">{beside}</small>}
      </td>
      <td class="numeric">{line.status === 'tap' || line.status === 'from a step' ? '' : <OnHand line={line} />}</td>
      <td>
        <Status status={status} words={paperWords.statuses[status]} />
        <Beside mine={mine} />
      </td>
    </tr>
  );
}

/** What else to know of a state: what has to be done first, or that the whole plan stands otherwise. */
function Beside({ mine: { line, status, first, lacks } }: Pick<LineProps, 'mine'>) {
  if (status === line.status) return null;
  if (status !== 'not made yet') return <small class="soft">{words.whole(paperWords.statuses[line.status])}</small>;
  return (
    <>
      <small class="soft">{words.first(first)}</small>
      {lacks.map((one) => (
        <small key={one.id} class="soft">
          {words.lacks(one.name, paperWords.statuses[one.status])}
        </small>
      ))}
    </>
  );
}

function Lot({ id, words: text, lot }: { readonly id: string; readonly words: string; readonly lot: string }) {
  return (
    <button
      type="button"
      class="text-button small"
      aria-label={`${text}. ${words.openBottle(lot)}`}
      onClick={() => {
        openBottle(id);
        goTo('shelf');
      }}
    >
      {text}
    </button>
  );
}
