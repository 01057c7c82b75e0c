import { useSignal } from '@preact/signals';
import { useLayoutEffect } from 'preact/hooks';
import { factsOf } from '../../../core/matter/facts.ts';
import { prettyFormula } from '../../../core/matter/formula.ts';
import type { Material } from '../../../core/matter/material.ts';
import { changeMaterial, removeMaterial, unnamedMaterials } from '../../../core/route/edit-materials.ts';
import { MATERIAL_FIELDS, type MaterialField } from '../../../core/route/material-fields.ts';
import type { Route } from '../../../core/route/route.ts';
import { routeEditorWords } from '../../../core/words/route-editor-words.ts';
import { Amount } from '../../parts/amount.tsx';
import { Structure } from '../../parts/structure.tsx';
import { editRoute } from '../../state/route-edits.ts';
import { materialWanted } from '../../state/route-view.ts';
import { reference } from '../../state/workbook.ts';
import { EntryField } from './entry-field.tsx';
import { StructureField } from './structure-field.tsx';

const words = routeEditorWords.material;

/** The materials a route names; what the built-in table does not know, or the person knows better, is entered here. */
export function MaterialsEditor({ route }: { readonly route: Route }) {
  const open = useSignal(false);
  const edited = useSignal<string | null>(null);
  const wanted = materialWanted.value;
  useLayoutEffect(() => {
    if (wanted === null || !(wanted in route.materials)) return;
    if (!open.peek() || edited.peek() !== wanted) {
      open.value = true;
      edited.value = wanted;
      return;
    }
    materialWanted.value = null;
    document.querySelector<HTMLElement>(`[name="${CSS.escape(`material ${wanted}/formula`)}"]`)?.focus();
  });
  const unnamed = open.value ? unnamedMaterials(route) : [];
  return (
    <details
      class="fold materials-editor"
      open={open.value}
      onToggle={(event) => {
        open.value = event.currentTarget.open;
      }}
    >
      <summary>{words.count(Object.keys(route.materials).length)}</summary>
      {open.value && (
        <ul class="material-list">
          {Object.entries(route.materials).map(([key, material]) => (
            <li key={key}>
              <MaterialLine material={material} unnamed={unnamed.includes(key)} />
              <button
                type="button"
                class="text-button"
                aria-label={words.edit(material.name)}
                aria-expanded={edited.value === key}
                onClick={() => {
                  edited.value = edited.value === key ? null : key;
                }}
              >
                {edited.value === key ? routeEditorWords.operation.close : routeEditorWords.operation.short}
              </button>
              {unnamed.includes(key) && (
                <button
                  type="button"
                  class="text-button"
                  aria-label={words.remove(material.name)}
                  onClick={() => editRoute(routeEditorWords.edits.removed(material.name), (now) => removeMaterial(now, key))}
                >
                  {routeEditorWords.operation.remove}
                </button>
              )}
              {edited.value === key && <MaterialFields id={key} material={material} />}
            </li>
          ))}
        </ul>
      )}
    </details>
  );
}

function MaterialLine({ material, unnamed }: { readonly material: Material; readonly unnamed: boolean }) {
  if (!reference.value) return null;
  const facts = factsOf(material, reference.value);
  const row = material.cas ? reference.value.material.get(material.cas) : undefined;
  return (
    <span>
      <b>{material.name}</b>{' '}
      <span class="soft">
        {facts.formula ? `${prettyFormula(facts.formula)} · ` : ''}
        {facts.molarMass ? <Amount figure={facts.molarMass} /> : <span class="tone-accent">{words.noFormula}</span>}
        {material.cas ? ` · ${material.cas}` : ''} · {row ? words.table : words.own}
        {unnamed ? ` · ${words.unnamed}` : ''}
      </span>
    </span>
  );
}

function choicesOf(field: MaterialField): readonly { readonly value: string; readonly words: string }[] {
  if (field.kind !== 'choice') return [];
  const said = field.name === 'utility' ? words.utilities : words.states;
  return Object.entries(said).map(([value, one]) => ({ value, words: one }));
}

function MaterialFields({ id, material }: { readonly id: string; readonly material: Material }) {
  const change = (value: Material) =>
    editRoute(routeEditorWords.edits.material(material.name), (now) => changeMaterial(now, id, value));
  const facts = reference.value ? factsOf(material, reference.value) : null;
  return (
    <div class="entries">
      {MATERIAL_FIELDS.map((field) => (
        <EntryField
          key={field.name}
          keep={`material ${id}/${field.name}`}
          label={words.fields[field.name]}
          kind={field.kind}
          choices={choicesOf(field)}
          value={field.read(material)}
          onCommit={(text) => {
            const written = field.write(material, text);
            return written.ok ? change(written.value) : written;
          }}
        />
      ))}
      <StructureField material={material} onChange={change} />
      {facts?.smiles && <Structure smiles={facts.smiles} label={words.drawing(material.name)} />}
    </div>
  );
}
