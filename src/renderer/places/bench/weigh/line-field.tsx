import { useSignal } from '@preact/signals';
import { useEffect, useId, useLayoutEffect, useRef } from 'preact/hooks';
import { weighWords as words } from '../../../../core/words/weigh-words.ts';
import { entryText } from '../../../../core/words/run-entry-words.ts';
import { decimalMark } from '../../../parts/locale.ts';
import { takesText } from '../../../state/command.ts';
import { act, busy, run, runState, said } from '../../../state/run-store.ts';
import { who } from '../../../state/who.ts';
import { entryNow } from '../../../state/weigh-correct.ts';
import { type Asking, asking, submit } from '../../../state/weigh-store.ts';

/** The one field that balance, scanner and person type into; it has the focus whatever comes. */
export function LineField() {
  const id = useId();
  const text = useSignal('');
  const field = useRef<HTMLInputElement>(null);
  const now = asking.value;
  const entries = run.value?.entries.length ?? 0;
  // Before the next key can come: what a balance types must not fall beside the field.
  useLayoutEffect(() => field.current?.focus(), [now.for, entries]);
  useEffect(() => {
    const bring = (event: KeyboardEvent): void => {
      const plain = event.key.length === 1 && !event.ctrlKey && !event.altKey && !event.metaKey;
      if (plain && !takesText(event.target) && !document.querySelector('dialog:modal')) field.current?.focus();
    };
    document.addEventListener('keydown', bring);
    return () => document.removeEventListener('keydown', bring);
  }, []);
  const enter = async (event: KeyboardEvent): Promise<void> => {
    if (event.key !== 'Enter') return;
    event.preventDefault();
    const typed = text.value;
    if (busy.value) return;
    text.value = '';
    // What was refused comes back to be looked at, unless something else is being typed.
    if (!(await submit(typed)) && text.value === '') text.value = typed;
  };
  return (
    <div class="weigh-line">
      <label for={id}>{labelOf(now)}</label>
      <input
        ref={field}
        id={id}
        type="text"
        class="weigh-field"
        data-codes="own"
        autocomplete="off"
        autocapitalize="off"
        spellcheck={false}
        maxLength={now.for === 'remark' || now.for === 'correct value' ? 2000 : 200}
        aria-busy={busy.value}
        aria-describedby={`${id}-said`}
        value={text.value}
        onInput={(event) => {
          text.value = event.currentTarget.value;
        }}
        onKeyDown={(event) => void enter(event)}
      />
      <p id={`${id}-said`} class={`weigh-said weigh-${said.value?.tone ?? 'done'}`} role="status">
        {said.value && <Shape wrong={said.value.tone === 'wrong'} />}
        {said.value?.words}
      </p>
    </div>
  );
}

function Shape({ wrong }: { readonly wrong: boolean }) {
  return (
    <svg viewBox="0 0 12 12" aria-hidden="true">
      <path d={wrong ? 'M6 .8 11.6 11H.4Z' : 'M1 6.5 4.5 10 11 2.5'} class={wrong ? 'shape-full' : 'shape-line'} />
    </svg>
  );
}

function labelOf(now: Asking): string {
  const ask = words.ask;
  switch (now.for) {
    case 'line':
      return lineLabel();
    case 'correct which':
      return ask.correctWhich(now.last);
    case 'correct value': {
      const found = entryNow(now.of);
      const sheet = run.value?.start.sheet;
      const was = found && sheet ? entryText(found, sheet, decimalMark) : '';
      return ask.correctValue(now.of, was, words.correctHow[found?.kind ?? ''] ?? '');
    }
    case 'correct reason':
      return now.instead === null ? ask.takeOutReason(now.of) : ask.correctReason;
    case 'not met':
      return ask.notMet;
    case 'met':
      return ask.met;
    default:
      return ask[now.for];
  }
}

function lineLabel(): string {
  if (runState.value?.phase === 'paused') return words.ask.resume;
  switch (act.value?.kind) {
    case 'weigh':
      return act.value.charge.charge.by === 'volume' ? words.ask.measured : words.ask.reading;
    case 'rescale':
      return words.ask.rescale;
    case 'read':
      return words.ask.readBy(who.value);
    case 'hold':
      return words.ask.holdBy(who.value);
    default:
      return words.ask.done;
  }
}
