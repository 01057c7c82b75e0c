import { keepsText } from '../../../core/route/keeps.ts';
import type { ComponentChildren } from 'preact';
import { readFor } from '../../../core/caution/acknowledgement.ts';
import { benchBefore } from '../../../core/caution/bench-before.ts';
import { ofStepItself, operationIdOf } from '../../../core/caution/step-cautions.ts';
import type { ChargePlan, OperationPlan, PlanResult, StepPlan } from '../../../core/plan/result.ts';
import type { Hold, Removal } from '../../../core/route/route.ts';
import { allBefore } from '../../../core/words/bench-before-words.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import type { Notice } from '../../../core/words/notice.ts';
import { sentence } from '../../../core/words/sentences.ts';
import { Amount } from '../../parts/amount.tsx';
import { FormWords } from '../../parts/form-words.tsx';
import { decimalMark } from '../../parts/locale.ts';
import { ownWarnings } from '../../parts/own-warnings.ts';
import { windowWords } from '../../parts/window-words.ts';
import { benchSections } from '../../state/bench-numbers.ts';
import { cautionsOfStep } from '../../state/step-cautions.ts';
import { pointed } from '../../state/plan-view.ts';
import { CautionLine } from './caution-line.tsx';
import { From } from './charge-from.tsx';
import { additionText, chargeDetails, shownTake } from './charge-words.ts';
import { EditorHere, RatioHere, RowActs } from './step-edit.tsx';
import { neutraliseText } from '../../../core/words/routes-words.ts';

const words = planWords.step;
const COLUMNS = 6;

interface RowsProps {
  readonly result: PlanResult;
  readonly step: StepPlan;
  readonly operation: OperationPlan;
  /** The stage's name, where this is its first operation. */
  readonly stage: string;
}

/** One operation: its cautions immediately before it, then the operation itself. */
export function OperationRows({ result, step, operation, stage }: RowsProps) {
  const lines = cautionsBefore(step, operation);
  const warned = lines.length > 0;
  // The stage's name stands in its first row, be that a caution.
  const ownStage = warned ? '' : stage;
  return (
    <>
      {warned && <Before stage={stage} step={step} operation={operation} lines={lines} />}
      {operation.kind === 'charge' && <ChargeRow result={result} step={step} charge={operation} stage={ownStage} />}
      {operation.kind === 'hold' && <HoldRow step={step} hold={operation.hold} stage={ownStage} />}
      {operation.kind === 'removal' && <RemovalRow step={step} removal={operation.removal} stage={ownStage} result={result} />}
      <EditorHere operation={operationIdOf(operation)} />
    </>
  );
}

/** One thing to be known before an operation. */
interface Line {
  readonly mark: Pick<Notice, 'level' | 'code'>;
  readonly words: string;
}

/** What the route says itself, bench numbers that are cautions, and what the program found; nothing twice. */
function cautionsBefore(step: StepPlan, operation: OperationPlan): readonly Line[] {
  const id = operationIdOf(operation);
  const own = warningsOf(operation).map((words): Line => ({ mark: { level: 'caution', code: PROCEDURE }, words }));
  const found = cautionsOfStep(step.id).get(id) ?? operation.before;
  const ofStep = operation === step.operations[0] ? ofStepItself(step) : [];
  const before = benchBefore(benchSections(step.id), id, found);
  const told = allBefore([...ofStep, ...found], before, sentence, decimalMark).flatMap(
    ({ level, code, words }): readonly Line[] => (level === 'number' ? [] : [{ mark: { level, code }, words }]),
  );
  const lines = [...own, ...told];
  return lines.filter((line, at) => lines.findIndex((other) => other.words === line.words) === at);
}

/** Code of what the route itself says. */
const PROCEDURE = 'procedure';

function warningsOf(operation: OperationPlan): readonly string[] {
  if (operation.kind === 'charge') return ownWarnings(operation.caution, operation.limit);
  return operation.kind === 'hold'
    ? ownWarnings(operation.hold.caution, operation.hold.limit)
    : ownWarnings(operation.removal.caution, null);
}

interface BeforeProps {
  readonly stage: string;
  readonly step: StepPlan;
  readonly operation: OperationPlan;
  readonly lines: readonly Line[];
}

/** What must be known before the operation that follows. */
function Before({ stage, step, operation, lines }: BeforeProps) {
  const at = { step: step.id, operation: operationIdOf(operation), of: readFor(step) };
  const here = lines.map((line) => line.words);
  return (
    <tr class="op-before">
      <td class="op-stage">{stage}</td>
      <td colSpan={COLUMNS - 1}>
        {lines.map(({ mark, words: said }) => (
          <CautionLine key={said} mark={mark} caution={{ ...at, code: mark.code, words: said }} here={here} />
        ))}
      </td>
    </tr>
  );
}

