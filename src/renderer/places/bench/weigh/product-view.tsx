import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { RunRecord } from '../../../../core/port/runs.ts';
import type { RunState } from '../../../../core/run/state.ts';
import { chooseFile } from '../../../parts/choose-file.ts';
import { amountText } from '../../../../core/paper/amounts.ts';
import { runOutcome } from '../../../../core/run/outcome.ts';
import { decimalMark } from '../../../parts/locale.ts';
import { weighWords } from '../../../../core/words/weigh-words.ts';
import { leaveRun, readRuns, said } from '../../../state/run-store.ts';
import { who } from '../../../state/who.ts';
import { asking, write } from '../../../state/weigh-store.ts';
import { LineField } from './line-field.tsx';
import { MadeForm } from './made-form.tsx';
import { PlanAgain } from './plan-again.tsx';
import { OutcomeView } from './outcome-view.tsx';

const words = weighWords.product;

interface ProductViewProps {
  readonly run: RunRecord;
  readonly state: RunState;
}

/** After the last operation: the product, what it came to, and what that means for the rest. */
export function ProductView({ run, state }: ProductViewProps) {
  useEffect(() => void readRuns(), [run]);
  /** The form that is open beside what is recorded. */
  const open = useSignal<'none' | 'crop' | 'basis'>('none');
  const close = (): void => {
    open.value = 'none';
  };
  const keep = run.start.sheet.sheet.keep ?? '';
  const dry = state.products.some((one) => !one.wet);
  return (
    <section class="weigh-now weigh-product">
      <h1 class="weigh-name">{words.title(run.start.sheet.sheet.product)}</h1>
      {asking.value.for !== 'line' && <LineField />}
      {state.early !== '' && <p class="weigh-more">{words.endedEarly(state.early)}</p>}
      {keep !== '' && <p class="weigh-keep">{keep}</p>}
      {run.start.sheet.product.carried && !dry && <p class="weigh-more">{words.carried}</p>}
      {!dry && <Expected run={run} state={state} />}
      {open.value === 'basis' ? (
        <MadeForm
          key={`basis ${state.recovered.length}`}
          of="basis"
          name={run.start.sheet.basis.name}
          state={state}
          done={close}
        />
      ) : (
        (!dry || open.value === 'crop') && <MadeForm key={state.products.length} of="product" state={state} done={close} />
      )}
      <p class={`weigh-said weigh-${said.value?.tone ?? 'done'}`} role="status">
        {asking.value.for === 'line' && said.value?.words}
      </p>
      {state.products.length + state.recovered.length > 0 && <OutcomeView run={run} state={state} />}
      <p class="weigh-acts">
        {dry && open.value !== 'crop' && (
          <button type="button" class="button" onClick={() => (open.value = 'crop')}>
            {words.another}
          </button>
        )}
        {open.value !== 'basis' && (
          <button type="button" class="button" onClick={() => (open.value = 'basis')}>
            {words.basisBack(run.start.sheet.basis.name)}
          </button>
        )}
        <button type="button" class="button" onClick={() => void attach()}>
          {words.file}
        </button>
        {state.phase === 'running' && (
          <button
            type="button"
            class={dry || run.start.sheet.product.carried ? 'button button-strong' : 'button'}
            onClick={() => void write({ kind: 'finished', by: who.value }, false, '')}
          >
            {words.finish}
          </button>
        )}
        {state.phase === 'finished' && (
          <button type="button" class="button" onClick={leaveRun}>
            {words.back}
          </button>
        )}
      </p>
      {dry && <PlanAgain run={run} state={state} />}
    </section>
  );
}

/** What the real basis should give, before it is known what it gave. */
function Expected({ run, state }: ProductViewProps) {
  const { expected, theory } = runOutcome(run.start.sheet, state);
  if (!expected.ok || !theory.ok || run.start.sheet.product.carried) return null;
  return (
    <p class="weigh-more">{words.expected(amountText(expected.figure, decimalMark), amountText(theory.figure, decimalMark))}</p>
  );
}

/** A file is named in the record with its hash; it stays where it lies. */
async function attach(): Promise<void> {
  const file = await chooseFile('');
  if (!file) return;
  const digest = await crypto.subtle.digest('SHA-256', await file.arrayBuffer());
  const sha256 = [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  await write({ kind: 'file', by: who.value, name: file.name.slice(0, 300), sha256 });
}
