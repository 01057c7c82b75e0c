import { keepInWindow, textsIn, type WindowStore } from '../../state/kept-in-window.ts';
import { typedTexts } from '../../state/typed-texts.ts';
import { isSolutionDraft, solutionDraft } from './make-solution-draft.ts';
import { type Draft, EMPTY_DRAFT, type Filled, newBottle } from './new-bottle-draft.ts';
import { type Panel, panel } from './shelf-store.ts';

/** Keeps what is being typed on the Shelf, and what stands beside the list, over a reload of the window. */
export function keepShelfIn(store: WindowStore): () => void {
  const ends = [
    keepInWindow(store, 'backweigh new bottle', newBottle, readNewBottle),
    keepInWindow(store, 'backweigh solution', solutionDraft, (kept) => (isSolutionDraft(kept) ? kept : null)),
    keepInWindow(store, 'backweigh typed', typedTexts, textsIn),
    keepInWindow(store, 'backweigh panel', panel, readPanel),
  ];
  return () => ends.forEach((end) => end());
}

function readNewBottle(kept: unknown): typeof newBottle.value | null {
  if (kept === null || typeof kept !== 'object' || !('draft' in kept && 'filled' in kept)) return null;
  const draft = textsIn(kept.draft);
  const filled = textsIn(kept.filled);
  if (!draft || !filled) return null;
  return isDraft(draft) ? { draft, filled: filled satisfies Filled } : null;
}

const STATES = new Set(['', 'solid', 'liquid', 'gas']);
const KINDS = new Set(['neat', 'solution', 'unknown']);

function isDraft(texts: object): texts is Draft {
  const whole = Object.keys(EMPTY_DRAFT).every((field) => field in texts);
  if (!whole || !('state' in texts && 'kind' in texts)) return false;
  return STATES.has(String(texts.state)) && KINDS.has(String(texts.kind));
}

function readPanel(kept: unknown): Panel | null {
  const { show, id } = textsIn(kept) ?? {};
  if (show === 'bottle' && id !== undefined) return { show, id };
  if (show === 'solution') return solutionDraft.peek() ? { show } : null;
  return show === 'new' ? { show } : null;
}