interface RowProps {
  readonly step: StepPlan;
  readonly operation: string;
  readonly kind: string;
  readonly stage: string;
  readonly children: ComponentChildren;
}

function Row({ step, operation, kind, stage, children }: RowProps) {
  const at = pointed.value;
  const lit = at?.step === step.id && at.operation === operation;
  return (
    <tr
      class={`op op-${kind}${lit ? ' lit' : ''}`}
      data-step={step.id}
      data-operation={operation}
      tabIndex={lit ? -1 : undefined}
    >
      <td class="op-stage">
        {stage}
        <RowActs operation={operation} />
      </td>
      {children}
    </tr>
  );
}

interface ChargeRowProps {
  readonly result: PlanResult;
  readonly step: StepPlan;
  readonly charge: ChargePlan;
  readonly stage: string;
}

function ChargeRow({ result, step, charge, stage }: ChargeRowProps) {
  const take = shownTake(charge.total);
  const details = chargeDetails(charge, step.batches.count);
  const added = additionText(charge);
  return (
    <Row step={step} operation={charge.id} kind="charge" stage={stage}>
      <th scope="row">
        {result.materials[charge.material]?.name ?? charge.material} <FormWords words={charge.formWords} />
        {added !== '' && <span class="op-detail op-added">{added}</span>}
        {details.map((detail) => (
          <span key={detail} class="op-detail">
            {detail}
          </span>
        ))}
      </th>
      <td class="op-ratio">
        <RatioHere operation={charge.id}>
          {charge.ratio && <Amount figure={charge.ratio} />}
          <span class="op-rule">{ruleWords(charge)}</span>
        </RatioHere>
      </td>
      <td class="number">{charge.moles && <Amount figure={charge.moles} aligned />}</td>
      <td class="number op-take">
        {take ? (
          <Amount figure={charge.total.exact} text={take.text} unit={take.unit} size="large" aligned />
        ) : (
          <span class="tone-accent">{words.notKnown}</span>
        )}
      </td>
      <td class="op-from">
        <From charge={charge} result={result} />
      </td>
    </Row>
  );
}

function ruleWords(charge: ChargePlan): string {
  if (charge.isBasis) return words.basis;
  return charge.neutralises ? neutraliseText(charge.neutralises) : charge.rule;
}

interface HoldRowProps {
  readonly step: StepPlan;
  readonly hold: Hold;
  readonly stage: string;
}

function HoldRow({ step, hold, stage }: HoldRowProps) {
  const when = windowWords(hold.temperature ?? null, hold.aboutMinutes ?? null, words.about);
  const more = [
    hold.check && words.check(hold.check),
    hold.ifNot && words.ifNot(hold.ifNot),
    hold.stands && words.stands(keepsText(hold.stands)),
    hold.note,
  ].filter((one) => one);
  return (
    <Row step={step} operation={hold.id} kind="hold" stage={stage}>
      <th scope="row" colSpan={2}>
        <span class="op-hold-word">{words.hold}</span> {words.until(hold.until)}
        {more.map((detail) => (
          <span key={detail} class="op-detail">
            {detail}
          </span>
        ))}
      </th>
      <td colSpan={3} class="op-when">
        {when}
      </td>
    </Row>
  );
}

interface RemovalRowProps {
  readonly step: StepPlan;
  readonly removal: Removal;
  readonly stage: string;
  readonly result: PlanResult;
}

function RemovalRow({ step, removal, stage, result }: RemovalRowProps) {
  const takes = removal.takes.map(({ what, percent }) => `${result.materials[what]?.name ?? what} (${percent} %)`).join(', ');
  return (
    <Row step={step} operation={removal.id} kind="removal" stage={stage}>
      <th scope="row" colSpan={2}>
        {words.removals[removal.how]}
        {takes !== '' && <span class="op-form">: {takes}</span>}
        {removal.leavesMillilitresPerGram !== undefined && (
          <span class="op-detail">{words.leaves(removal.leavesMillilitresPerGram)}</span>
        )}
        {removal.note && <span class="op-detail">{removal.note}</span>}
      </th>
      <td colSpan={3} class="op-when">
        {removal.wasteTo && words.waste(removal.wasteTo)}
      </td>
    </Row>
  );
}
