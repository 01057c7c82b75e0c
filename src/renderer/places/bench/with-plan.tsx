import type { ComponentChildren } from 'preact';
import type { PlanResult } from '../../../core/plan/result.ts';
import { benchWords as words } from '../../../core/words/bench-words.ts';
import { sentence } from '../../../core/words/sentences.ts';
import { EmptyState } from '../../parts/empty-state.tsx';
import { goTo } from '../../state/place.ts';
import { result } from '../../state/plan-result.ts';
import { planLoad } from '../../state/plan-store.ts';

/** Why a plan cannot be worked out, in sentences. */
export function errorsOf({ notices }: PlanResult): readonly string[] {
  return [...new Set(notices.filter((one) => one.level === 'error').map(sentence))];
}

/** The open plan's result, or what stands in its place while there is none. */
export function WithPlan({ children }: { readonly children: (result: PlanResult) => ComponentChildren }) {
  const load = planLoad.value;
  if (load.at === 'loading') return <EmptyState busy title={words.loading} />;
  if (!result.value) {
    return (
      <EmptyState title={words.noPlan.title} text={load.at === 'failed' ? load.words : words.noPlan.text}>
        <button type="button" class="button" onClick={() => goTo('routes')}>
          {words.noPlan.toRoutes}
        </button>
      </EmptyState>
    );
  }
  if (!result.value.solved) {
    return (
      <EmptyState title={words.unsolved.title} text={words.unsolved.text} reasons={errorsOf(result.value)}>
        <button type="button" class="button" onClick={() => goTo('plan')}>
          {words.unsolved.toPlan}
        </button>
      </EmptyState>
    );
  }
  return <>{children(result.value)}</>;
}
