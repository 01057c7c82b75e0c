import './weigh.css';
import './weigh-list.css';
import './weigh-outcome.css';
import { weighWords as words } from '../../../../core/words/weigh-words.ts';
import { keyWords } from '../../../state/command.ts';
import { act, run, runState, starting } from '../../../state/run-store.ts';
import { who } from '../../../state/who.ts';
import { WEIGH_COMMANDS } from '../../../state/weigh-commands.ts';
import { ActView } from './act-view.tsx';
import { LineField } from './line-field.tsx';
import { OperationList } from './operation-list.tsx';
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
        <h1 class="weigh-do">{words.acts.paused}</h1>
        <LineField />
      </section>
    );
  }
  if (state.phase === 'finished' || act.value?.kind === 'product') return <ProductView run={run.value} state={state} />;
  return (
    <section class="weigh-now">
      {act.value && <ActView act={act.value} run={run.value} state={state} />}
      <LineField />
    </section>
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
