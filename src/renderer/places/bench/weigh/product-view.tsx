import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { RunRecord } from '../../../../core/port/runs.ts';
import { parseNumberAlone } from '../../../../core/quantity/parse.ts';
import { readBalanceText } from '../../../../core/run/balance-text.ts';
import { less, type RunState } from '../../../../core/run/state.ts';
import { chooseFile } from '../../../parts/choose-file.ts';
import { sentence } from '../../../../core/words/sentences.ts';
import { weighWords } from '../../../../core/words/weigh-words.ts';
import { addToRun, leaveRun, readRuns, said, saidDone, saidWrong } from '../../../state/run-store.ts';
import { who } from '../../../state/who.ts';
import { asking, write } from '../../../state/weigh-store.ts';
import { reference } from '../../../state/workbook.ts';
import { LineField } from './line-field.tsx';
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
  const another = useSignal(false);
  const dry = state.products.some((one) => !one.wet);
  return (
    <section class="weigh-now weigh-product">
      <h1 class="weigh-name">{words.title(run.start.sheet.sheet.product)}</h1>
      {asking.value.for !== 'line' && <LineField />}
      {run.start.sheet.product.carried && !dry && <p class="weigh-more">{words.carried}</p>}
      {(!dry || another.value) && <ProductForm key={state.products.length} state={state} done={() => (another.value = false)} />}
      <p class={`weigh-said weigh-${said.value?.tone ?? 'done'}`} role="status">
        {asking.value.for === 'line' && said.value?.words}
      </p>
      {state.products.length > 0 && <OutcomeView run={run} state={state} />}
      <p class="weigh-acts">
        {dry && !another.value && (
          <button type="button" class="button" onClick={() => (another.value = true)}>
            {words.another}
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

/** A file is named in the record with its hash; it stays where it lies. */
async function attach(): Promise<void> {
  const file = await chooseFile('');
  if (!file) return;
  const digest = await crypto.subtle.digest('SHA-256', await file.arrayBuffer());
  const sha256 = [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  await write({ kind: 'file', by: who.value, name: file.name.slice(0, 300), sha256 });
}

/** Every field by keyboard; Enter in the mass goes on to the next, so that a balance may type it. */
function ProductForm({ state, done }: { readonly state: RunState; readonly done: () => void }) {
  const mass = useSignal('');
  const tare = useSignal<number | null>(null);
  const wet = useSignal(false);
  const assay = useSignal('');
  const place = useSignal('');
  const first = useRef<HTMLInputElement>(null);
  const second = useRef<HTMLInputElement>(null);
  useEffect(() => first.current?.focus(), []);
  const crop = nextCrop(state);
  const readMass = (): number | null => {
    const read = reference.value && readBalanceText(mass.value, 'g', reference.value.rows.balanceTexts);
    if (!read?.ok || read.unit !== 'g') {
      saidWrong(read && !read.ok ? sentence(read.why) : words.noMass);
      return null;
    }
    if (read.what === 'tare') {
      tare.value = read.amount;
      mass.value = '';
      saidDone(words.tareFirst(`${read.amount} g`));
      return null;
    }
    return read.amount;
  };
  const record = async (): Promise<void> => {
    const amount = readMass();
    const percent = assay.value.trim() === '' ? null : parseNumberAlone(assay.value.replace(/\s*%\s*$/, ''));
    if (amount === null) return first.current?.focus();
    if (percent && (!percent.ok || percent.value <= 0 || percent.value > 100)) return saidWrong(words.noAssay);
    const grams = tare.value === null ? amount : less(amount, tare.value);
    if (!(grams > 0)) return saidWrong(words.noMass);
    const weighed = tare.value === null ? {} : { tare: tare.value, gross: amount };
    const entry = { kind: 'product', by: who.value, crop, grams, ...weighed, wet: wet.value } as const;
    const more = {
      assayPercent: percent?.ok ? percent.value : null,
      place: place.value.trim(),
      text: mass.value.trim(),
      bottle: null,
    };
    const added = await addToRun({ ...entry, ...more });
    if (!added.ok) return saidWrong(weighWords.refused(added.words));
    saidDone(added.bottle === null ? words.wetRecorded : words.recorded(added.bottle));
    done();
    // The form has gone: the next Tab goes on from here.
    document.getElementById('work')?.focus();
  };
  return (
    <form
      class="weigh-form"
      onSubmit={(event) => {
        event.preventDefault();
        void record();
      }}
    >
      <label>
        <span>
          {words.mass} <small>{words.crop(crop)}</small>
        </span>
        <input
          ref={first}
          type="text"
          autocomplete="off"
          spellcheck={false}
          value={mass.value}
          onInput={(event) => (mass.value = event.currentTarget.value)}
          onKeyDown={(event) => {
            if (event.key !== 'Enter') return;
            event.preventDefault();
            if (readMass() !== null) {
              said.value = null;
              second.current?.focus();
            }
          }}
        />
        <small class="soft">{words.massHint}</small>
      </label>
      <label>
        <span>{words.assay}</span>
        <input
          ref={second}
          type="text"
          autocomplete="off"
          value={assay.value}
          onInput={(event) => (assay.value = event.currentTarget.value)}
        />
        <small class="soft">{words.assayHint}</small>
      </label>
      <label>
        <span>{words.place}</span>
        <input
          type="text"
          autocomplete="off"
          maxLength={300}
          value={place.value}
          onInput={(event) => (place.value = event.currentTarget.value)}
        />
      </label>
      <label class="check-box">
        <input type="checkbox" checked={wet.value} onChange={(event) => (wet.value = event.currentTarget.checked)} />
        <span>{words.wet}</span>
      </label>
      <button type="submit" class="button button-strong">
        {words.record}
      </button>
    </form>
  );
}

/** A crop weighed wet is weighed dry next; else the next crop. */
function nextCrop(state: RunState): number {
  const dry = new Set(state.products.filter((one) => !one.wet).map((one) => one.crop));
  const wet = state.products.find((one) => one.wet && !dry.has(one.crop));
  return wet?.crop ?? Math.max(0, ...dry) + 1;
}
