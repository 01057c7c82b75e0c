import type { ComponentChildren } from 'preact';
import { useRef } from 'preact/hooks';
import { explosiveIn, explosiveWhy } from '../../../core/bench/explosive.ts';
import { balanceOf } from '../../../core/plan/network/equation.ts';
import { stepsInOrder } from '../../../core/plan/network/network.ts';
import type { RouteRevision } from '../../../core/port/workbook.ts';
import type { Reference } from '../../../core/reference.ts';
import type { Route, Step } from '../../../core/route/route.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { routeEditorWords } from '../../../core/words/route-editor-words.ts';
import { sentence } from '../../../core/words/sentences.ts';
import { routesWords } from '../../../core/words/routes-words.ts';
import { goTo } from '../../state/place.ts';
import { openPlanById } from '../../state/plan-store.ts';
import { newStepAt, revisionsOpen } from '../../state/route-view.ts';
import { planList, reference } from '../../state/workbook.ts';
import { factsByKey } from './route-facts.ts';
import { ChargeEntry } from './charge-entry.tsx';
import { MaterialsEditor } from './materials-editor.tsx';
import { NewStepForm } from './new-step.tsx';
import { Outline } from './outline.tsx';
import { ProductPrint } from './print-cells.tsx';
import { RoutePicture } from './route-picture.tsx';
import { Revisions } from './revisions.tsx';
import { RouteActs, RouteNames, SaveTrouble } from './route-head.tsx';
import { FormulasTaken, StepActs, StepEditor, Unfinished } from './step-editor.tsx';
import { StepOperations } from './step-operations.tsx';

/** A route to read: every step as a procedure, its operations in the order they are done. */
export function RouteView({ revision }: { readonly revision: RouteRevision }) {
  const { route } = revision;
  const steps = numbered(route);
  const adding = newStepAt.value;
  return (
    <article class="route" aria-labelledby="route-title">
      <header class="route-head">
        <div class="route-title">
          <h1 id="route-title">{route.name}</h1>
          <span class="soft">
            {routesWords.steps(route.steps.length)} · {routesWords.revision(revision.revision)}
          </span>
        </div>
        <RouteActs />
        <SaveTrouble />
        <Plans route={revision.id} />
        <RoutePicture route={route} steps={steps} />
        {adding && adding.at !== 'route' && <NewStepForm key={`${adding.at} ${adding.key}`} where={adding} route={route} />}
      </header>
      {route.note && <p class="route-note">{route.note}</p>}
      {revisionsOpen.value && <Revisions revision={revision} />}
      <details class="fold">
        <summary>{routeEditorWords.head.summary}</summary>
        <RouteNames revision={revision} />
      </details>
      <Outline route={route} steps={steps} />
      <MaterialsEditor route={route} />
      {steps.map((step, index) => (
        <StepSection key={step.id} step={step} number={index + 1} route={route} />
      ))}
    </article>
  );
}

/** As a plan of the route numbers them, whatever their order in the file. */
function numbered(route: Route): readonly Step[] {
  return reference.value ? stepsInOrder(route, factsByKey(route, reference.value), reference.value) : route.steps;
}

function Plans({ route }: { readonly route: number }) {
  const plans = (planList.value ?? []).filter((plan) => plan.routeId === route);
  if (plans.length === 0) return null;
  return (
    <p>
      <span class="soft">{routesWords.plans}: </span>
      {plans.map((plan, index) => (
        <span key={plan.id}>
          {index > 0 && ', '}
          <button
            type="button"
            class="text-button"
            onClick={() => {
              goTo('plan');
              void openPlanById(plan.id);
            }}
          >
            {plan.name}
          </button>
        </span>
      ))}
    </p>
  );
}

interface StepViewProps {
  readonly step: Step;
  readonly number: number;
  readonly route: Route;
}

/** A step is drawn anew where it, a material it names, or the list of steps changed: not at every edit of another step. */
function StepSection(props: StepViewProps) {
  const { step, number, route } = props;
  const drawn = useRef<{ readonly from: readonly unknown[]; readonly view: ComponentChildren } | null>(null);
  const titles = route.steps.map((one) => `${one.id} ${one.title}`).join('\n');
  const from = [step, number, titles, reference.value, ...materialsOf(step).map((key) => route.materials[key])];
  const before = drawn.current;
  const same = before?.from.length === from.length && from.every((one, index) => one === before.from[index]);
  if (!same) drawn.current = { from, view: <StepView {...props} /> };
  return <>{drawn.current?.view}</>;
}

/** Materials a step names, in its equation, its operations and what it gives back. */
function materialsOf(step: Step): readonly string[] {
  return [
    step.basis,
    step.product,
    ...[...step.equation.uses, ...step.equation.makes].map((term) => term.material),
    ...step.operations.flatMap((one) => {
      if (one.do === 'charge') return [one.material];
      return one.do === 'removal' ? one.takes.map((each) => each.what) : [];
    }),
    ...(step.recovers ?? []).map((one) => one.material),
  ];
}

function StepView({ step, number, route }: StepViewProps) {
  const facts = [
    routesWords.basis(route.materials[step.basis]?.name ?? step.basis),
    `${routesWords.yield(step.yieldPercent)}${step.yieldSource ? ` (${step.yieldSource})` : ''}`,
  ];
  const more = [
    step.batchLimit && routesWords.batchLimit(step.batchLimit.grams, step.batchLimit.reason),
    [step.protection && planWords.step.wear(step.protection), step.source && planWords.step.source(step.source)]
      .filter((one) => one)
      .join(' · '),
    step.note,
  ].filter((one) => one);
  const known = reference.value && { facts: factsByKey(route, reference.value), reference: reference.value };
  return (
    <section id={`step ${step.id}`} class="route-step">
      <h2>
        {number} · {step.title}
      </h2>
      <Equation step={step} route={route} />
      <NotScaled step={step} known={known} />
      <p>{[step.conditions, ...facts].filter((one) => one).join(' · ')}</p>
      {more.map((line) => (
        <p key={line} class="soft small">
          {line}
        </p>
      ))}
      <ProductPrint step={step} known={known} />
      <StepOperations step={step} route={route} known={known} />
      <ChargeEntry step={step} route={route} />
      <StepActs step={step} route={route} />
      <StepEditor step={step} route={route} />
    </section>
  );
}

/** A step classed as explosive says here too that no plan gives amounts for it. */
function NotScaled({ step, known }: Pick<StepViewProps, 'step'> & { readonly known: Known | null }) {
  const found = known && explosiveIn(step, known.facts, known.reference);
  return found && <p class="tone-accent">{sentence(explosiveWhy(found, step.title))}</p>;
}

type Known = { readonly facts: ReturnType<typeof factsByKey>; readonly reference: Reference };

function Equation({ step, route }: { readonly step: Step; readonly route: Route }) {
  if (!reference.value) return null;
  const balance = balanceOf(step, factsByKey(route, reference.value), reference.value);
  const { step: words } = routeEditorWords;
  return (
    <>
      <p class="route-equation">
        {balance.text}
        {balance.unknown.length > 0 && <span class="tone-accent"> {words.unknownFormula(balance.unknown.join(', '))}</span>}
        {!balance.balanced && balance.unknown.length === 0 && (
          <strong class="tone-accent"> {words.more(planWords.step.unbalanced, balance.difference)}</strong>
        )}
      </p>
      <FormulasTaken step={step} route={route} />
      <Unfinished step={step} route={route} balanced={balance.balanced} />
    </>
  );
}
