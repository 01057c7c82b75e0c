import { keepsText } from '../../../core/route/keeps.ts';
import type { ComponentChildren } from 'preact';
import type { Known } from '../../../core/procedure/printed-amount.ts';
import { type PublishedStep, publishedStep } from '../../../core/procedure/published.ts';
import type { Charge, Hold, Operation, Removal, Route, Step } from '../../../core/route/route.ts';
import { toldApart } from '../../../core/route/told-apart.ts';
import { formWords } from '../../../core/words/form-words.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { routeEditorWords } from '../../../core/words/route-editor-words.ts';
import { routesWords } from '../../../core/words/routes-words.ts';
import { FormWords } from '../../parts/form-words.tsx';
import { NoticeMark } from '../../parts/notices.tsx';
import { ownWarnings } from '../../parts/own-warnings.ts';
import { DragHandle, EditButton, OperationEditor } from './operation-editor.tsx';
import { PrintCell, PrintFlags, RatioCell } from './print-cells.tsx';
import { windowWords } from '../../parts/window-words.ts';

const words = planWords.step;

interface StepOperationsProps {
  readonly step: Step;
  readonly route: Route;
  /** Facts and tables; null until they are read. */
  readonly known: Known | null;
}

/** A step's operations in order, as published and beside it as ratios, amounts as ratios to the basis: what a plan scales. */
export function StepOperations({ step, route, known }: StepOperationsProps) {
  const { heads } = routesWords;
  const published = known && publishedStep(step, known);
  return (
    <table class="operations">
      <thead>
        <tr>
          <th scope="col">{heads.stage}</th>
          <th scope="col">{heads.operation}</th>
          <th scope="col">{heads.published}</th>
          <th scope="col">{heads.ratio}</th>
          <th scope="col">{heads.how}</th>
          <th scope="col" aria-label={routeEditorWords.operation.short} />
        </tr>
      </thead>
      <tbody>
        {step.operations.map((operation, index) => (
          <Rows
            key={operation.id}
            operation={operation}
            route={route}
            step={step}
            known={known}
            published={published}
            stage={step.operations[index - 1]?.stage === operation.stage ? '' : words.stages[operation.stage]}
          />
        ))}
      </tbody>
    </table>
  );
}

interface RowsProps {
  readonly operation: Operation;
  readonly step: Step;
  readonly known: Known | null;
  readonly published: PublishedStep | null;
  readonly route: Route;
  readonly stage: string;
}

/** The caution stands immediately before its operation, here as on the bench. */
function Rows({ operation, route, stage, step, known, published }: RowsProps) {
  const flags = published?.notices.filter((notice) => notice.at.operation === operation.id) ?? [];
  const warnings = ownWarnings(operation.caution, operation.do === 'removal' ? null : operation.limit);
  const warned = warnings.length > 0;
  return (
    <>
      {warned && (
        <tr class="op-before">
          <td class="op-stage">{stage}</td>
          <td colSpan={5}>
            {warnings.map((said) => (
              <p key={said}>
                <NoticeMark notice={{ level: 'caution', code: '' }} />
                {said}
              </p>
            ))}
          </td>
        </tr>
      )}
      <tr class={`op op-${operation.do}`} data-step={step.id} data-operation={operation.id}>
        <td class="op-stage">{warned ? '' : stage}</td>
        {operation.do === 'charge' && (
          <ChargeCells charge={operation} route={route} step={step} known={known} published={published} />
        )}
        {operation.do === 'hold' && <HoldCells hold={operation} />}
        {operation.do === 'removal' && <RemovalCells removal={operation} route={route} />}
        <td class="op-edit-cell">
          <DragHandle operation={operation} step={step} route={route} />
          <EditButton operation={operation} step={step} route={route} />
        </td>
      </tr>
      <PrintFlags notices={flags} />
      <OperationEditor operation={operation} step={step} route={route} />
    </>
  );
}

interface ChargeCellsProps extends Omit<RowsProps, 'operation' | 'stage'> {
  readonly charge: Charge;
}

function ChargeCells({ charge, route, step, known, published }: ChargeCellsProps) {
  const name = route.materials[charge.material]?.name ?? charge.material;
  const label = toldApart(charge, step, route);
  const form = charge.form ? formWords(charge.form) : 'neat';
  const how = [
    windowWords(charge.temperature ?? null, charge.overMinutes ?? null, words.over),
    charge.portions === undefined ? '' : routesWords.portions(charge.portions),
  ].filter((one) => one !== '');
  return (
    <>
      <th scope="row">
        {name} <FormWords words={form} />
        <Details lines={[charge.note, charge.source]} />
      </th>
      <td>
        <PrintCell charge={charge} step={step} known={known} name={label} found={published?.charges.get(charge.id) ?? null} />
      </td>
      <td>
        <RatioCell charge={charge} step={step} known={known} name={label} />
      </td>
      <td>{how.join(' · ')}</td>
    </>
  );
}

function HoldCells({ hold }: { readonly hold: Hold }) {
  const checks = [
    hold.check && words.check(hold.check),
    hold.ifNot && words.ifNot(hold.ifNot),
    hold.stands && words.stands(keepsText(hold.stands)),
    hold.note,
  ];
  return (
    <>
      <th scope="row" colSpan={3}>
        <span class="op-hold-word">{words.hold}</span> {words.until(hold.until)}
        <Details lines={checks} />
      </th>
      <td>{windowWords(hold.temperature ?? null, hold.aboutMinutes ?? null, words.about)}</td>
    </>
  );
}

function RemovalCells({ removal, route }: { readonly removal: Removal; readonly route: Route }) {
  const takes = removal.takes.map(({ what, percent }) => `${route.materials[what]?.name ?? what} (${percent} %)`);
  const leaves = removal.leavesMillilitresPerGram;
  return (
    <>
      <th scope="row" colSpan={3}>
        {words.removals[removal.how]} <span class="form-words">{takes.join(', ')}</span>
        <Details lines={[leaves === undefined ? undefined : words.leaves(leaves), removal.note]} />
      </th>
      <td>{removal.wasteTo && words.waste(removal.wasteTo)}</td>
    </>
  );
}

function Details({ lines }: { readonly lines: readonly (string | undefined)[] }): ComponentChildren {
  return lines.map(
    (line) =>
      line && (
        <span key={line} class="op-detail">
          {line}
        </span>
      ),
  );
}
