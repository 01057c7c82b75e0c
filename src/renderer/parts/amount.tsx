import type { Figure } from '../../core/quantity/figure.ts';
import { formatAmount } from '../../core/quantity/format.ts';
import { shellWords } from '../../core/words/shell-words.ts';
import { explain } from './explain-state.ts';
import { decimalMark } from './locale.ts';

interface AmountProps {
  readonly figure: Figure | null;
  /** What is shown where it is not the figure itself, e.g. the rounded target of a balance. */
  readonly text?: string;
  readonly unit?: string;
  readonly size?: 'normal' | 'large' | 'small';
  /** In a column: right-aligned on the decimal point, unit in its own narrow column. */
  readonly aligned?: boolean;
  /** Only shown: where a figure beside it explains the same. */
  readonly plain?: boolean;
}

/** A number with its unit in small type. Where it is a figure, it can be asked where it comes from. */
export function Amount({ figure, text, unit, size = 'normal', aligned = false, plain = false }: AmountProps) {
  if (!figure && text === undefined) return null;
  const shown = figure && text === undefined ? formatAmount(figure, decimalMark) : { text: text ?? '', unit: unit ?? '' };
  const classes = `amount amount-${size}${aligned ? ' amount-aligned' : ''}`;
  const inside = <NumberAndUnit text={shown.text} unit={unit ?? shown.unit} />;
  if (!figure || plain) return <span class={classes}>{inside}</span>;
  return (
    <button
      type="button"
      class={classes}
      title={shellWords.explainHint(figure.label)}
      onClick={(event) => explain(figure, event.currentTarget)}
    >
      {inside}
    </button>
  );
}

/** Split where the decimals begin, so that columns align; read aloud as one. */
function NumberAndUnit({ text, unit }: { readonly text: string; readonly unit: string }) {
  const at = text.search(/[.,]/);
  return (
    <>
      <span class="unseen">{unit === '' ? text : `${text} ${unit}`}</span>
      <span class="amount-whole" aria-hidden="true">
        {at < 0 ? text : text.slice(0, at)}
      </span>
      <span class="amount-fraction" aria-hidden="true">
        {at < 0 ? '' : text.slice(at)}
      </span>
      <span class="amount-unit" aria-hidden="true">
        {unit === '' ? '' : `\u00A0${unit}`}
      </span>
    </>
  );
}
