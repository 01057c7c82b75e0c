import { useSignal } from '@preact/signals';
import { useId } from 'preact/hooks';
import { readPack } from '../../../core/buy/pack-text.ts';
import { sameMaterial } from '../../../core/matter/facts.ts';
import type { Form } from '../../../core/matter/form.ts';
import type { Material } from '../../../core/matter/material.ts';
import type { PackRow } from '../../../core/port/buy.ts';
import { shoppingWords as words } from '../../../core/words/shopping-words.ts';
import { FieldProblem } from '../../parts/field-problem.tsx';
import { packFacts, packSize } from './buy-amounts.ts';
import { addPack, packRows, removePack } from './buy-store.ts';

interface KnownPacksProps {
  readonly material: Material;
  readonly name: string;
  /** The form of a pack that names none; null where it has to be named. */
  readonly usual: Form | null;
}

/** The packs of a material on the price list, each to be taken off, and one more to be put there. */
export function KnownPacks(props: KnownPacksProps) {
  const rows = packRows.value.filter((row) => sameMaterial(row.material, props.material));
  return (
    <>
      {rows.length > 0 && <PackRows rows={rows} />}
      <AddPack {...props} />
    </>
  );
}

function PackRows({ rows }: { readonly rows: readonly PackRow[] }) {
  return (
    <ul class="buy-known">
      {rows.map((row) => (
        <li key={row.id}>
          {packSize(row.pack)} <span class="soft small">{packFacts(row.pack, true)}</span>{' '}
          <button
            type="button"
            class="text-button small"
            aria-label={words.remove(`${packSize(row.pack)} ${packFacts(row.pack, true)}`)}
            onClick={() => void removePack(row)}
          >
            ×
          </button>
        </li>
      ))}
    </ul>
  );
}

function AddPack({ material, name, usual }: KnownPacksProps) {
  const id = useId();
  const text = useSignal('');
  const tried = useSignal(false);
  const read = readPack(text.value, usual);
  const problem = tried.value && text.value.trim() !== '' && !read.ok ? read : null;
  const add = async (): Promise<void> => {
    tried.value = true;
    // What is wrong shows at the field while it has the focus.
    if (!read.ok) document.getElementById(id)?.focus();
    // What was typed goes only when it is on the list.
    if (read.ok && (await addPack(material, read.value))) {
      text.value = '';
      tried.value = false;
    }
  };
  return (
    <form
      class="buy-add"
      onSubmit={(event) => {
        event.preventDefault();
        void add();
      }}
    >
      <span class="buy-add-field">
        <input
          id={id}
          type="text"
          class="plain-input"
          aria-label={words.add.label(name)}
          aria-invalid={problem !== null}
          aria-describedby={problem ? `${id}-problem` : undefined}
          placeholder={words.add.hint}
          autocomplete="off"
          spellcheck={false}
          value={text.value}
          onInput={(event) => {
            text.value = event.currentTarget.value;
          }}
        />
        {problem && <FieldProblem id={`${id}-problem`} text={text.value} problem={problem} />}
      </span>
      <button type="submit" class="button">
        {words.add.button}
      </button>
    </form>
  );
}
