import './bench.css';
import { untracked, useSignalEffect } from '@preact/signals';
import type { PlanResult } from '../../../core/plan/result.ts';
import { benchWords } from '../../../core/words/bench-words.ts';
import { EmptyState } from '../../parts/empty-state.tsx';
import { readRuns } from '../../state/run-store.ts';
import { openPlan } from '../../state/plan-route.ts';
import { BatchPicker } from './batch-picker.tsx';
import { everyBatch, readPapers, recall } from './bench-store.ts';
import { Papers } from './papers.tsx';
import { readSessions } from './session-store.ts';
import { StockCheck } from './stock-check.tsx';
import { WithPlan } from './with-plan.tsx';

/** From left to right as the work goes: which batches, what they need, and the papers for them. */
export function BenchPlace() {
  useSignalEffect(() => {
    if (!openPlan.value) return;
    // Read once for each plan: what is read must not ask for itself again.
    untracked(() => {
      recall();
      void readPapers();
      void readRuns();
      void readSessions();
    });
  });
  return <WithPlan>{(result) => <Session result={result} />}</WithPlan>;
}

function Session({ result }: { readonly result: PlanResult }) {
  if (everyBatch(result).length === 0) return <EmptyState title={benchWords.idle.title} text={benchWords.idle.text} />;
  return (
    <div class="bench">
      <BatchPicker result={result} />
      <StockCheck result={result} />
      <Papers result={result} />
    </div>
  );
}
