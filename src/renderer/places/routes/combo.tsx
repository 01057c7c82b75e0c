import { useSignal } from '@preact/signals';
import type { Ref } from 'preact';
import { useId, useLayoutEffect, useRef } from 'preact/hooks';
import type { NameChoice } from '../../../core/route/choose-material.ts';
import { routeEditorWords } from '../../../core/words/route-editor-words.ts';
import { prettyFormula } from '../../../core/matter/formula.ts';

const words = routeEditorWords.line;

interface ComboProps {
  readonly label: string;
  readonly text: string;
  readonly placeholder: string;
  /** Materials the text may mean; the first is what Enter takes. */
  readonly choices: readonly NameChoice[];
  readonly problem: { readonly at: number; readonly words: string } | null;
  /** What is asked where the text may mean several materials alike: then Enter takes none before one is chosen. */
  readonly question?: string | null;
  /** One of them was chosen by hand. */
  readonly onPick?: (chosen: NameChoice) => void;
  /** What Enter would do now, or how the line is typed. */
  readonly hint: (chosen: NameChoice | null) => string;
  readonly onText: (text: string) => void;
  readonly onEnter: (chosen: NameChoice | null) => void;
  readonly field?: Ref<HTMLInputElement>;
}

/** A line that completes the name of a material: arrow keys choose another, Enter takes it. */
export function Combo({
  label,
  text,
  placeholder,
  choices,
  problem: refused,
  question = null,
  onPick,
  hint,
  onText,
  onEnter,
  field = null,
}: ComboProps) {
  const id = useId();
  const picked = useSignal(false);
  const asked = useSignal(false);
  const at = useSignal(0);
  const open = useSignal(false);
  const list = useRef<HTMLUListElement>(null);
  const shown = open.value ? choices : [];
  const unsettled = question !== null && !picked.value;
  const chosen = unsettled ? null : (choices[Math.min(at.value, choices.length - 1)] ?? null);
  const problem = unsettled && asked.value ? { at: 0, words: question } : refused;
  const pick = (index: number): void => {
    const one = choices[index];
    at.value = index;
    picked.value = true;
    if (one) onPick?.(one);
  };
  // What Enter would take is never below the edge of the window.
  useLayoutEffect(() => {
    if (shown.length > 0) list.current?.scrollIntoView({ block: 'nearest' });
  }, [shown.length]);
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Enter') {
      event.preventDefault();
      if (unsettled) {
        // The list would lie over what is asked, which names them all.
        asked.value = true;
        open.value = false;
        return;
      }
      open.value = false;
      onEnter(chosen);
      at.value = 0;
      picked.value = false;
      return;
    }
    if (event.key === 'Escape' && open.value) {
      event.stopPropagation();
      open.value = false;
      return;
    }
    const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (by === undefined || event.altKey || choices.length === 0) return;
    event.preventDefault();
    pick(open.value && !unsettled ? Math.max(0, Math.min(choices.length - 1, at.value + by)) : 0);
    open.value = true;
  };
  return (
    <div class={`combo${problem ? ' field-bad' : ''}`}>
      <label class="field-label" for={id}>
        {label}
      </label>
      <input
        ref={field}
        id={id}
        class="field-input"
        type="text"
        role="combobox"
        aria-expanded={shown.length > 0}
        aria-controls={`${id}-list`}
        aria-autocomplete="list"
        aria-activedescendant={shown.length > 0 && chosen ? `${id}-${choices.indexOf(chosen)}` : undefined}
        aria-invalid={problem !== null}
        aria-describedby={`${id}-hint`}
        autocomplete="off"
        spellcheck={false}
        placeholder={placeholder}
        data-undo={text === '' ? 'route' : undefined}
        value={text}
        onInput={(event) => {
          open.value = true;
          at.value = 0;
          picked.value = false;
          asked.value = false;
          onText(event.currentTarget.value);
        }}
        onKeyDown={onKeyDown}
        onBlur={() => {
          open.value = false;
        }}
      />
      <ul
        ref={list}
        id={`${id}-list`}
        role="listbox"
        aria-label={words.found}
        class="choice-list combo-list"
        hidden={shown.length === 0}
      >
        {shown.map((one, index) => (
          <li
            key={`${one.from} ${one.name} ${one.cas}`}
            id={`${id}-${index}`}
            role="option"
            aria-selected={one === chosen}
            // The field keeps the focus, so that the list is still open when the click arrives.
            onMouseDown={(event) => event.preventDefault()}
            onClick={() => {
              pick(index);
              open.value = false;
            }}
          >
            <b>{one.name}</b>
            <span class="soft">{foundWords(one)}</span>
          </li>
        ))}
      </ul>
      <span id={`${id}-hint`} class={problem ? 'field-wrong' : 'combo-hint'} role={problem ? 'alert' : undefined}>
        {problem ? <Wrong text={text} problem={problem} /> : unsettled ? question : hint(text.trim() === '' ? null : chosen)}
      </span>
    </div>
  );
}

function foundWords(one: NameChoice): string {
  return [one.formula ? prettyFormula(one.formula) : '', one.cas ?? '', words.from[one.from]]
    .filter((part) => part !== '')
    .join(' · ');
}

/** The text from the wrong character on, and what is expected there. */
export function Wrong({
  text,
  problem,
}: {
  readonly text: string;
  readonly problem: { readonly at: number; readonly words: string };
}) {
  const at = Math.max(0, Math.min(problem.at, text.length));
  return (
    <>
      {text.trim() !== '' && at > 0 && (
        <span class="field-problem-text" aria-hidden="true">
          {text.slice(0, at)}
          <mark>{text.slice(at) || '\u00a0'}</mark>{' '}
        </span>
      )}
      {problem.words}
    </>
  );
}
