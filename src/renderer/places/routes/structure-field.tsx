import type { Material } from '../../../core/matter/material.ts';
import type { Edited } from '../../../core/route/edited.ts';
import type { Drawn } from '../../../core/structure/formula-or-structure.ts';
import { routeEditorWords } from '../../../core/words/route-editor-words.ts';
import { useSignal } from '@preact/signals';
import { useId } from 'preact/hooks';
import { reference } from '../../state/workbook.ts';

const words = routeEditorWords.material;

interface StructureFieldProps {
  readonly material: Material;
  readonly onChange: (material: Material) => Edited;
}

/** A pasted SMILES or molfile, kept as SMILES; a material without a formula takes that of its structure. */
export function StructureField({ material, onChange }: StructureFieldProps) {
  const id = useId();
  const typed = useSignal<string | null>(null);
  const problem = useSignal('');
  const commit = async (): Promise<void> => {
    const text = typed.value;
    if (text === null || text === (material.smiles ?? '')) {
      typed.value = null;
      return;
    }
    const read = await readInto(material, text);
    if (typed.value !== text) return;
    const edited = read.ok ? onChange(read.material) : read;
    problem.value = edited.ok ? '' : 'words' in edited ? edited.words : edited.problems.map((one) => one.words).join('; ');
    if (edited.ok) typed.value = null;
  };
  return (
    <p class={`entry entry-wide${problem.value === '' ? '' : ' field-bad'}`}>
      <label class="field-label" for={id}>
        {words.smiles}
      </label>
      <textarea
        id={id}
        class="field-input"
        rows={2}
        spellcheck={false}
        placeholder={words.smilesExample}
        aria-invalid={problem.value !== ''}
        aria-describedby={problem.value === '' ? undefined : `${id}-problem`}
        data-undo={typed.value === null ? 'route' : undefined}
        value={typed.value ?? material.smiles ?? ''}
        onInput={(event) => {
          typed.value = event.currentTarget.value;
          problem.value = '';
        }}
        onBlur={() => void commit()}
        onKeyDown={(event) => {
          if (event.key === 'Enter' && !/\n/.test(typed.value ?? '')) {
            event.preventDefault();
            void commit();
          }
        }}
      />
      {problem.value !== '' && (
        <span id={`${id}-problem`} class="field-wrong" role="alert">
          {problem.value}
        </span>
      )}
    </p>
  );
}

/** The reader of structures is large: it is fetched only where one is pasted. */
async function readInto(material: Material, text: string): Promise<Drawn> {
  const tables = reference.value;
  if (!tables) return { ok: false, words: words.noTables };
  const { withStructure } = await import('../../../core/structure/formula-or-structure.ts');
  const known = material.cas ? tables.material.get(material.cas)?.formula : undefined;
  return withStructure(material, text, known, tables);
}

interface FormulaFieldProps extends StructureFieldProps {
  readonly label: string;
}

/** The formula of a material that has none, typed as a formula or as SMILES. */
export function FormulaField({ material, label, onChange }: FormulaFieldProps) {
  const id = useId();
  const typed = useSignal('');
  const problem = useSignal('');
  const commit = async (): Promise<void> => {
    const text = typed.value;
    const tables = reference.value;
    if (text.trim() === '' || !tables) return;
    const { withFormulaOrStructure } = await import('../../../core/structure/formula-or-structure.ts');
    const read = withFormulaOrStructure(material, text, tables);
    const edited = read.ok ? onChange(read.material) : read;
    problem.value = edited.ok ? '' : 'words' in edited ? edited.words : edited.problems.map((one) => one.words).join('; ');
  };
  return (
    <p class={`entry${problem.value === '' ? '' : ' field-bad'}`}>
      <label class="field-label" for={id}>
        {label}
      </label>
      <input
        id={id}
        type="text"
        class="field-input"
        autocomplete="off"
        spellcheck={false}
        placeholder={words.formulaExample}
        aria-invalid={problem.value !== ''}
        aria-describedby={problem.value === '' ? undefined : `${id}-problem`}
        data-undo={typed.value === '' ? 'route' : undefined}
        value={typed.value}
        onInput={(event) => {
          typed.value = event.currentTarget.value;
          problem.value = '';
        }}
        onBlur={() => void commit()}
        onKeyDown={(event) => {
          if (event.key === 'Enter') void commit();
        }}
      />
      {problem.value !== '' && (
        <span id={`${id}-problem`} class="field-wrong" role="alert">
          {problem.value}
        </span>
      )}
    </p>
  );
}
