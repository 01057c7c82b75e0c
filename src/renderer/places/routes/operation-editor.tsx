import { useSignal } from '@preact/signals';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { materialChoices, type NameChoice } from '../../../core/route/choose-material.ts';
import { formulaChoice } from '../../../core/route/formula-question.ts';
import { toldApart } from '../../../core/route/told-apart.ts';
import type { Edited } from '../../../core/route/edited.ts';
import { withMaterial } from '../../../core/route/edit-materials.ts';
import {
  changeOperation,
  dropOperation,
  duplicateOperation,
  moveOperation,
  removeOperation,
} from '../../../core/route/edit-operations.ts';
import { CHARGE_FIELDS, HOLD_FIELDS, REMOVAL_FIELDS } from '../../../core/route/operation-fields.ts';
import type { Charge, Operation, Route, Step } from '../../../core/route/route.ts';
import { routeEditorWords } from '../../../core/words/route-editor-words.ts';
import { editedRoute, editRoute } from '../../state/route-edits.ts';
import { editedOperation, lineWanted } from '../../state/route-view.ts';
import { reference } from '../../state/workbook.ts';
import { ChargeEntry } from './charge-entry.tsx';
import { Combo } from './combo.tsx';
import { FieldList } from './field-list.tsx';

const words = routeEditorWords.operation;
const edits = routeEditorWords.edits;

interface OperationEditorProps {
  readonly operation: Operation;
  readonly step: Step;
  readonly route: Route;
}

/** Something to hold an operation by: let go over another line of the step it takes that one's place. */
export function DragHandle({ operation, step, route }: OperationEditorProps) {
  const over = useRef<HTMLElement | null>(null);
  const mark = (row: HTMLElement | null): void => {
    over.current?.removeAttribute('data-drop');
    row?.setAttribute('data-drop', '');
    over.current = row;
  };
  const name = toldApart(operation, step, route);
  return (
    <span
      class="op-handle"
      aria-hidden="true"
      title={words.drag(name)}
      onPointerDown={(event) => event.currentTarget.setPointerCapture(event.pointerId)}
      onPointerMove={(event) => {
        if (event.currentTarget.hasPointerCapture(event.pointerId)) mark(rowAt(event, step, operation));
      }}
      onPointerCancel={() => mark(null)}
      onPointerUp={() => {
        const target = over.current?.dataset['operation'];
        mark(null);
        if (target) editRoute(edits.moved(name), (now) => dropOperation(now, step.id, operation.id, target));
      }}
    />
  );
}

/** −1 or 1 where the keys mean one place up or down, else undefined. */
const byKeys = (event: KeyboardEvent): -1 | 1 | undefined =>
  event.altKey ? ({ ArrowUp: -1, ArrowDown: 1 } as const)[event.key] : undefined;

/** One place up or down. */
function moveBy({ operation, step, route }: OperationEditorProps, by: -1 | 1): Edited {
  return editRoute(edits.moved(toldApart(operation, step, route)), (now) => moveOperation(now, step.id, operation.id, by));
}

/** The line of another operation of the step under the pointer; null where there is none. */
function rowAt(event: PointerEvent, step: Step, operation: Operation): HTMLElement | null {
  const found = document.elementFromPoint(event.clientX, event.clientY)?.closest<HTMLElement>('tr.op') ?? null;
  const id = found?.dataset['operation'];
  return found?.dataset['step'] === step.id && id !== operation.id ? found : null;
}

/** Opens and closes the fields of an operation. */
export function EditButton({ operation, step, route }: OperationEditorProps) {
  const id = `${step.id}/${operation.id}`;
  const open = editedOperation.value === id;
  return (
    <button
      type="button"
      id={`edit ${id}`}
      class="text-button op-edit"
      aria-label={words.edit(toldApart(operation, step, route))}
      aria-expanded={open}
      onKeyDown={(event) => {
        const by = byKeys(event);
        if (by === undefined) return;
        event.preventDefault();
        moveBy({ operation, step, route }, by);
      }}
      onClick={() => {
        editedOperation.value = open ? null : id;
      }}
    >
      {open ? words.close : words.short}
    </button>
  );
}

