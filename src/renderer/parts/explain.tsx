import { useLayoutEffect, useRef } from 'preact/hooks';
import { EXACT, type Figure } from '../../core/quantity/figure.ts';
import { formatSignificant, shownUnit } from '../../core/quantity/format.ts';
import { shellWords } from '../../core/words/shell-words.ts';
import { type ExplainLine, explained, explainLines } from './explain-state.ts';
import { decimalMark } from './locale.ts';
import { written } from './quantity-text.ts';

/** Where a number comes from: its factors, theirs, and the source at the end of each. One for the whole window. */
export function Explain() {
  const box = useRef<HTMLDivElement>(null);
  const asked = explained.value;
  useLayoutEffect(() => {
    const popover = box.current;
    if (!popover) return;
    if (!asked) {
      if (popover.matches(':popover-open')) popover.hidePopover();
      return;
    }
    popover.showPopover({ source: asked.beside });
    popover.focus();
  }, [asked]);
  return (
    <div
      ref={box}
      popover="auto"
      class="explain"
      tabIndex={0}
      role="dialog"
      aria-label={asked ? shellWords.explainTitle(asked.figure.label) : shellWords.explainHeading}
      onToggle={(event) => closed(event)}
    >
      {asked && <Chain figure={asked.figure} />}
    </div>
  );
}

function closed(event: Event): void {
  if (!('newState' in event) || event.newState !== 'closed') return;
  explained.value?.beside.focus();
  explained.value = null;
}

/** An explanation shows more digits than a plan, so that it can be followed with a calculator. */
const MOST_EXPLAINED = 6;

function Chain({ figure }: { readonly figure: Figure }) {
  return (
    <>
      <h2>{shellWords.explainHeading}</h2>
      <ol class="explain-chain">
        {explainLines(figure).map((line, index) => (
          // The chain of one figure never changes while it is shown, so the place is the key.
          <ExplainRow key={index} line={line} />
        ))}
      </ol>
    </>
  );
}

function ExplainRow({ line }: { readonly line: ExplainLine }) {
  const { figure, depth, again } = line;
  const { unit, factor } = shownUnit(figure.value, figure.unit);
  const value = figure.value * factor;
  // What was typed or counted is exact: shown as it is, without zeros it never had.
  const text =
    figure.digits >= EXACT ? written(value, '') : formatSignificant(value, Math.min(figure.digits, MOST_EXPLAINED), decimalMark);
  return (
    <li class="explain-row" style={{ paddingInlineStart: `${Math.min(depth, 8) * 12}px` }}>
      <span class="explain-label">{figure.label}</span>
      <span class="explain-value">
        {text} <span class="amount-unit">{unit}</span>
      </span>
      <span class="explain-from">{again ? shellWords.explainAgain : fromWords(figure)}</span>
    </li>
  );
}

function fromWords(figure: Figure): string {
  const { from } = figure;
  if (from.kind === 'entered') return shellWords.explainEntered(from.where);
  if (from.kind === 'source') return shellWords.explainSource(from.source, from.mark ?? null);
  return from.how;
}
