import { effect } from '@preact/signals';
import type { Ask } from '../../core/plan/ask.ts';
import { draft, type KeptDraft, saveState, sending, setKeptDraft } from './plan-store.ts';
import { openPlan } from './plan-route.ts';

type Store = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;
const key = (plan: number): string => `backweigh draft ${plan}`;

/**
 * Keeps what is typed and not saved yet in the window's own storage, so that a reload after a crash finds it again,
 * with the state of the plan it was typed after.
 */
export function keepDraftsIn(store: Store): () => void {
  setKeptDraft((plan) => readKept(store.getItem(key(plan))));
  return effect(() => {
    const plan = openPlan.value;
    const ask = draft.value;
    if (!plan || !ask) return;
    if (saveState.value === 'saved') store.removeItem(key(plan.id));
    else store.setItem(key(plan.id), JSON.stringify({ after: plan.state, ask, sent: sending.value }));
  });
}

function readKept(text: string | null): KeptDraft | null {
  if (text === null) return null;
  try {
    const kept: unknown = JSON.parse(text);
    if (kept === null || typeof kept !== 'object' || !('after' in kept) || !('ask' in kept)) return null;
    const { after, ask } = kept;
    const sent = 'sent' in kept && isAsk(kept.sent) ? kept.sent : null;
    return typeof after === 'number' && after >= 0 && isAsk(ask) ? { after, ask, sent } : null;
  } catch {
    return null;
  }
}

/** Only this window writes there; main checks the ask in full when it is saved. */
function isAsk(value: unknown): value is Ask {
  return value !== null && typeof value === 'object' && 'name' in value && 'draws' in value && Array.isArray(value.draws);
}
