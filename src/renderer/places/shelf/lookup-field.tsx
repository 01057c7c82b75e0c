import { useSignal } from '@preact/signals';
import { useEffect, useId } from 'preact/hooks';
import { meantByFormula } from '../../../core/route/formula-question.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { foldForSearch } from '../../../core/matter/fold-name.ts';
import { findInRoutes } from '../../../core/shelf/find/route-names.ts';
import type { RouteMaterial } from '../../../core/shelf/import/route-materials.ts';
import { ownMaterials, readOwnMaterials } from '../../state/route-materials.ts';
import { reference } from '../../state/workbook.ts';
import { smallDigits } from './formula-text.ts';
import { findMaterials, type Found } from '../../../core/matter/find-material.ts';

const words = shelfWords.new;

interface LookupFieldProps {
  readonly value: string;
  readonly onInput: (text: string) => void;
  readonly onChoose: (found: Offered) => void;
  /** What was typed is left as nobody knows it. */
  readonly onUnknown: (text: string) => void;
}

/** A line of the list: of the built-in table, or of one of the person's own routes. */
type Offered = Found | RouteMaterial;

/** One field that finds a material of the built-in table, or of a route, by name, other name, formula or CAS number. */
export function LookupField({ value, onInput, onChoose, onUnknown }: LookupFieldProps) {
  useEffect(() => void readOwnMaterials(), []);
  const id = useId();
  // Below 0 no line is chosen yet: isomers share a formula, and Enter never takes the first of them.
  const at = useSignal(0);
  const open = useSignal(false);
  const found = open.value ? offered(value) : [];
  const choose = (one: Offered | undefined): void => {
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
          const typed = event.currentTarget.value;
          open.value = true;
          at.value = sharing(typed) > 1 ? -1 : 0;
          onInput(typed);
        }}
        onKeyDown={onKeyDown}
        onBlur={() => {
          if (open.value && found.every((one) => 'row' in one && one.nearly)) onUnknown(value);
          open.value = false;
        }}
      />
      <FoundList id={id} found={found} at={at.value} onChoose={choose} />
      <span class="field-from" role="status">
        {statusWords(value, open.value, found.length)}
      </span>
    </div>
  );
}

/** What a route calls exactly so comes first, for Enter takes the first; then the table's, then what else the routes know. */
function offered(typed: string): readonly Offered[] {
  if (!reference.value) return [];
  const own = findInRoutes(typed, ownMaterials.value);
  const meant = own.filter(({ material }) => foldForSearch(material.name) === foldForSearch(typed));
  return [...meant, ...findMaterials(typed, reference.value), ...own.filter((one) => !meant.includes(one))];
}

/** How many materials of the table a bare formula may mean; 0 for a name. */
function sharing(typed: string): number {
  return reference.value ? meantByFormula(typed, null, reference.value).length : 0;
}

function statusWords(value: string, open: boolean, found: number): string {
  const count = open ? sharing(value) : 0;
  if (count > 1) return words.lookupShared(value.trim(), count);
  return open && value.trim().length > 2 && found === 0 ? words.lookupNone : words.lookupHint;
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
  readonly found: readonly Offered[];
  readonly at: number;
  readonly onChoose: (found: Offered) => void;
}

function FoundList({ id, found, at, onChoose }: FoundListProps) {
  return (
    <ul id={`${id}-list`} role="listbox" aria-label={words.lookup} class="choice-list lookup-list" hidden={found.length === 0}>
      {found.map((one, index) => (
        <li
          key={'row' in one ? one.row.cas : `${one.material.name}/${one.material.cas ?? ''}`}
          id={`${id}-${index}`}
          role="option"
          aria-selected={index === at}
          // The field keeps the focus, so that the list is still open when the click arrives.
          onMouseDown={(event) => event.preventDefault()}
          onClick={() => onChoose(one)}
        >
          <b>{'row' in one ? one.row.name : one.material.name}</b>
          <span class="soft">{foundWords(one)}</span>
        </li>
      ))}
    </ul>
  );
}

function foundWords(one: Offered): string {
  if (!('row' in one)) {
    const { formula = '', cas = '' } = one.material;
    return [smallDigits(formula), cas, words.fromRoute(one.route)].filter((part) => part !== '').join(' · ');
  }
  const { row, synonym } = one;
  const also = synonym === '' ? '' : words.alsoCalled(synonym);
  return [smallDigits(row.formula), row.cas, also].filter((part) => part !== '').join(' · ');
}
