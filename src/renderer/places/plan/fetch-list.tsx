import './fetch.css';
import { useEffect, useId, useRef } from 'preact/hooks';
import type { FetchLine, PlanResult } from '../../../core/plan/result.ts';
import type { Figure } from '../../../core/quantity/figure.ts';
import { formatAmount } from '../../../core/quantity/format.ts';
import { onHandText } from '../../../core/paper/on-hand-text.ts';
import { uncountedOf } from '../../../core/paper/session.ts';
import { withForm } from '../../../core/session/day-before.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { uncounted } from '../../../core/words/session-words.ts';
import { startText } from '../../../core/words/start-text.ts';
import { Amount } from '../../parts/amount.tsx';
import { FormWords } from '../../parts/form-words.tsx';
import { decimalMark } from '../../parts/locale.ts';
import { Status } from '../../parts/status.tsx';
import { openFetchLine } from '../../state/plan-view.ts';
import { HeldBack } from './by-hand.tsx';
import { FetchDetails } from './fetch-details.tsx';

const words = planWords.fetch;

/** What the plan needs from the shelf, by place; pressing a line shows which charges use it. */
export function FetchList({ result }: { readonly result: PlanResult }) {
  const places = groupByPlace(result.fetch);
  return (
    <section class="fetch" aria-labelledby="fetch-title">
      <header class="part-head">
        <h2 id="fetch-title">{words.title}</h2>
        <span class="part-note">{lackingWords(result.fetch) || (result.solved ? words.places(places.length) : '')}</span>
      </header>
      {result.solved && places.length > 0 && <p class="fetch-start small soft">{startText(result, decimalMark)}</p>}
      {uncountedOf(result).map((one) => (
        <p key={`${one.step} ${one.material}`} class="fetch-uncounted small">
          {uncounted(withForm(one), one.step)}.
        </p>
      ))}
      {places.length === 0 && <p class="soft">{result.solved ? words.empty : words.notKnown}</p>}
      {places.map(({ place, lines }) => (
        <section key={place}>
          <h3 class="fetch-place">{place}</h3>
          <ul>
            {lines.map((line) => (
              <Line key={line.id} line={line} result={result} />
            ))}
          </ul>
        </section>
      ))}
      <HeldBack result={result} />
    </section>
  );
}

/** How many lines want something done before the bench; empty where none does. */
function lackingWords(lines: readonly FetchLine[]): string {
  const lacking = lines.filter(({ status }) => status === 'short' || status === 'out of date' || status === 'unknown strength');
  return lacking.length === 0 ? '' : words.lacking(lacking.length, lines.length);
}

function Line({ line, result }: { readonly line: FetchLine; readonly result: PlanResult }) {
  const open = openFetchLine.value === line.id;
  const details = useId();
  const place = useRef<HTMLLIElement>(null);
  useEffect(() => {
    if (open) place.current?.scrollIntoView({ block: 'nearest' });
  }, [open]);
  return (
    <li ref={place} class={`fetch-line${open ? ' open' : ''}`}>
      <div class="fetch-row">
        <button
          type="button"
          class="fetch-name"
          aria-expanded={open}
          aria-controls={open ? details : undefined}
          onClick={() => {
            openFetchLine.value = open ? null : line.id;
          }}
        >
          {line.name} <FormWords words={line.formWords} />
        </button>
        <Amount figure={line.peak} />
      </div>
      <div class="fetch-row">
        <Bars line={line} />
        <Status status={line.status} words={planWords.status[line.status]} />
      </div>
      {open && <FetchDetails id={details} line={line} result={result} />}
    </li>
  );
}

/** On hand and needed as two short bars on one scale. */
function Bars({ line }: { readonly line: FetchLine }) {
  const needed = line.peak.value;
  const onHand = line.status === 'tap' || line.status === 'from a step' ? needed : line.onHand.value;
  const share = needed > 0 ? Math.min(1, onHand / needed) : 1;
  return (
    <span
      class={`bars bars-${line.status.replaceAll(' ', '-')}`}
      role="img"
      aria-label={words.bars(onHandText(line, decimalMark), shown(line.peak))}
    >
      <span class="bar-on-hand" style={{ width: `${share * 100}%` }} />
      <span class="bar-needed" />
    </span>
  );
}

function shown(figure: Figure): string {
  const { text, unit } = formatAmount(figure, decimalMark);
  return `${text} ${unit}`;
}

/** Lines by place: what is missing first, the shelf's places by name, then taps and steps. */
function groupByPlace(lines: readonly FetchLine[]): readonly { readonly place: string; readonly lines: readonly FetchLine[] }[] {
  const groups = Map.groupBy(lines, placeOf);
  const rank = (place: string): number =>
    ({ [words.notOnShelf]: 0, [words.noPlace]: 2, [words.steps]: 3, [words.tap]: 4 })[place] ?? 1;
  return [...groups]
    .map(([place, members]) => ({ place, lines: members }))
    .sort((a, b) => rank(a.place) - rank(b.place) || a.place.localeCompare(b.place));
}

function placeOf(line: FetchLine): string {
  if (line.status === 'tap') return words.tap;
  if (line.place !== '') return line.place;
  if (line.status === 'from a step') return words.steps;
  return line.bottles.length > 0 || line.makeUp !== null ? words.noPlace : words.notOnShelf;
}
