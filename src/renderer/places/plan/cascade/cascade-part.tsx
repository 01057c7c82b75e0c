import { useRef } from 'preact/hooks';
import type { PlanResult } from '../../../../core/plan/result.ts';
import { planWords } from '../../../../core/words/plan-words.ts';
import { isUsual, stepWidth } from '../../../state/cascade-zoom.ts';
import { bandsIn, cascadeAs, chosenStep } from '../../../state/plan-view.ts';
import { route } from '../../../state/plan-route.ts';
import { reference } from '../../../state/workbook.ts';
import { factsByKey } from '../../routes/route-facts.ts';
import { stepsInOrder } from '../../../../core/plan/network/network.ts';
import type { Route, Step } from '../../../../core/route/route.ts';
import { routeCascade } from '../../../../core/cascade/route-input.ts';
import { UnplannedPicture } from './unplanned-picture.tsx';
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
  // A plan that cannot be worked out has no steps: its route is shown as it stands.
  const unplanned = result.steps.length === 0 ? routeAsItStands() : null;
  const input = unplanned ? routeCascade(unplanned.steps, result.draws) : cascadeInput(result, bandsIn.value);
  const layout = layoutCascade(input, width, stepWidth.value);
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
      <div ref={room} class="plan-cascade fading-edges">
        {unplanned ? (
          <UnplannedPicture {...unplanned} layout={layout} />
        ) : cascadeAs.value === 'picture' ? (
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

/** The open plan's route with its steps in working order; null until everything is read. */
function routeAsItStands(): { readonly route: Route; readonly steps: readonly Step[] } | null {
  const [open, tables] = [route.value, reference.value];
  return open && tables ? { route: open, steps: stepsInOrder(open, factsByKey(open, tables), tables) } : null;
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
