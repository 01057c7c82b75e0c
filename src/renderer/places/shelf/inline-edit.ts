import { type Signal, useSignal } from '@preact/signals';
import type { TargetedFocusEvent, TargetedInputEvent, TargetedKeyboardEvent } from 'preact';
import { useRef } from 'preact/hooks';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { keepTyped, typedText } from '../../state/typed-texts.ts';

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
 * is saved, whatever happens meanwhile; `field` is the name it is kept by over a reload. `save` gives back what went wrong, empty where nothing did.
 */
export function useInlineEdit(field: string, value: string, save: (value: string) => Promise<string>): InlineEdit {
  const kept = useRef(typedText(field)).current;
  const typed = useSignal<string | null>(kept);
  const wrong = useSignal(kept === null || kept === value ? '' : shelfWords.bottle.notSavedYet);
  const type = (text: string | null): void => {
    typed.value = text;
    keepTyped(field, text);
  };
  const takeBack = (): void => {
    type(null);
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
    if (wrong.value === '') type(null);
  };
  return {
    wrong,
    handlers: {
      value: typed.value ?? value,
      onInput: (event) => {
        // A date typed halfway reads as empty: it is not kept.
        if (event.currentTarget.type === 'date') typed.value = event.currentTarget.value;
        else type(event.currentTarget.value);
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