/** The fields of the operation that is open, and what can be done with it; straight under its line. */
export function OperationEditor({ operation, step, route }: OperationEditorProps) {
  const refused = useSignal('');
  const row = useRef<HTMLTableRowElement>(null);
  const open = editedOperation.value === `${step.id}/${operation.id}`;
  useLayoutEffect(() => {
    const first = open ? row.current?.querySelector<HTMLElement>('input, select, textarea') : null;
    first?.focus();
    // As Tab does: what is typed replaces what stands there, "until it is entered here" too.
    if (first instanceof HTMLInputElement) first.select();
  }, [open]);
  if (!open) return null;
  const name = toldApart(operation, step, route);
  const keep = `${step.id}/${operation.id}`;
  const act = (edited: Edited): void => {
    refused.value = edited.ok ? '' : edited.problems.map((one) => one.words).join('; ');
  };
  const change = (value: Operation, field: string): Edited =>
    editRoute(edits.field(field, name), (now) => changeOperation(now, step.id, value));
  const move = (by: -1 | 1): void => act(moveBy({ operation, step, route }, by));
  return (
    <tr
      ref={row}
      class="op-editor"
      onKeyDown={(event) => {
        if (event.key === 'Escape') {
          editedOperation.value = null;
          document.getElementById(`edit ${keep}`)?.focus();
        }
        const by = byKeys(event);
        if (by === undefined) return;
        event.preventDefault();
        move(by);
      }}
    >
      <td colSpan={6}>
        <div class="entries">
          {operation.do === 'charge' && <MaterialOf key={operation.material} charge={operation} step={step} route={route} />}
          {operation.do === 'charge' && (
            <FieldList keep={keep} fields={CHARGE_FIELDS} of={operation} context={{ route }} onChange={change} />
          )}
          {operation.do === 'hold' && (
            <FieldList keep={keep} fields={HOLD_FIELDS} of={operation} context={{ route }} onChange={change} />
          )}
          {operation.do === 'removal' && (
            <FieldList keep={keep} fields={REMOVAL_FIELDS} of={operation} context={{ route }} onChange={change} />
          )}
        </div>
        <ChargeEntry step={step} route={route} after={{ id: operation.id, name }} />
        <p class="step-acts" role="group" aria-label={words.acts(name)}>
          <button type="button" class="text-button" title="Alt+↑" onClick={() => move(-1)}>
            {words.earlier}
          </button>
          <button type="button" class="text-button" title="Alt+↓" onClick={() => move(1)}>
            {words.later}
          </button>
          <button
            type="button"
            class="text-button"
            onClick={() => act(editRoute(edits.copied(name), (now) => duplicateOperation(now, step.id, operation.id)))}
          >
            {words.duplicate}
          </button>
          <button
            type="button"
            class="text-button"
            onClick={() => {
              const edited = editRoute(edits.removed(name), (now) => removeOperation(now, step.id, operation.id));
              act(edited);
              if (edited.ok) lineWanted.value = step.id;
            }}
          >
            {words.remove}
          </button>
        </p>
        {refused.value !== '' && (
          <p class="field-wrong" role="alert">
            {refused.value}
          </p>
        )}
      </td>
    </tr>
  );
}

/** Which material is charged: another can be typed by name, formula or CAS number. The basis keeps its own. */
function MaterialOf({ charge, step, route }: { readonly charge: Charge; readonly step: Step; readonly route: Route }) {
  const name = route.materials[charge.material]?.name ?? charge.material;
  const text = useSignal(name);
  const problem = useSignal<{ readonly at: number; readonly words: string } | null>(null);
  const tables = reference.value;
  if (!tables) return null;
  const take = (chosen: NameChoice | null): void => {
    if (!chosen || text.value === name) return;
    const edited = editRoute(edits.field(words.material, name), (now) => {
      const taken = withMaterial(now, chosen.choice);
      return changeOperation(taken.route, step.id, { ...charge, material: taken.key });
    });
    problem.value = edited.ok ? null : { at: 0, words: edited.problems.map((one) => one.words).join('; ') };
  };
  return (
    <Combo
      label={words.material}
      text={text.value}
      placeholder={routeEditorWords.newStep.productExample}
      choices={text.value === name ? [] : materialChoices(text.value, editedRoute() ?? route, tables)}
      problem={problem.value}
      question={text.value === name ? null : formulaChoice(text.value, editedRoute() ?? route, tables)}
      hint={(chosen) => (chosen ? `Enter: ${chosen.name}` : '')}
      onText={(typed) => {
        text.value = typed;
        problem.value = null;
      }}
      onEnter={take}
    />
  );
}
