import type { StepPlan } from '../../../core/plan/result.ts';
import type { RunRow } from '../../../core/port/runs.ts';
import { formatSignificant } from '../../../core/quantity/format.ts';
import { weighWords } from '../../../core/words/weigh-words.ts';
import { dayAndTime } from '../../parts/day-text.ts';
import { decimalMark } from '../../parts/locale.ts';
import { exportRun, issueReport } from './run-papers.ts';
import { brokenRuns, openRun, ownRuns, runsTrouble, weighBatch } from '../../state/run-store.ts';

const words = weighWords.runs;

/** Weighs a batch, or goes on with it where it is being weighed. */
export function WeighBatch({ step, batch }: { readonly step: StepPlan; readonly batch: number }) {
  const going = ownRuns().find((one) => one.step === step.id && one.batch === batch && one.phase !== 'finished');
  const sheet = `${step.number}-${batch}`;
  return (
    <button
      type="button"
      class="button"
      aria-label={going ? words.open(going.sheet) : words.weighBatch(sheet)}
      onClick={() => weighBatch(step.id, batch)}
    >
      {going ? words.goOn : words.weigh}
    </button>
  );
}

/** What has been weighed for this plan. */
export function Runs() {
  const runs = ownRuns();
  return (
    <section class="issued" aria-labelledby="runs-title">
      <h2 id="runs-title">{words.title}</h2>
      {runsTrouble.value !== '' && <p class="bench-said">{runsTrouble.value}</p>}
      {runs.length === 0 && runsTrouble.value === '' && <p class="soft">{words.none}</p>}
      <ol>
        {runs.map((one) => (
          <Run key={one.id} run={one} />
        ))}
      </ol>
    </section>
  );
}

function Run({ run }: { readonly run: RunRow }) {
  const broken = brokenRuns.value.find((one) => one.id === run.id);
  return (
    <li class="bench-run">
      <button type="button" class="text-button" aria-label={words.look(run.sheet)} onClick={() => void openRun(run.id)}>
        {run.title}
      </button>
      <span class="issued-acts">
        <button
          type="button"
          class="text-button small"
          aria-label={words.reportOf(run.id)}
          onClick={() => void issueReport(run.id)}
        >
          {words.report}
        </button>
        <button
          type="button"
          class="text-button small"
          aria-label={words.exportOf(run.id)}
          onClick={() => void exportRun(run.id)}
        >
          {words.exported}
        </button>
      </span>
      <p class="soft small">
        {weighWords.sheet(run.sheet, run.id)} · {run.early ? words.endedEarly : words.phase[run.phase]} · {dayAndTime(run.last)}
      </p>
      <p class="small">{whatItCameTo(run)}</p>
      {broken && (
        <p class="small tone-accent">
          {broken.bottle === undefined ? weighWords.broken(broken.entry) : weighWords.brokenLine(broken.entry, broken.bottle)}
        </p>
      )}
    </li>
  );
}

function whatItCameTo(run: RunRow): string {
  if (run.yieldPercent === null) return words.weighed(run.weighed, run.charges);
  const percent = (value: number): string => `${formatSignificant(value, 3, decimalMark)} %`;
  const own = words.yield(percent(run.yieldPercent), run.uncorrected);
  const over = run.cumulativePercent;
  const same = over === null || Math.abs(over - run.yieldPercent) < 1e-9;
  return same ? own : `${own}, ${words.cumulative(percent(over))}`;
}
