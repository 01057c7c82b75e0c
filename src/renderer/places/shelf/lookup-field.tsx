import { useSignal } from '@preact/signals';
import { useId } from 'preact/hooks';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { reference } from '../../state/workbook.ts';
import { smallDigits } from './formula-text.ts';
import { findMaterials, type Found } from '../../../core/matter/find-material.ts';

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
    const act = lookupAct(event.key, open.value);
    if (!act) return;
    event.preventDefault();
    event.stopPropagation();
    if (act === 'choose') choose(found[at.value]);
    else if (act === 'open' || act === 'close') open.value = act === 'open';
    else at.value = Math.max(0, Math.min(found.length - 1, at.value + act));
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
      <FoundList id={id} found={found} at={at.value} onChoose={choose} />
      <span class="field-from" role="status">
        {open.value && value.trim().length > 2 && found.length === 0 ? words.lookupNone : words.lookupHint}
      </span>
    </div>
  );
}

/** What a key does in the field: one line down or up, choose, open or close the list; null where it is typing. */
function lookupAct(key: string, open: boolean): 'choose' | 'open' | 'close' | 1 | -1 | null {
  if (key === 'ArrowDown') return open ? 1 : 'open';
  if (key === 'ArrowUp') return open ? -1 : null;
  if (key === 'Enter') return 'choose';
  return key === 'Escape' && open ? 'close' : null;
}

interface FoundListProps {
  readonly id: string;
  readonly found: readonly Found[];
  readonly at: number;
  readonly onChoose: (found: Found) => void;
}

function FoundList({ id, found, at, onChoose }: FoundListProps) {
  return (
    <ul id={`${id}-list`} role="listbox" aria-label={words.lookup} class="choice-list lookup-list" hidden={found.length === 0}>
      {found.map((one, index) => (
        <li
          key={one.row.cas}
          id={`${id}-${index}`}
          role="option"
          aria-selected={index === at}
          // The field keeps the focus, so that the list is still open when the click arrives.
          onMouseDown={(event) => event.preventDefault()}
          onClick={() => onChoose(one)}
        >
          <b>{one.row.name}</b>
          <span class="soft">{foundWords(one)}</span>
        </li>
      ))}
    </ul>
  );
}

function foundWords({ row, synonym }: Found): string {
  const also = synonym === '' ? '' : words.alsoCalled(synonym);
  return [smallDigits(row.formula), row.cas, also].filter((part) => part !== '').join(' · ');
}
