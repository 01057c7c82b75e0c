import { useSignal } from '@preact/signals';
import { useId } from 'preact/hooks';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { reference } from '../../state/workbook.ts';
import { smallDigits } from './formula-text.ts';
import { findMaterials, type Found } from './material-lookup.ts';

const words = shelfWords.new;

interface LookupFieldProps {
  readonly value: string;
  readonly onInput: (text: string) => void;
  readonly onChoose: (found: Found) => void;
}

/** One field that finds a material of the built-in table by name, other name, formula or CAS number. */
export function LookupField({ value, onInput, onChoose }: LookupFieldProps) {
  const id = useId();
  const at = useSignal(0);
  const open = useSignal(false);
  const found = open.value && reference.value ? findMaterials(value, reference.value) : [];
  const choose = (one: Found | undefined): void => {
    if (!one) return;
    open.value = false;
    onChoose(one);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const acts: Readonly<Record<string, () => void>> = {
      ArrowDown: () => {
        if (open.value) at.value = Math.min(found.length - 1, at.value + 1);
        else open.value = true;
      },
      ArrowUp: () => {
        at.value = Math.max(0, at.value - 1);
      },
      Enter: () => choose(found[at.value]),
      Escape: () => {
        open.value = false;
      },
    };
    const act = acts[event.key];
    if (!act || (event.key === 'Escape' && !open.value)) return;
    event.preventDefault();
    event.stopPropagation();
    act();
  };
  return (
    <div class="field field-wide lookup">
      <label class="field-label" for={id}>
        {words.lookup}
      </label>
      <input
        id={id}
        class="field-input"
        type="text"
        role="combobox"
        aria-expanded={found.length > 0}
        aria-controls={`${id}-list`}
        aria-autocomplete="list"
        aria-activedescendant={found[at.value] ? `${id}-${at.value}` : undefined}
        autocomplete="off"
        spellcheck={false}
        value={value}
        onInput={(event) => {
          open.value = true;
          at.value = 0;
          onInput(event.currentTarget.value);
        }}
        onKeyDown={onKeyDown}
        onBlur={() => {
          open.value = false;
        }}
      />
      <ul id={`${id}-list`} role="listbox" aria-label={words.lookup} class="lookup-list" hidden={found.length === 0}>
        {found.map((one, index) => (
          <li
            key={one.row.cas}
            id={`${id}-${index}`}
            role="option"
            aria-selected={index === at.value}
            // The field keeps the focus, so that the list is still open when the click arrives.
            onMouseDown={(event) => event.preventDefault()}
            onClick={() => choose(one)}
          >
            <b>{one.row.name}</b>
            <span class="soft">
              {[smallDigits(one.row.formula), one.row.cas, one.synonym === '' ? '' : words.alsoCalled(one.synonym)]
                .filter(Boolean)
                .join(' · ')}
            </span>
          </li>
        ))}
      </ul>
      <span class="field-from" role="status">
        {open.value && value.trim().length > 2 && found.length === 0 ? words.lookupNone : words.lookupHint}
      </span>
    </div>
  );
}
