import { useSignal } from '@preact/signals';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { factsOf } from '../../../core/matter/facts.ts';
import { addOperation } from '../../../core/route/edit-operations.ts';
import { withBasis } from '../../../core/route/edit-basis.ts';
import { balancedEquation } from '../../../core/route/balance-equation.ts';
import { changeMaterial, factsOfRoute } from '../../../core/route/edit-materials.ts';
import { changeStepOf, duplicateStep, removeStep } from '../../../core/route/edit-steps.ts';
import { equationText, readEquation, withEquation } from '../../../core/route/equation-text.ts';
import type { Route, Step } from '../../../core/route/route.ts';
import { STEP_FIELDS } from '../../../core/route/step-fields.ts';
import { STEP_MORE_FIELDS } from '../../../core/route/step-more-fields.ts';
import { routeEditWords } from '../../../core/words/route-edit-words.ts';
import { routeEditorWords } from '../../../core/words/route-editor-words.ts';
import { changeStep, editedRoute, editRoute } from '../../state/route-edits.ts';
import { editedOperation, equationWanted, formulasTaken } from '../../state/route-view.ts';
import type { Reference } from '../../../core/reference.ts';
import { reference } from '../../state/workbook.ts';
import { EntryField } from './entry-field.tsx';
import { FieldList } from './field-list.tsx';
import { FormulaField } from './structure-field.tsx';

const words = routeEditorWords.step;
const YIELD_FIELD = STEP_FIELDS.filter((field) => field.name === 'yield');
const ALL_STEP_FIELDS = [...STEP_FIELDS, ...STEP_MORE_FIELDS];
const edits = routeEditorWords.edits;

interface StepEditorProps {
  readonly step: Step;
  readonly route: Route;
}

/** Everything of a step but its operations, folded away until it is asked for. */
export function StepEditor({ step, route }: StepEditorProps) {
  const open = useSignal(false);
  const part = useRef<HTMLDetailsElement>(null);
  const wanted = equationWanted.value === step.id;
  useLayoutEffect(() => {
    if (!wanted) return;
    // What is still to be entered stands open already: the rest of the step stays folded then.
    const field = part.current?.closest('section')?.querySelector<HTMLElement>('[data-equation] input');
    if (!field && !open.peek()) {
      open.value = true;
      return;
    }
    equationWanted.value = null;
    field?.focus();
  });
  const tables = reference.value;
  return (
    <details
      ref={part}
      class="fold step-editor"
      open={open.value}
      onToggle={(event) => {
        open.value = event.currentTarget.open;
      }}
    >
      <summary>{words.edit}</summary>
      {open.value && tables && (
        <div class="entries">
          <EquationField step={step} route={route} tables={tables} />
          <EntryField
            keep={`${step.id}/basis`}
            label={words.basis}
            kind="choice"
            choices={step.equation.uses.map((term) => ({ value: term.material, words: nameIn(route, term.material) }))}
            value={step.basis}
            onCommit={(key) => {
              const based = withBasis(step, key, factsOfRoute(route, tables));
              return based.ok
                ? editRoute(edits.basis(step.title), (now) => changeStepOf(now, step.id, () => based.step))
                : { ok: false, at: 0, words: based.words };
            }}
          />
          <FieldList
            keep={step.id}
            fields={ALL_STEP_FIELDS}
            of={step}
            context={{ route, typicalHeats: tables.rows.typicalHeats }}
            onChange={(value, field) => changeStep(step.id, edits.field(field, step.title), () => value)}
          />
        </div>
      )}
    </details>
  );
}

interface EquationFieldProps extends StepEditorProps {
  readonly tables: Reference;
}

function EquationField({ step, route, tables }: EquationFieldProps) {
  return (
    <div data-equation class="entry-wide">
      <EntryField
        keep={`${step.id}/equation`}
        label={words.equation}
        placeholder={words.equationExample}
        wide
        value={equationText(step, route)}
        onCommit={(text) => {
          const read = readEquation(text, editedRoute() ?? route, tables);
          if (!read.ok) return read;
          const edited = editRoute(edits.equation(step.title), (now) => withEquation(now, step.id, read));
          if (edited.ok) sayTaken(step.id, edited.route, read.taken);
          return edited;
        }}
      />
    </div>
  );
}

function sayTaken(id: string, route: Route, taken: readonly string[]): void {
  const step = route.steps.find((one) => one.id === id);
  const said = step && taken.length > 0 ? { step: id, equation: equationText(step, route), words: taken.join(' ') } : null;
  formulasTaken.value = said;
}

