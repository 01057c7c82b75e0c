import './plan.css';
import type { PlanResult } from '../../../core/plan/result.ts';
import type { Notice } from '../../../core/words/notice.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { errorsOf } from '../bench/with-plan.tsx';
import { STANDING, sentence } from '../../../core/words/sentences.ts';
import { EmptyState } from '../../parts/empty-state.tsx';
import { Notices } from '../../parts/notices.tsx';
import { enterFormulaOf } from '../../state/enter-formula.ts';
import { goTo } from '../../state/place.ts';
import { result } from '../../state/plan-result.ts';
import { openNewestPlan, openPlanById, planLoad } from '../../state/plan-store.ts';
import { openPlan } from '../../state/plan-route.ts';
import { chosenStep, pointAt } from '../../state/plan-view.ts';
import { planList } from '../../state/workbook.ts';
import { CascadeAndTarget } from './cascade/cascade-part.tsx';
import { ChanceOfEnough } from './chance.tsx';
import { FetchList } from './fetch-list.tsx';
import { FromStock } from './from-stock.tsx';
import { BesideChoice, SideBySideTable } from './side-by-side.tsx';
import { StepCard } from './step-card.tsx';
import { TargetFoot } from './target-strip.tsx';
import { UseOfMaterial } from './use-of-material.tsx';

/** The main place: fetch list at the left, cascade over the step's card, the target at the right. */
export function PlanPlace() {
  const load = planLoad.value;
  if (load.at === 'loading') return <EmptyState busy title={planWords.loading} />;
  if (load.at === 'failed') {
    return (
      <EmptyState title={planWords.failed} text={load.words}>
        <button type="button" class="button" onClick={retry}>
          {planWords.retry}
        </button>
      </EmptyState>
    );
  }
  if (load.at === 'none' || !result.value) return <NoPlan />;
  return <OpenPlan result={result.value} />;
}

function retry(): void {
  void (openPlan.value ? openPlanById(openPlan.value.id) : openNewestPlan());
}

function NoPlan() {
  const words = planWords.none;
  const plans = planList.value ?? [];
  return (
    <EmptyState title={words.title} text={words.text}>
      <button type="button" class="button" onClick={() => goTo('routes')}>
        {words.toRoutes}
      </button>
      {plans.map((plan) => (
        <button key={plan.id} type="button" class="button" onClick={() => void openPlanById(plan.id)}>
          {words.open} · {plan.name}
        </button>
      ))}
    </EmptyState>
  );
}

function OpenPlan({ result }: { readonly result: PlanResult }) {
  const step = chosenStep.value;
  return (
    <div class="plan">
      <div class="plan-left">
        <FetchList result={result} />
      </div>
      <CascadeAndTarget result={result} />
      <div class="plan-card">
        {!result.solved && (
          <div class="plan-unsolved">
            <p>{planWords.unsolved}</p>
            {errorsOf(result).map((one) => (
              <p key={one} class="plan-reason">
                {one}
              </p>
            ))}
          </div>
        )}
        <SideBySideTable name={result.name} />
        {step && <StepCard step={step} result={result} />}
      </div>
      <div class="plan-right">
        <TargetFoot result={result} />
        <FromStock />
        <ChanceOfEnough result={result} />
        <PlanNotices result={result} />
        <UseOfMaterial result={result} />
        <BesideChoice />
        <p class="standing">{STANDING}</p>
      </div>
    </div>
  );
}

/** What a notice asks for is entered in the route, or stands in the plan. */
function goToNotice({ code, values, at }: Notice): void {
  if (code === 'no molar mass') void enterFormulaOf(String(values?.['material'] ?? ''));
  else pointAt(at);
}

function PlanNotices({ result }: { readonly result: PlanResult }) {
  const words = planWords.notices;
  const number = new Map(result.steps.map((step) => [step.id, step.number]));
  const lines = result.notices.map((notice: Notice) => ({
    notice,
    where: words.step(number.get(notice.at.step ?? '')),
    words: sentence(notice),
    level: words.levels[notice.level],
  }));
  return (
    <section class="plan-notices" aria-labelledby="notices-title">
      <header class="part-head">
        <h2 id="notices-title">{words.title}</h2>
        <span class="part-note">{lines.length}</span>
      </header>
      {lines.length === 0 ? <p class="soft small">{words.none}</p> : <Notices notices={lines} onGo={goToNotice} />}
    </section>
  );
}
