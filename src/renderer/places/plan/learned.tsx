import './learned.css';
import { useSignal } from '@preact/signals';
import { learnedSpread } from '../../../core/confidence/from-runs.ts';
import type { LearnedRun } from '../../../core/plan/ask.ts';
import type { StepPlan } from '../../../core/plan/result.ts';
import { learnedFrom } from '../../../core/plan/solve/starts.ts';
import { likeliest } from '../../../core/plan/solve/requirements.ts';
import type { RunRow } from '../../../core/port/runs.ts';
import { formatAmount, formatSignificant } from '../../../core/quantity/format.ts';
import { runsOfStep } from '../../../core/run/learned-runs.ts';
import { learnedWords as words } from '../../../core/words/learned-words.ts';
import { dayText } from '../../parts/day-text.ts';
import { decimalMark } from '../../parts/locale.ts';
import { draft } from '../../state/plan-store.ts';
import { ownRuns } from '../../state/run-store.ts';
import { runRows } from '../../state/run-rows.ts';
import { enteredYield, setLearned } from './edits.ts';
import { LearnedPlot } from './learned-plot.tsx';

/** Runs of a step that are still being weighed: what they took is off the shelf, what they will give is not on it yet. */
export function GoingOn({ step }: { readonly step: string }) {
  const going = ownRuns().filter((one) => one.step === step && one.phase !== 'finished' && one.bottles.length === 0);
  if (going.length === 0) return null;
  return (
    <p class="step-more tone-accent" role="note">
      {words.goingOn(going.map((one) => one.id))}
    </p>
  );
}

type Row = RunRow & { readonly yieldPercent: number };
type Weight = keyof typeof words.weights;

/** What a step's runs yielded, what that predicts, and which of them this plan counts; closed until it is asked for. */
export function LearnedYields({ step }: { readonly step: StepPlan }) {
  const rows = runsOfStep(runRows.value ?? [], step.id);
  if (rows.length === 0) return null;
  return (
    <details class="fold learned">
      <summary>
        {words.title(rows.length)} · <span class="soft">{plannedWords(step)}</span>
      </summary>
      <Runs key={step.id} step={step} rows={rows} />
    </details>
  );
}

const percent = (value: number): string => `${formatSignificant(value, 3, decimalMark)} %`;

function plannedWords(step: StepPlan): string {
  const { entered, learned } = words.planned;
  return step.yieldRuns ? learned(percent(step.yield.value), step.yieldRuns) : entered(percent(step.yield.value));
}

function Runs({ step, rows }: { readonly step: StepPlan; readonly rows: readonly Row[] }) {
  const frozen = draft.value?.learned?.[step.id] ?? [];
  const weights = useSignal<ReadonlyMap<number, number>>(new Map(frozen.map((one) => [one.run, one.weight])));
  const weightOf = (row: Row): number => weights.value.get(row.id) ?? 1;
  const chosen = rows.map((row): LearnedRun => ({ run: row.id, percent: row.yieldPercent, weight: weightOf(row) }));
  const spread = learnedSpread(learnedFrom(likeliest(enteredYield(step.id)), chosen));
  const newer = chosen.filter((one) => !frozen.some((was) => was.run === one.run && was.percent === one.percent)).length;
  const same = JSON.stringify(frozen) === JSON.stringify(chosen);
  return (
    <div class="learned-runs">
      <LearnedPlot rows={rows.map((row) => ({ ...row, weight: weightOf(row) }))} spread={spread} />
      <div>
        <p>{words.predicts(percent(100 * spread.median), percent(100 * spread.p10), percent(100 * spread.p90))}</p>
        {frozen.length > 0 && newer > 0 && <p class="tone-accent">{words.newer(newer)}</p>}
        <RunTable
          rows={rows}
          weightOf={weightOf}
          setWeight={(run, weight) => {
            weights.value = new Map([...weights.value, [run, weight]]);
          }}
        />
        <p class="learned-acts">
          <button type="button" class="button" disabled={same} onClick={() => setLearned(step.id, step.title, chosen)}>
            {frozen.length > 0 ? words.refresh : words.use}
          </button>
          {frozen.length > 0 && (
            <button type="button" class="text-button" onClick={() => setLearned(step.id, step.title, null)}>
              {words.drop}
            </button>
          )}
        </p>
      </div>
    </div>
  );
}

interface RunTableProps {
  readonly rows: readonly Row[];
  readonly weightOf: (row: Row) => number;
  readonly setWeight: (run: number, weight: number) => void;
}

function RunTable({ rows, weightOf, setWeight }: RunTableProps) {
  const columns = words.columns;
  return (
    <table class="learned-table">
      <thead>
        <tr>
          {Object.values(columns).map((one) => (
            <th key={one} scope="col">
              {one}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.id}>
            <th scope="row">{row.id}</th>
            <td>{dayText(row.started.slice(0, 10))}</td>
            <td>{grams(row.basisGrams)}</td>
            <td>
              {percent(row.yieldPercent)} {row.uncorrected && <span class="soft small">{words.uncorrected}</span>}
            </td>
            <td>
              <select
                class="choice"
                aria-label={words.weight(row.id)}
                value={String(weightOf(row))}
                onChange={(event) => setWeight(row.id, Number(event.currentTarget.value))}
              >
                {(Object.keys(words.weights) as Weight[]).sort().map((one) => (
                  <option key={one} value={one}>
                    {words.weights[one]}
                  </option>
                ))}
              </select>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function grams(value: number | null): string {
  if (value === null) return '';
  const { text, unit } = formatAmount({ value, unit: 'g', digits: 4 }, decimalMark);
  return `${text} ${unit}`;
}
