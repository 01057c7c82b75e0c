import { runOutcome } from '../../../../core/run/outcome.ts';
import type { RunRecord } from '../../../../core/port/runs.ts';
import type { RunState } from '../../../../core/run/state.ts';
import { formatSignificant } from '../../../../core/quantity/format.ts';
import { sentence } from '../../../../core/words/sentences.ts';
import { weighWords } from '../../../../core/words/weigh-words.ts';
import type { Maybe } from '../../../../core/words/why.ts';
import { Amount } from '../../../parts/amount.tsx';
import { decimalMark } from '../../../parts/locale.ts';
import { runRows } from '../../../state/run-rows.ts';

const words = weighWords.outcome;

/** Yield against what was really charged, beside what the plan expected; what is not known says why. */
export function OutcomeView({ run, state }: { readonly run: RunRecord; readonly state: RunState }) {
  const outcome = runOutcome(run.start.sheet, state);
  const row = runRows.value?.find((one) => one.id === run.id);
  const corrected = outcome.yield.ok && outcome.yield.figure.label === 'yield';
  return (
    <section class="weigh-outcome" aria-labelledby="outcome-title">
      <h2 id="outcome-title">{words.title}</h2>
      <dl>
        <Line term={corrected || !outcome.yield.ok ? words.yield : words.uncorrected} value={outcome.yield} large />
        <dt>{words.planned}</dt>
        <dd>{formatSignificant(run.start.sheet.product.yieldPercent, 3, decimalMark)} %</dd>
        {row && row.cumulativePercent !== null && (
          <>
            <dt>{words.cumulative}</dt>
            <dd>{formatSignificant(row.cumulativePercent, 3, decimalMark)} %</dd>
          </>
        )}
        <Line term={words.product} value={outcome.product} />
        <Line term={words.expected} value={outcome.expected} />
        <Line term={words.theory} value={outcome.theory} />
        <Line term={words.basis} value={outcome.basisMoles} />
        <Line term={words.in} value={outcome.balance.in} />
        <Line term={words.rest} value={outcome.balance.rest} />
      </dl>
    </section>
  );
}

function Line({
  term,
  value,
  large = false,
}: {
  readonly term: string;
  readonly value: Maybe<'g' | 'mol' | '%'>;
  readonly large?: boolean;
}) {
  return (
    <>
      <dt>{term}</dt>
      <dd>
        {value.ok ? (
          <Amount figure={value.figure} size={large ? 'large' : 'normal'} />
        ) : (
          <span class="soft">{sentence(value.why)}</span>
        )}
      </dd>
    </>
  );
}
