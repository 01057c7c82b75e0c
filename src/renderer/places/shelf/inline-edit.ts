import { type Signal, useSignal } from '@preact/signals';
import type { TargetedFocusEvent, TargetedInputEvent, TargetedKeyboardEvent } from 'preact';
import { shelfWords } from '../../../core/words/shelf-words.ts';

interface InlineEdit {
  readonly wrong: Signal<string>;
  readonly handlers: {
    readonly value: string;
    readonly onInput: (event: TargetedInputEvent<HTMLInputElement>) => void;
    readonly onBlur: (event: TargetedFocusEvent<HTMLInputElement>) => void;
    readonly onKeyDown: (event: TargetedKeyboardEvent<HTMLInputElement>) => void;
  };
}

/**
 * A field that is edited where it stands: Enter or leaving it saves, Escape takes back. What was typed stays until it
 * is saved, whatever happens meanwhile. `save` gives back what went wrong, empty where nothing did.
 */
export function useInlineEdit(value: string, save: (value: string) => Promise<string>): InlineEdit {
  const typed = useSignal<string | null>(null);
  const wrong = useSignal('');
  const takeBack = (): void => {
    typed.value = null;
    wrong.value = '';
  };
  const commit = async (input: HTMLInputElement): Promise<void> => {
    // A date typed halfway reads as empty; it must not be taken for "no date".
    if (input.validity.badInput) {
      wrong.value = shelfWords.halfDate;
      return;
    }
    const text = typed.value?.trim();
    if (text === undefined || text === value) {
      takeBack();
      return;
    }
    wrong.value = await save(text);
    if (wrong.value === '') typed.value = null;
  };
  return {
    wrong,
    handlers: {
      value: typed.value ?? value,
      onInput: (event) => {
        typed.value = event.currentTarget.value;
      },
      onBlur: (event) => void commit(event.currentTarget),
      onKeyDown: (event) => {
        if (event.key === 'Enter') void commit(event.currentTarget);
        if (event.key !== 'Escape' || typed.value === null) return;
        // The panel around it stays open.
        event.stopPropagation();
        takeBack();
      },
    },
  };
}
