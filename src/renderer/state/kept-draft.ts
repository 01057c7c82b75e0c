import { effect } from '@preact/signals';
import type { Ask } from '../../core/plan/ask.ts';
import { draft, saveState, setKeptDraft } from './plan-store.ts';
import { openPlan } from './plan-route.ts';

type Store = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;
const key = (plan: number): string => `backweigh draft ${plan}`;

/**
 * Keeps what is typed and not saved yet in the window's own storage, so that a reload after a crash finds it again.
 * Taken up only where the plan still stands as it stood when it was typed.
 */
export function keepDraftsIn(store: Store): () => void {
  setKeptDraft((plan, state) => readKept(store.getItem(key(plan)), state));
  return effect(() => {
    const plan = openPlan.value;
    const ask = draft.value;
    if (!plan || !ask) return;
    if (saveState.value === 'saved') store.removeItem(key(plan.id));
    else store.setItem(key(plan.id), JSON.stringify({ after: plan.state, ask }));
  });
}

function readKept(text: string | null, state: number): Ask | null {
  if (text === null) return null;
  try {
    const kept: unknown = JSON.parse(text);
    if (kept === null || typeof kept !== 'object' || !('after' in kept) || !('ask' in kept) || kept.after !== state) return null;
    return isAsk(kept.ask) ? kept.ask : null;
  } catch {
    return null;
  }
}

/** Only this window writes there; main checks the ask in full when it is saved. */
function isAsk(value: unknown): value is Ask {
  return value !== null && typeof value === 'object' && 'name' in value && 'draws' in value && Array.isArray(value.draws);
}
