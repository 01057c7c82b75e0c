import { runBalanceLines } from '../../../../core/run/balance-lines.ts';
import { cropLines } from '../../../../core/run/crop-lines.ts';
import { runOutcome } from '../../../../core/run/outcome.ts';
import type { RunRecord } from '../../../../core/port/runs.ts';
import type { RunState } from '../../../../core/run/state.ts';
import type { Figure } from '../../../../core/quantity/figure.ts';
import { formatSignificant, shownUnit } from '../../../../core/quantity/format.ts';
import { runBalanceWords } from '../../../../core/words/run-balance-words.ts';
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
        <dd>{formatSignificant(run.start.sheet.product.yieldPercent, 4, decimalMark)} %</dd>
        {row && row.cumulativePercent !== null && (
          <>
            <dt>{words.cumulative}</dt>
            <dd>{formatSignificant(row.cumulativePercent, 4, decimalMark)} %</dd>
          </>
        )}
        <Line term={words.product} value={outcome.product} />
        {cropLines(outcome).map((one) => (
          <Line key={one.label} term={one.label} value={{ ok: true, figure: one.figure }} />
        ))}
        <Line term={words.expected} value={outcome.expected} />
        <Line term={words.theory} value={outcome.theory} />
        <Line term={words.basis} value={outcome.basisMoles} />
        {outcome.recovery && (
          <>
            <Line term={words.recovered} value={{ ok: true, figure: outcome.recovery.contained }} />
            <Line term={words.recovery} value={outcome.recovery.percent} />
          </>
        )}
      </dl>
      {outcome.overWhole && (
        <p class="weigh-said weigh-wrong" role="alert">
          {words.overWhole}
        </p>
      )}
      <h3>{runBalanceWords.title}</h3>
      <dl>
        {runBalanceLines(outcome.balance).map((one) => (
          <Line key={one.label} term={one.label} value={one.value} />
        ))}
      </dl>
    </section>
  );
}

/** What was weighed has more digits than a plan: five of a mass, four of a yield. */
function measured({ value, unit, digits }: Figure): { readonly text: string; readonly unit: string } {
  const shown = shownUnit(value, unit);
  const most = unit === '%' ? 4 : 5;
  return { text: formatSignificant(value * shown.factor, Math.min(most, digits), decimalMark), unit: shown.unit };
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
          <Amount figure={value.figure} {...measured(value.figure)} size={large ? 'large' : 'normal'} />
        ) : (
          <span class="soft">{sentence(value.why)}</span>
        )}
      </dd>
    </>
  );
}
