import { useSignal } from '@preact/signals';
import { useId, useLayoutEffect, useRef } from 'preact/hooks';
import { weighWords as words } from '../../../../core/words/weigh-words.ts';
import { entryText } from '../../../../core/words/run-entry-words.ts';
import { decimalMark } from '../../../parts/locale.ts';
import { takesText } from '../../../state/command.ts';
import { act, busy, othersWrote, run, runState, said, saidWrong } from '../../../state/run-store.ts';
import { who } from '../../../state/who.ts';
import { entryNow } from '../../../state/weigh-correct.ts';
import { looksWeighed, WORDS_ONLY } from '../../../state/weigh-lines.ts';
import { type Asking, asking, submit } from '../../../state/weigh-store.ts';

/** An Enter this soon after the one before, in ms, is the second end of the same line. */
const AT_ONCE = 100;
/** Enter alone this soon after another window wrote, in ms, was meant for what stood there before. */
const A_LOOK = 700;
/** What a balance or a scanner types into; other words a person typed are not thrown away by the next key. */
const REPLACED: ReadonlySet<Asking['for']> = new Set(['line', 'who', 'bottle', 'checker', 'adjust', 'correct which']);

/** The one field that balance, scanner and person type into; it has the focus whatever comes. */
export function LineField() {
  const id = useId();
  const text = useSignal('');
  const field = useRef<HTMLInputElement>(null);
  /** When Enter was pressed last, and lines that ended while one was being written. */
  const pressed = useRef(Number.NEGATIVE_INFINITY);
  const late = useRef<string[]>([]);
  /** What was asked about and put back, until something else is typed. */
  const back = useRef<string | null>(null);
  /** What other windows had written when the first key of the line came. */
  const begun = useRef(0);
  /** When another window wrote last. */
  const changed = useRef(Number.NEGATIVE_INFINITY);
  const now = asking.value;
  const entries = run.value?.entries.length ?? 0;
  // Before the next key can come: what a balance types must not fall beside the field.
  useLayoutEffect(() => field.current?.focus(), [now.for, entries]);
  const others = othersWrote.value;
  const first = useRef(others);
  useLayoutEffect(() => {
    if (others !== first.current) changed.current = performance.now();
  }, [others]);
  useLayoutEffect(() => {
    const bring = (event: KeyboardEvent): void => {
      const plain = event.key.length === 1 && !event.ctrlKey && !event.altKey && !event.metaKey;
      if (plain && !takesText(event.target) && !document.querySelector('dialog:modal')) field.current?.focus();
    };
    document.addEventListener('keydown', bring);
    return () => document.removeEventListener('keydown', bring);
  }, []);
  const put = (line: string, chosen: boolean): void => {
    text.value = line;
    // At once: what a balance types next must take its place, not stand behind it.
    if (field.current) field.current.value = line;
    if (chosen) field.current?.select();
  };
  /** To be looked at with what stands there now: Enter alone takes it for that. */
  const putBack = (line: string, chosen: boolean): void => {
    put(line, chosen);
    back.current = line;
    begun.current = othersWrote.value;
  };
  const enter = async (event: KeyboardEvent): Promise<void> => {
    event.preventDefault();
    const typed = text.value;
    const early = event.repeat || event.timeStamp - pressed.current < AT_ONCE;
    pressed.current = event.timeStamp;
    // A balance may end its line twice, a key may stick: nothing is confirmed by that.
    const again = back.current !== null && back.current === typed;
    if ((typed.trim() === '' || again) && early) return;
    const moved = typed.trim() === '' ? event.timeStamp - changed.current < A_LOOK : begun.current !== othersWrote.value;
    if (moved) {
      saidWrong(words.othersWrote(typed.trim()));
      putBack(typed, true);
      return;
    }
    back.current = null;
    put('', false);
    if (busy.value) {
      late.current.push(typed.trim());
      return;
    }
    const done = await submit(typed, again);
    const came = late.current.filter((line) => line !== '');
    late.current = [];
    if (text.value !== '') return;
    // What was refused comes back to be looked at, unless something else is being typed.
    if (came.length > 0) {
      saidWrong([done && said.value?.tone !== 'wrong' ? '' : said.value?.words, words.cameLate(came)].filter(Boolean).join(' '));
      begun.current = othersWrote.value;
      put(came.at(-1) ?? '', true);
    } else if (!done) {
      // What reads like a weighing and is not taken makes room for the next, which a balance may type.
      putBack(typed, REPLACED.has(now.for) || (WORDS_ONLY.has(now.for) && looksWeighed(typed.trim())));
    }
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
          if (text.value === '' || back.current !== null) begun.current = othersWrote.value;
          text.value = event.currentTarget.value;
          back.current = null;
        }}
        onKeyDown={(event) => {
          if (event.key === 'Enter') void enter(event);
          else if (event.key === 'PageDown' || event.key === 'PageUp') scrollMain(event);
        }}
      />
      <p id={`${id}-said`} class={`weigh-said weigh-${said.value?.tone ?? 'done'}`} role="status">
        {said.value && <Shape wrong={said.value.tone === 'wrong'} />}
        {said.value?.words}
      </p>
    </div>
  );
}

/** What stands above is read without leaving the field. */
function scrollMain(event: KeyboardEvent): void {
  event.preventDefault();
  const main = document.getElementById('work');
  main?.scrollBy({ top: (event.key === 'PageDown' ? 0.4 : -0.4) * main.clientHeight });
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
      if (now.spilled) return ask.spilledReason(now.of);
      return now.instead === null ? ask.takeOutReason(now.of) : ask.correctReason;
    case 'who':
      return who.value === '' ? ask.who : ask.whoAgain(who.value);
    case 'why':
      return act.value?.kind === 'weigh' && !act.value.charge.reading ? ask.whyNoMore : ask.why;
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
