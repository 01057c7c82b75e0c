import type { ComponentChildren } from 'preact';
import type { Charge, Hold, Operation, Removal, Route, Step } from '../../../core/route/route.ts';
import { formWords } from '../../../core/words/form-words.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { routesWords } from '../../../core/words/routes-words.ts';
import { FormWords } from '../../parts/form-words.tsx';
import { NoticeMark } from '../../parts/notices.tsx';
import { ownWarnings } from '../../parts/own-warnings.ts';
import { windowWords } from '../../parts/window-words.ts';

const words = planWords.step;

/** A step's operations in order, amounts as ratios to the basis: what a plan scales. */
export function StepOperations({ step, route }: { readonly step: Step; readonly route: Route }) {
  const { heads } = routesWords;
  return (
    <table class="operations">
      <thead>
        <tr>
          <th scope="col">{heads.stage}</th>
          <th scope="col">{heads.operation}</th>
          <th scope="col">{heads.ratio}</th>
          <th scope="col">{heads.how}</th>
        </tr>
      </thead>
      <tbody>
        {step.operations.map((operation, index) => (
          <Rows
            key={operation.id}
            operation={operation}
            route={route}
            stage={step.operations[index - 1]?.stage === operation.stage ? '' : words.stages[operation.stage]}
          />
        ))}
      </tbody>
    </table>
  );
}

interface RowsProps {
  readonly operation: Operation;
  readonly route: Route;
  readonly stage: string;
}

/** The caution stands immediately before its operation, here as on the bench. */
function Rows({ operation, route, stage }: RowsProps) {
  const warnings = ownWarnings(operation.caution, operation.do === 'removal' ? null : operation.limit);
  const warned = warnings.length > 0;
  return (
    <>
      {warned && (
        <tr class="op-before">
          <td class="op-stage">{stage}</td>
          <td colSpan={3}>
            {warnings.map((said) => (
              <p key={said}>
                <NoticeMark notice={{ level: 'caution', code: '' }} />
                {said}
              </p>
            ))}
          </td>
        </tr>
      )}
      <tr class={`op op-${operation.do}`}>
        <td class="op-stage">{warned ? '' : stage}</td>
        {operation.do === 'charge' && <ChargeCells charge={operation} route={route} />}
        {operation.do === 'hold' && <HoldCells hold={operation} />}
        {operation.do === 'removal' && <RemovalCells removal={operation} route={route} />}
      </tr>
    </>
  );
}

function ChargeCells({ charge, route }: { readonly charge: Charge; readonly route: Route }) {
  const form = charge.form ? formWords(charge.form) : 'neat';
  const how = [
    windowWords(charge.temperature ?? null, charge.overMinutes ?? null, words.over),
    charge.portions === undefined ? '' : routesWords.portions(charge.portions),
  ].filter((one) => one !== '');
  return (
    <>
      <th scope="row">
        {route.materials[charge.material]?.name ?? charge.material} <FormWords words={form} />
        <Details lines={[charge.note, charge.source]} />
      </th>
      <td>{routesWords.rule(charge.rule)}</td>
      <td>{how.join(' · ')}</td>
    </>
  );
}

function HoldCells({ hold }: { readonly hold: Hold }) {
  const checks = [hold.check && words.check(hold.check), hold.ifNot && words.ifNot(hold.ifNot), hold.note];
  return (
    <>
      <th scope="row" colSpan={2}>
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
      <th scope="row" colSpan={2}>
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
