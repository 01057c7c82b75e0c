import { useSignal } from '@preact/signals';
import type { BottleRow, LedgerLine } from '../../../core/port/shelf.ts';
import { brokenMeasurement } from '../../../core/shelf/measured.ts';
import { shelfActWords } from '../../../core/words/shelf-act-words.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { Amount } from '../../parts/amount.tsx';
import { dayText } from '../../parts/day-text.ts';
import { call } from '../../state/connection.ts';
import { useFollowUndo } from './follow-undo.ts';
import { ledgerNumber, shown } from './shown-amount.ts';

const words = shelfWords.ledger;

interface LedgerTableProps {
  readonly bottle: BottleRow;
  readonly ledger: readonly LedgerLine[];
  readonly onUndone: () => void;
}

/** Every movement of a bottle, newest first, with what was left after it. Nothing is ever taken out, only countered. */
export function LedgerTable({ bottle, ledger, onUndone }: LedgerTableProps) {
  const wrong = useSignal('');
  const { list, begin } = useFollowUndo<HTMLTableElement>(ledger.length);
  const undo = async (line: number): Promise<void> => {
    begin();
    const answer = await call('shelf.undo', { id: bottle.id, line });
    wrong.value = answer.ok ? '' : shelfWords.files.failed(troubleWords(answer));
    if (answer.ok) onUndone();
  };
  const countedIn = new Set(ledger.filter((line) => brokenMeasurement(ledger, line.id) !== null).map((line) => line.id));
  return (
    <section aria-labelledby="ledger-title">
      <h2 id="ledger-title">{words.title}</h2>
      {wrong.value !== '' && (
        <p class="shelf-trouble" role="alert">
          {wrong.value}
        </p>
      )}
      {ledger.length === 0 && <p class="soft">{words.empty}</p>}
      {ledger.length > 0 && (
        <table class="ledger" ref={list}>
          <thead>
            <tr>
              <th>{words.when}</th>
              <th>{words.what}</th>
              <th class="numeric">{words.change}</th>
              <th class="numeric">{words.left}</th>
              <td />
            </tr>
          </thead>
          <tbody>
            {withRunning(ledger).map(({ line, left }) => (
              <Line
                key={line.id}
                line={line}
                left={left}
                unit={bottle.unit}
                countedIn={countedIn.has(line.id)}
                onUndo={() => void undo(line.id)}
              />
            ))}
          </tbody>
        </table>
      )}
      {countedIn.size > 0 && <p class="soft small">{words.countedInNote}</p>}
    </section>
  );
}

/** Newest first, each line with what was left after it. */
export function withRunning(ledger: readonly LedgerLine[]): readonly { readonly line: LedgerLine; readonly left: number }[] {
  let left = 0;
  return [...ledger]
    .sort((a, b) => a.id - b.id)
    .map((line) => {
      // Sums of µg or nL are exact in main; here the noise of binary fractions is taken off at the same grain.
      left = Number((left + line.change).toFixed(6));
      return { line, left };
    })
    .reverse();
}

interface LineProps {
  readonly line: LedgerLine;
  readonly left: number;
  readonly unit: 'g' | 'mL';
  /** A measurement after it counts it in, so it cannot be undone on its own. */
  readonly countedIn: boolean;
  readonly onUndo: () => void;
}

function Line({ line, left, unit, countedIn, onUndo }: LineProps) {
  const change = `${line.change < 0 ? '−' : '+'}${shown(Math.abs(line.change), unit)}`;
  const what = words.kinds[line.kind];
  const act = line.kind === 'undone' ? words.bringBack : words.undo;
  return (
    <tr class={line.undone ? 'ledger-undone' : undefined}>
      <td class="ledger-when">
        <time dateTime={line.at}>{dayText(line.at)}</time>
      </td>
      <td>
        <span class="ledger-what">{what}</span>
        {line.undone && <span class="soft"> · {words.wasUndone}</span>}
        {line.half && <span class="soft"> · {shelfActWords.half[line.half.act](line.half.other)}</span>}
        {line.reason !== '' && <small>{line.reason}</small>}
      </td>
      <td class="numeric">
        <LedgerAmount value={Math.abs(line.change)} unit={unit} sign={line.change < 0 ? '−' : '+'} />
      </td>
      <td class="numeric">
        <LedgerAmount value={left} unit={unit} sign="" />
      </td>
      <td>
        {!line.undone && countedIn && <small class="soft ledger-counted">{words.countedIn}</small>}
        {!line.undone && !countedIn && (
          <button type="button" class="text-button" aria-label={words.undoLine(what, change)} onClick={onUndo}>
            {act}
          </button>
        )}
      </td>
    </tr>
  );
}

function LedgerAmount({ value, unit, sign }: { readonly value: number; readonly unit: 'g' | 'mL'; readonly sign: string }) {
  return <Amount figure={null} text={`${sign}${ledgerNumber(value)}`} unit={unit} />;
}
