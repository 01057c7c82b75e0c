import type { ComponentChildren } from 'preact';
import type { StepPlan } from '../../../core/plan/result.ts';
import { toldApart } from '../../../core/route/told-apart.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { routeEditorWords } from '../../../core/words/route-editor-words.ts';
import { editedHere, toggleEditing } from '../../state/step-editing.ts';
import { reference } from '../../state/workbook.ts';
import { ChargeEntry } from '../routes/charge-entry.tsx';
import { DragHandle, EditButton, OperationEditor } from '../routes/operation-editor.tsx';
import { RatioCell } from '../routes/print-cells.tsx';
import { factsByKey } from '../routes/route-facts.ts';
import { SaveTrouble } from '../routes/route-head.tsx';
import { StepActs, StepEditor } from '../routes/step-editor.tsx';

/** The step's operations are edited on its card: the same fields as in Routes, kept as the route's next revision. */
export function EditStep({ step }: { readonly step: StepPlan }) {
  if (!step.active) return null;
  const editing = editedHere.value !== null;
  return (
    <button
      type="button"
      class="text-button step-leave-out"
      aria-pressed={editing}
      title="Alt+E"
      onClick={() => void toggleEditing()}
    >
      {editing ? planWords.step.editDone : planWords.step.edit}
    </button>
  );
}

/** The operation of the route that is edited here; null where none is. */
function editedOperationOf(id: string) {
  const edited = editedHere.value;
  const operation = edited?.step.operations.find((one) => one.id === id);
  return edited && operation ? { ...edited, operation } : null;
}

/** A handle to drag an operation by, and what opens its fields; under the name of its stage. */
export function RowActs({ operation }: { readonly operation: string }) {
  const edited = editedOperationOf(operation);
  if (!edited) return null;
  return (
    <span class="op-acts">
      <DragHandle {...edited} />
      <EditButton {...edited} />
    </span>
  );
}

/** The fields of an operation, straight under its row. */
export function EditorHere({ operation }: { readonly operation: string }) {
  const edited = editedOperationOf(operation);
  return edited && <OperationEditor {...edited} />;
}

/** The rule of a charge as a field while its step is edited. */
export function RatioHere({ operation, children }: { readonly operation: string; readonly children: ComponentChildren }) {
  const edited = editedOperationOf(operation);
  const tables = reference.value;
  if (!edited || !tables || edited.operation.do !== 'charge') return <>{children}</>;
  const { operation: charge, route, step } = edited;
  const name = toldApart(charge, step, route);
  return <RatioCell charge={charge} step={step} known={{ facts: factsByKey(route, tables), reference: tables }} name={name} />;
}

/** Under the operations: the next charge, a hold or a removal, and the rest of the step. */
export function StepEditFoot() {
  const edited = editedHere.value;
  if (!edited) return null;
  return (
    <section class="step-edit" aria-label={routeEditorWords.step.here(edited.step.title)}>
      <SaveTrouble />
      <ChargeEntry {...edited} />
      <StepActs {...edited} />
      <StepEditor {...edited} />
    </section>
  );
}
