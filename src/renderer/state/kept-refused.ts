import { keepInWindow, type WindowStore } from './kept-in-window.ts';
import { type RefusedText, refusedTexts } from './refused-texts.ts';

/** Keeps texts that were refused over a reload of the window; what they come after can no longer be undone. */
export function keepRefusedIn(store: WindowStore): () => void {
  return keepInWindow(store, 'backweigh refused', refusedTexts, (kept) =>
    Array.isArray(kept) && kept.every(isRefused) ? kept.map((one) => ({ ...one, after: 0 })) : null,
  );
}

function isRefused(value: unknown): value is RefusedText {
  if (value === null || typeof value !== 'object' || !('plan' in value && 'field' in value && 'text' in value)) return false;
  const { plan, field, text } = value;
  if (typeof plan !== 'number' || typeof text !== 'string' || field === null || typeof field !== 'object') return false;
  return ('draw' in field && typeof field.draw === 'string') || ('step' in field && typeof field.step === 'string');
}
