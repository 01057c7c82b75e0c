import { useEffect, useRef } from 'preact/hooks';
import type { RunSheet } from '../../../../core/run/run-sheet.ts';
import { takenText } from '../../../../core/run/reading-text.ts';
import type { RunState } from '../../../../core/run/state.ts';
import { weighWords as words } from '../../../../core/words/weigh-words.ts';
import { decimalMark } from '../../../parts/locale.ts';
import { Record } from './record.tsx';
import { act, run, runState } from '../../../state/run-store.ts';

type Entry = RunSheet['sheet']['stages'][number]['entries'][number];

/** Every operation of the sheet in its order, with what was taken. */
export function OperationList() {
  const sheet = run.value?.start.sheet;
  const state = runState.value;
  const list = useRef<HTMLElement>(null);
  const now = act.value && 'entry' in act.value ? act.value.entry.id : null;
  useEffect(() => list.current?.querySelector('[aria-current]')?.scrollIntoView({ block: 'nearest' }), [now]);
  if (!sheet || !state) return null;
  return (
    <nav ref={list} class="weigh-list" aria-label={words.operations} tabIndex={0}>
      {sheet.sheet.stages.map((stage, at) => (
        <section key={at}>
          <h2>{stage.title}</h2>
          <ol>
            {stage.entries.map((entry) => (
              <Line key={entry.id} entry={entry} state={state} now={entry.id === now} />
            ))}
          </ol>
        </section>
      ))}
      {run.value && <Record run={run.value} />}
    </nav>
  );
}

function Line({ entry, state, now }: { readonly entry: Entry; readonly state: RunState; readonly now: boolean }) {
  const charge = state.charges.find((one) => one.charge.id === entry.id);
  const done = entry.do === 'charge' ? (charge?.complete ?? false) : state.confirmed.has(entry.id);
  const is = done ? 'done' : now ? 'now' : 'next';
  return (
    <li class={`weigh-op weigh-op-${is}`} aria-current={now ? 'step' : undefined}>
      <svg viewBox="0 0 12 12" aria-hidden="true">
        <path d={{ done: 'M1 6.5 4.5 10 11 2.5', now: 'M2 1 11 6 2 11Z', next: 'M6 2a4 4 0 1 1 0 8 4 4 0 1 1 0-8Z' }[is]} />
      </svg>
      <span>
        <span class="unseen">{words.states[is]}: </span>
        {operationName(entry)}
      </span>
      <span class="weigh-op-net">{charge ? takenText(charge.parts, decimalMark) : ''}</span>
    </li>
  );
}

/** An operation in a few words. */
export function operationName(entry: Entry): string {
  if (entry.do === 'charge') return entry.material;
  return entry.do === 'hold' ? entry.until : `${entry.title} ${entry.takes}`;
}
