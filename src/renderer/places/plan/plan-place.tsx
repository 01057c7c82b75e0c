import './plan.css';
import { useSignal } from '@preact/signals';
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import type { PlanResult } from '../../../core/plan/result.ts';
import type { Notice } from '../../../core/words/notice.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { STANDING, sentence } from '../../../core/words/sentences.ts';
import { EmptyState } from '../../parts/empty-state.tsx';
import { Notices } from '../../parts/notices.tsx';
import { goTo } from '../../state/place.ts';
import { result } from '../../state/plan-result.ts';
import { openNewestPlan, openPlan, openPlanById, planLoad } from '../../state/plan-store.ts';
import { cascadeAs, chosenStep, pointAt } from '../../state/plan-view.ts';
import { planList } from '../../state/workbook.ts';
import { cascadeInput } from './cascade/cascade-input.ts';
import { CascadeLabels } from './cascade/cascade-labels.tsx';
import { layoutCascade } from './cascade/cascade-layout.ts';
import { CascadeSvg } from './cascade/cascade-svg.tsx';
import { CascadeTable } from './cascade/cascade-table.tsx';
import { ChanceOfEnough } from './chance.tsx';
import { FetchList } from './fetch-list.tsx';
import { FromStock } from './from-stock.tsx';
import { BesideChoice, SideBySideTable } from './side-by-side.tsx';
import { StepCard } from './step-card.tsx';
import { TargetDraws, TargetFoot } from './target-strip.tsx';
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
      <Top result={result} />
      <div class="plan-card">
        {!result.solved && <p class="plan-unsolved">{planWords.unsolved}</p>}
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

/** Cascade and draws share one origin, so that every band arrives at its draw. */
function Top({ result }: { readonly result: PlanResult }) {
  const room = useRef<HTMLDivElement>(null);
  const width = useSignal(0);
  const seen = useRef<string | null>(null);
  useLayoutEffect(() => {
    const element = room.current;
    if (!element) return undefined;
    const watch = new ResizeObserver(() => {
      width.value = element.clientWidth;
    });
    watch.observe(element);
    width.value = element.clientWidth;
    return () => watch.disconnect();
  }, [width]);
  const layout = layoutCascade(cascadeInput(result), width.value);
  // The target is at the right: where the cascade is wider than its room, that end is seen first.
  useLayoutEffect(() => {
    if (room.current) room.current.scrollLeft = room.current.scrollWidth;
  }, [layout.width]);
  const chosen = chosenStep.value?.id ?? null;
  useEffect(() => {
    // A step chosen elsewhere, e.g. by a notice, comes into view; the first one shown is left where the target is.
    if (seen.current !== null && seen.current !== chosen) {
      room.current?.querySelector('.cascade-marker[aria-current]')?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
    }
    seen.current = chosen;
  }, [chosen]);
  const words = planWords.cascade;
  const picture = cascadeAs.value === 'picture';
  return (
    <div class="plan-top">
      <header class="part-head plan-cascade-head">
        <h2>{words.title}</h2>
        <CascadeSwitch />
      </header>
      <header class="part-head plan-target-head">
        <h2>{planWords.target.title}</h2>
        <span class="part-note">{planWords.target.note}</span>
      </header>
      <div ref={room} class="plan-cascade">
        {picture ? (
          <div class="cascade" style={{ width: `${layout.width}px`, height: `${layout.height}px` }}>
            <CascadeSvg
              layout={layout}
              label={words.label(result.name, result.steps.length, result.draws.length)}
              chosen={chosen}
              idle={new Set(result.steps.filter((one) => !one.active).map((one) => one.id))}
            />
            <CascadeLabels result={result} layout={layout} chosen={chosen} />
          </div>
        ) : (
          <CascadeTable result={result} chosen={chosen} />
        )}
      </div>
      <div class="plan-target">
        <TargetDraws layout={layout} />
      </div>
    </div>
  );
}

function CascadeSwitch() {
  const words = planWords.cascade;
  return (
    <span class="part-note" role="group" aria-label={words.shownAs}>
      {words.note} ·{' '}
      {(['picture', 'table'] as const).map((as) => (
        <button
          key={as}
          type="button"
          class="switch"
          aria-pressed={cascadeAs.value === as}
          onClick={() => {
            cascadeAs.value = as;
          }}
        >
          {as === 'picture' ? words.picture : words.asTable}
        </button>
      ))}
    </span>
  );
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
      {lines.length === 0 ? (
        <p class="soft small">{words.none}</p>
      ) : (
        <Notices notices={lines} onGo={(notice) => pointAt(notice.at)} />
      )}
    </section>
  );
}
