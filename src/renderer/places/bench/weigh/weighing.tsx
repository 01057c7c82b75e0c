import './weigh.css';
import './weigh-list.css';
import './weigh-beside.css';
import './weigh-outcome.css';
import type { RunRecord } from '../../../../core/port/runs.ts';
import { weighWords as words } from '../../../../core/words/weigh-words.ts';
import { clockTime } from '../../../parts/day-text.ts';
import { keyWords } from '../../../state/command.ts';
import { act, run, runState, starting } from '../../../state/run-store.ts';
import { who } from '../../../state/who.ts';
import { WEIGH_COMMANDS } from '../../../state/weigh-commands.ts';
import { ActNow, ReadBefore } from './act-view.tsx';
import { LineField } from './line-field.tsx';
import { MoreToRead } from './more-to-read.tsx';
import { OperationList, operationName } from './operation-list.tsx';
import { ProductView } from './product-view.tsx';

/** The whole window for one thing at a time, to be read from two metres and worked by keyboard, balance and scanner. */
export function Weighing() {
  return (
    <div class="weigh">
      <WeighBar />
      <main id="work" class="weigh-main" tabIndex={-1} aria-label={words.label}>
        <Now />
      </main>
      {run.value && <OperationList />}
      <Keys />
    </div>
  );
}

function Now() {
  const state = runState.value;
  if (!who.value || !run.value || !state) {
    return (
      <section class="weigh-now">
        <h1 class="weigh-do">{words.acts.who}</h1>
        <LineField />
      </section>
    );
  }
  if (run.value.broken !== null)
    return (
      <p class="weigh-broken" role="alert">
        {words.broken(run.value.broken)}
      </p>
    );
  if (state.phase === 'paused') {
    return (
      <section class="weigh-now">
        <h1 class="weigh-name">{words.acts.paused}</h1>
        <Paused run={run.value} />
        <LineField />
      </section>
    );
  }
  if (state.phase === 'finished' || act.value?.kind === 'product') return <ProductView run={run.value} state={state} />;
  return (
    <section class="weigh-now">
      {act.value && <ReadBefore act={act.value} run={run.value} state={state} />}
      <div class="weigh-stand">
        <MoreToRead />
        {act.value && <ActNow act={act.value} state={state} />}
        <LineField />
      </div>
    </section>
  );
}

/** Since when, by whom, and what comes next. */
function Paused({ run }: { readonly run: RunRecord }) {
  const last = run.entries.findLast(({ entry }) => entry.kind === 'paused');
  const next = act.value && 'entry' in act.value ? operationName(act.value.entry) : '';
  return (
    <>
      {last && <p class="weigh-more">{words.pausedSince(clockTime(last.at), last.entry.by)}</p>}
      {next !== '' && <p class="weigh-more">{words.nextIs(next)}</p>}
    </>
  );
}

function WeighBar() {
  const record = run.value;
  const state = runState.value;
  const weighed = state?.charges.filter((one) => one.complete).length ?? 0;
  return (
    <header class="weigh-bar">
      <b>{record?.start.sheet.sheet.title ?? words.label}</b>
      {record && <span>{words.sheet(record.start.sheet.sheet.id, record.id)}</span>}
      {record && <span>{record.start.sheet.sheet.batchWords}</span>}
      {state && <span>{words.progress(weighed, state.charges.length)}</span>}
      {who.value !== '' && !starting.value && <span class="weigh-who">{words.by(who.value)}</span>}
    </header>
  );
}

/** What can be done now besides typing; each by its key or pressed. */
function Keys() {
  return (
    <footer class="weigh-keys" aria-label={words.label}>
      {WEIGH_COMMANDS.filter((one) => one.when()).map((one) => (
        <button key={one.name} type="button" class="weigh-key" onClick={one.do}>
          <kbd>{keyWords(one.keys ?? '')}</kbd> {one.words}
        </button>
      ))}
    </footer>
  );
}
