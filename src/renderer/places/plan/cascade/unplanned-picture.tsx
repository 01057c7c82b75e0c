import type { CascadeLayout } from '../../../../core/cascade/shapes.ts';
import type { Route, Step } from '../../../../core/route/route.ts';
import { planWords } from '../../../../core/words/plan-words.ts';
import { CascadeSvg } from './cascade-svg.tsx';

const NOTHING_IDLE: ReadonlySet<string> = new Set();
const NO_BATCHES: ReadonlyMap<string, number> = new Map();

interface UnplannedProps {
  readonly route: Route;
  /** In working order. */
  readonly steps: readonly Step[];
  readonly layout: CascadeLayout;
}

/** The route as it stands, while its plan cannot be worked out: what makes what, and no amounts. */
export function UnplannedPicture({ route, steps, layout }: UnplannedProps) {
  const number = new Map(steps.map((step, index) => [step.id, index + 1]));
  return (
    <div class="cascade unplanned" style={{ width: `${layout.width}px`, height: `${layout.height}px` }}>
      <CascadeSvg
        layout={layout}
        label={planWords.cascade.unplanned(route.name)}
        chosen={null}
        idle={NOTHING_IDLE}
        batches={NO_BATCHES}
      />
      {layout.materials.map(({ material, x, label }) => (
        <div
          key={material}
          class={`cascade-material${label.below ? ' below' : ''}${label.rising ? ' rising' : ''}`}
          style={{ left: `${x}px`, top: `${label.y}px`, width: `${label.room}px` }}
        >
          <span class="cascade-name">{route.materials[material]?.name ?? material}</span>
        </div>
      ))}
      {layout.steps.map((box) => (
        <span
          key={box.step}
          class="cascade-marker"
          aria-hidden="true"
          style={{ left: `${box.x}px`, top: `${(box.top + box.bottom) / 2}px` }}
        >
          {number.get(box.step)}
        </span>
      ))}
    </div>
  );
}
