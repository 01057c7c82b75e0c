import type { Material } from '../../../core/matter/material.ts';
import { put, type Edited } from '../../../core/route/edited.ts';
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

type Into = { readonly ok: true; readonly material: Material } | { readonly ok: false; readonly words: string };

/** Reads the structure with the reader that is fetched only here, and holds it against the formula. */
async function readInto(material: Material, text: string): Promise<Into> {
  if (text.trim() === '') return { ok: true, material: put(material, 'smiles', undefined) };
  const [structure, agreement] = await Promise.all([
    import('../../../core/structure/structure.ts'),
    import('../../../core/structure/agreement.ts'),
  ]);
  const read = structure.readStructure(text);
  if (!read.ok) return { ok: false, words: read.words };
  const written = /[\r\n]/.test(text.trim()) ? structure.smilesOf(text) : { ok: true as const, smiles: text.trim() };
  if (!written.ok) return { ok: false, words: written.words };
  const { smiles } = written;
  const tables = reference.value;
  const known = tables && material.cas ? tables.material.get(material.cas)?.formula : undefined;
  const formula = material.formula ?? known;
  const wrong = tables && agreement.structureProblem(smiles, formula, tables);
  if (wrong) return { ok: false, words: wrong.words };
  return { ok: true, material: { ...material, smiles, ...(formula === undefined ? { formula: read.formula } : {}) } };
}
