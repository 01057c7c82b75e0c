import './make-solution.css';
import { useLayoutEffect, useRef } from 'preact/hooks';
import type { SolutionPlan } from '../../../core/matter/make-solution.ts';
import { amountText } from '../../../core/paper/amounts.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { solutionWords as words } from '../../../core/words/solution-words.ts';
import { EmptyState } from '../../parts/empty-state.tsx';
import { decimalMark } from '../../parts/locale.ts';
import { goTo } from '../../state/place.ts';
import { reference } from '../../state/workbook.ts';
import { useSourceBottles } from './make-solution-bottles.ts';
import { solutionDraft, typeSolution } from './make-solution-draft.ts';
import { SolutionForm } from './make-solution-form.tsx';
import { readDraft } from './make-solution-read.ts';
import { ReplacementResult } from './make-solution-replace.tsx';
import { SolutionResult } from './make-solution-result.tsx';
import { closePanel } from './shelf-store.ts';

/** A solution to be made from what is on the shelf: what is wanted on the left, how it is done on the right. */
export function MakeSolution() {
  const heading = useRef<HTMLHeadingElement>(null);
  const bottles = useSourceBottles();
  useLayoutEffect(() => heading.current?.focus(), []);
  const draft = solutionDraft.value;
  const tables = reference.value;
  if (!draft || !tables) return <EmptyState busy title={shelfWords.loading} />;
  const reading = readDraft(draft, bottles.list.value ?? [], tables);
  return (
    <section class="solution" aria-labelledby="solution-title" onKeyDown={(event) => event.key === 'Escape' && closePanel()}>
      <header class="solution-head">
        <h1 id="solution-title" ref={heading} tabIndex={-1}>
          {draft.mode === 'make' ? words.from(draft.material.name) : words.other(draft.material.name)}
        </h1>
        {draft.purpose !== '' && <p class="soft">{draft.purpose}</p>}
        <span class="solution-ways">
          {draft.purpose !== '' && (
            <button type="button" class="text-button" onClick={() => goTo('plan')}>
              {words.backToPlan}
            </button>
          )}
          <button type="button" class="text-button" onClick={closePanel}>
            {words.close}
          </button>
        </span>
      </header>
      <div class="solution-body">
        <div class="solution-ask">
          <Modes mode={draft.mode} />
          <SolutionForm draft={draft} reading={reading} bottles={bottles} tables={tables} />
        </div>
        <div class="solution-result">
          <p class="unseen" role="status">
            {reading.plan ? summary(reading.plan) : ''}
          </p>
          {reading.plan && <SolutionResult plan={reading.plan} reading={reading} draft={draft} tables={tables} />}
          {reading.replacement && <ReplacementResult {...reading.replacement} />}
          {!reading.plan && !reading.replacement && <p class="soft solution-empty">{words.result.empty}</p>}
        </div>
      </div>
    </section>
  );
}

/** Said aloud as it changes: what to take, and how warm it would get. */
function summary({ problem, source, rest, heat }: SolutionPlan): string {
  if (problem) return '';
  const text = (grams: typeof source.grams): string => (grams.ok ? amountText(grams.figure, decimalMark) : words.result.unknown);
  const reached = heat.reached.ok ? String(Math.round(heat.reached.figure.value)) : '';
  return words.result.summary(text(source.grams), text(rest.grams), reached, heat.boils === true);
}

function Modes({ mode }: { readonly mode: 'make' | 'replace' }) {
  return (
    <div class="segments" role="radiogroup" aria-label={words.mode}>
      {(['make', 'replace'] as const).map((one) => (
        <label key={one} class="segment">
          <input type="radio" name="solution-mode" checked={mode === one} onChange={() => typeSolution('mode', one)} />
          <span>{words.modes[one]}</span>
        </label>
      ))}
    </div>
  );
}
