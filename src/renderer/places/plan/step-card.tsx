import './step-card.css';
import { useEffect, useRef } from 'preact/hooks';
import { operationIdOf } from '../../../core/caution/step-cautions.ts';
import type { OperationPlan, PlanResult, StepPlan } from '../../../core/plan/result.ts';
import type { Notice } from '../../../core/words/notice.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { sentence } from '../../../core/words/sentences.ts';
import { Amount } from '../../parts/amount.tsx';
import { Structure } from '../../parts/structure.tsx';
import { useRoving } from '../../parts/roving.ts';
import { pointed } from '../../state/plan-view.ts';
import { BenchNumbers } from './bench-numbers.tsx';
import { setLeftOut } from './edits.ts';
import { GoingOn, LearnedYields } from './learned.tsx';
import { OperationRows } from './operation-rows.tsx';
import { EditStep, StepEditFoot } from './step-edit.tsx';
import { StepFoot } from './step-foot.tsx';

/** The chosen step as it will be done: operations in order, what to take large, cautions where they belong. */
export function StepCard({ step, result }: { readonly step: StepPlan; readonly result: PlanResult }) {
  return (
    <article class="step-card" aria-labelledby="step-title">
      <StepHead step={step} result={result} />
      {step.active && <Operations step={step} result={result} />}
      {step.active && <StepEditFoot />}
      {step.active && <StepFoot step={step} result={result} />}
      {step.active && <BenchNumbers step={step.id} />}
      <GoingOn step={step.id} />
      <LearnedYields step={step} />
    </article>
  );
}

function Operations({ step, result }: { readonly step: StepPlan; readonly result: PlanResult }) {
  const body = useRef<HTMLTableSectionElement>(null);
  const onKeyDown = useRoving(body, 'button:not(.op-editor button, .op-edit)');
  const at = pointed.value;
  useEffect(() => {
    if (at?.step !== step.id || at.operation === undefined) return;
    body.current?.querySelector(`[data-operation="${CSS.escape(at.operation)}"]`)?.scrollIntoView({ block: 'nearest' });
  }, [at, step.id]);
  return (
    <table class="operations">
      <Heads />
      <tbody ref={body} onKeyDown={onKeyDown}>
        {step.operations.map((operation, index) => (
          <OperationRows
            key={operationIdOf(operation)}
            result={result}
            step={step}
            operation={operation}
            stage={stageOf(operation) === stageOf(step.operations[index - 1]) ? '' : stageWord(operation)}
          />
        ))}
      </tbody>
    </table>
  );
}

function StepHead({ step, result }: { readonly step: StepPlan; readonly result: PlanResult }) {
  const words = planWords.step;
  const formed = step.active ? step.formed.filter((one) => one.hazards === null) : [];
  const unlisted = formed.map((one) => result.materials[one.material]?.name ?? one.material).join(', ');
  return (
    <header class="step-head">
      <div>
        <h1 id="step-title">
          {step.number} · {step.title}
        </h1>
        <p class="step-equation">
          {step.equation.text}
          {!step.equation.balanced && <strong class="tone-accent"> {words.unbalanced}</strong>}
          {step.conditions !== '' && <span> · {step.conditions}</span>}
        </p>
        {step.notices.filter(isOfEquation).map((notice) => (
          <p key={notice.code} class="tone-accent">
            {sentence(notice)}
          </p>
        ))}
        {step.whyIdle ? <p class="step-more">{words.idle[step.whyIdle]}</p> : <Gives step={step} result={result} />}
        {unlisted !== '' && <p class="step-more">{words.formedNoEntry(unlisted)}</p>}
      </div>
      <div class="step-head-side">
        <p class="step-head-acts">
          <LeaveOut step={step} result={result} />
          <EditStep step={step} />
        </p>
        <Drawings step={step} result={result} />
      </div>
    </header>
  );
}

/** By what an equation does not balance, or why that cannot be told. */
const isOfEquation = ({ code }: Notice): boolean => code === 'unbalanced' || code === 'balance unknown';

/** Basis and product drawn, where both structures are known. */
function Drawings({ step, result }: { readonly step: StepPlan; readonly result: PlanResult }) {
  const [basis, product] = [result.materials[step.basis.material], result.materials[step.product.material]];
  if (!basis?.smiles || !product?.smiles) return null;
  return (
    <p class="step-drawings">
      <Structure smiles={basis.smiles} label={basis.name} width={150} height={84} bond={20} />
      <span aria-hidden="true">→</span>
      <Structure smiles={product.smiles} label={product.name} width={150} height={84} bond={20} />
    </p>
  );
}

/** What the step gives, what to have ready and where it comes from. */
function Gives({ step, result }: { readonly step: StepPlan; readonly result: PlanResult }) {
  const words = planWords.step;
  const product = result.materials[step.product.material]?.name ?? step.product.material;
  const later = result.steps.find((one) => one.id === step.yieldCountedIn);
  const more = [
    step.protection.length > 0 ? words.wear(step.protection) : '',
    later ? words.yieldCountedIn(later.number) : '',
    step.source === '' ? '' : words.source(step.source),
  ].filter((one) => one !== '');
  return (
    <p class="step-more">
      <b>
        {words.gives} <Amount figure={step.product.grams} /> {product}
      </b>
      {step.seconds.map(({ material, grams }) => (
        <b key={material}>
          {' '}
          {words.and} <Amount figure={grams} /> {result.materials[material]?.name ?? material}
        </b>
      ))}{' '}
      ({words.theory} <Amount figure={step.product.theory} />){more.map((one) => ` · ${one}`)}
    </p>
  );
}

/** Where there is a choice: another step makes the same, or what it makes could be bought. */
function LeaveOut({ step, result }: { readonly step: StepPlan; readonly result: PlanResult }) {
  const out = step.whyIdle === 'left out';
  const choice = result.choices.some((one) => one.makers.some((maker) => maker.step === step.id));
  const product = result.materials[step.product.material]?.name ?? step.product.material;
  const drawn = result.draws.some((draw) => draw.material === step.product.material);
  if (!out && !choice && (drawn || !step.active)) return null;
  return (
    <button type="button" class="text-button step-leave-out" onClick={() => setLeftOut(step.id, step.title, !out)}>
      {out ? planWords.step.takeIn : choice ? planWords.step.leaveOut : planWords.step.leaveOutAndBuy(product)}
    </button>
  );
}

function Heads() {
  const heads = planWords.step.heads;
  return (
    <thead>
      <tr>
        <th scope="col">{heads.stage}</th>
        <th scope="col">{heads.charge}</th>
        <th scope="col">{heads.ratio}</th>
        <th scope="col" class="number">
          {heads.amount}
        </th>
        <th scope="col" class="number">
          {heads.take}
        </th>
        <th scope="col">{heads.from}</th>
      </tr>
    </thead>
  );
}

function stageOf(operation: OperationPlan | undefined): string | undefined {
  if (!operation) return undefined;
  if (operation.kind === 'charge') return operation.stage;
  return operation.kind === 'hold' ? operation.hold.stage : operation.removal.stage;
}

function stageWord(operation: OperationPlan): string {
  const stages: Readonly<Record<string, string>> = planWords.step.stages;
  return stages[stageOf(operation) ?? ''] ?? '';
}
