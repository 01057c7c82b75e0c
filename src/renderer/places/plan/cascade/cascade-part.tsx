import { useRef } from 'preact/hooks';
import type { PlanResult } from '../../../../core/plan/result.ts';
import { planWords } from '../../../../core/words/plan-words.ts';
import { isUsual, stepWidth } from '../../../state/cascade-zoom.ts';
import { bandsIn, cascadeAs, chosenStep } from '../../../state/plan-view.ts';
import { TargetDraws } from '../target-strip.tsx';
import { cascadeInput } from '../../../../core/cascade/input.ts';
import { CascadeLabels } from './cascade-labels.tsx';
import { layoutCascade } from '../../../../core/cascade/layout.ts';
import { CASCADE } from '../../../../core/cascade/measures.ts';
import type { CascadeLayout } from '../../../../core/cascade/shapes.ts';
import { CascadeSvg } from './cascade-svg.tsx';
import { CascadeSwitches } from './cascade-switches.tsx';
import { CascadeTable } from './cascade-table.tsx';
import { useSight, useWidth } from './cascade-room.ts';
import { useDragScroll } from './drag-scroll.ts';

/** Cascade and draws share one origin, so that every band arrives at its draw. */
export function CascadeAndTarget({ result }: { readonly result: PlanResult }) {
  const room = useRef<HTMLDivElement>(null);
  const width = useWidth(room);
  const layout = layoutCascade(cascadeInput(result, bandsIn.value), width, stepWidth.value);
  const chosen = chosenStep.value?.id ?? null;
  useSight(room, layout.width, chosen);
  useDragScroll(room);
  return (
    <div class="plan-top">
      <header class="part-head plan-cascade-head">
        <h2>{planWords.cascade.title}</h2>
        <CascadeSwitches zooms={layout.columns * CASCADE.least.column > width || !isUsual.value} />
      </header>
      <header class="part-head plan-target-head">
        <h2>{planWords.target.title}</h2>
        <span class="part-note">{planWords.target.note}</span>
      </header>
      <div ref={room} class="plan-cascade">
        {cascadeAs.value === 'picture' ? (
          <Picture result={result} layout={layout} chosen={chosen} />
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

interface PictureProps {
  readonly result: PlanResult;
  readonly layout: CascadeLayout;
  readonly chosen: string | null;
}

function Picture({ result, layout, chosen }: PictureProps) {
  const tight = layout.column < CASCADE.words;
  return (
    <div class={`cascade${tight ? ' tight' : ''}`} style={{ width: `${layout.width}px`, height: `${layout.height}px` }}>
      <CascadeSvg
        layout={layout}
        label={planWords.cascade.label(result.name, result.steps.length, result.draws.length)}
        chosen={chosen}
        idle={new Set(result.steps.filter((one) => !one.active).map((one) => one.id))}
        batches={new Map(result.steps.map((one) => [one.id, one.active ? one.batches.count : 1]))}
      />
      <CascadeLabels result={result} layout={layout} chosen={chosen} />
    </div>
  );
}