/** Which materials typed formulas were taken as, as long as the equation reads so. */
export function FormulasTaken({ step, route }: StepEditorProps) {
  const taken = formulasTaken.value;
  const said = taken?.step === step.id && taken.equation === equationText(step, route) ? taken.words : null;
  return (
    <p class="small tone-accent" role="status" hidden={said === null}>
      {said}
    </p>
  );
}

/** What a step still lacks, to be entered where it is missed: formulas, an equation that balances, a yield. */
export function Unfinished({ step, route, balanced }: StepEditorProps & { readonly balanced: boolean }) {
  const tables = reference.value;
  const noYield = step.yieldSource === routeEditWords.noYield;
  if (!tables || (balanced && !noYield)) return null;
  const terms = [...step.equation.uses, ...step.equation.makes].map((term) => term.material);
  const unknown = terms.filter((key) => {
    const material = route.materials[key];
    return material !== undefined && factsOf(material, tables).formula === null;
  });
  return (
    <div class="entries unfinished" role="group" aria-label={words.unfinished(step.title)}>
      {unknown.map((key) => (
        <MissingFormula key={key} of={key} route={route} />
      ))}
      {!balanced && <EquationField step={step} route={route} tables={tables} />}
      {!balanced && <BalanceIt step={step} route={route} tables={tables} />}
      {noYield && (
        <FieldList
          keep={step.id}
          fields={YIELD_FIELD}
          of={step}
          context={{ route }}
          onChange={(value, field) => changeStep(step.id, edits.field(field, step.title), () => value)}
        />
      )}
    </div>
  );
}

/** Where only the coefficients are missing, they are offered. */
function BalanceIt({ step, route, tables }: EquationFieldProps) {
  const equation = balancedEquation(step, factsOfRoute(route, tables), tables);
  if (!equation) return null;
  return (
    <p class="entry-wide">
      <button
        type="button"
        class="text-button"
        onClick={() => changeStep(step.id, edits.equation(step.title), (now) => ({ ...now, equation }))}
      >
        {words.balance(equationText({ ...step, equation }, route))}
      </button>
    </p>
  );
}

function MissingFormula({ of, route }: { readonly of: string; readonly route: Route }) {
  const material = route.materials[of];
  if (!material) return null;
  return (
    <FormulaField
      material={material}
      label={routeEditorWords.material.formulaOf(material.name)}
      onChange={(value) => editRoute(edits.material(material.name), (now) => changeMaterial(now, of, value))}
    />
  );
}

/** What can be added to a step or done with it. */
export function StepActs({ step, route }: StepEditorProps) {
  const refused = useSignal('');
  const act = (result: { readonly ok: boolean; readonly problems?: readonly { readonly words: string }[] }): void => {
    refused.value = result.ok ? '' : (result.problems ?? []).map((one) => one.words).join('; ');
  };
  const add = (kind: 'hold' | 'removal'): void => {
    const last = step.operations.at(-1);
    const stage = last?.stage ?? 'reaction';
    const made =
      kind === 'hold' ? ({ do: 'hold', until: words.newHold } as const) : ({ do: 'removal', takes: 'liquids' } as const);
    let id: string | null = null;
    act(
      editRoute(kind === 'hold' ? edits.hold : edits.removal, (now) => {
        const added = addOperation(now, step.id, made, stage, last?.id ?? null);
        const after = added.ok ? added.route.steps.find((one) => one.id === step.id) : null;
        id = after?.operations.find((one) => !step.operations.some((old) => old.id === one.id))?.id ?? null;
        return added;
      }),
    );
    if (id !== null) editedOperation.value = `${step.id}/${id}`;
  };
  return (
    <>
      <p class="step-acts">
        <button type="button" class="text-button" onClick={() => add('hold')}>
          {words.hold}
        </button>
        <button type="button" class="text-button" onClick={() => add('removal')}>
          {words.removal}
        </button>
        <button
          type="button"
          class="text-button"
          onClick={() => act(editRoute(edits.copied(step.title), (now) => duplicateStep(now, step.id)))}
        >
          {words.duplicate}
        </button>
        <button
          type="button"
          class="text-button"
          disabled={route.steps.length === 1}
          onClick={() => act(editRoute(edits.removed(step.title), (now) => removeStep(now, step.id)))}
        >
          {words.remove}
        </button>
      </p>
      {refused.value !== '' && (
        <p class="field-wrong" role="alert">
          {refused.value}
        </p>
      )}
    </>
  );
}

function nameIn(route: Route, key: string): string {
  return route.materials[key]?.name ?? key;
}
