import { shelfWords } from '../../../core/words/shelf-words.ts';
import { closePanel } from './shelf-store.ts';

/** Closes what stands beside the list. */
export function CloseButton() {
  return (
    <button type="button" class="text-button" onClick={closePanel}>
      {shelfWords.close}
    </button>
  );
}
