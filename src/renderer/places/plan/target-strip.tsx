import { computed, type Figure } from '../../../core/quantity/figure.ts';
import type { PlanResult } from '../../../core/plan/result.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { Amount } from '../../parts/amount.tsx';
import { draft } from '../../state/plan-store.ts';
import { pointed } from '../../state/plan-view.ts';
import type { CascadeLayout } from '../../../core/cascade/shapes.ts';
import { DrawSlot } from './draw-slot.tsx';
import { addDraw } from './edits.ts';

/** The draws, each in the slot where its band arrives. */
export function TargetDraws({ layout }: { readonly layout: CascadeLayout }) {
  const draws = draft.value?.draws ?? [];
  const tops = new Map(layout.draws.map((port) => [port.draw, port.slotTop]));
  if (draws.length === 0) return <p class="target-empty soft">{planWords.target.empty}</p>;
  return (
    <ol class="draws" style={{ height: `${layout.height}px` }} aria-label={planWords.target.title}>
      {draws.map((draw) => (
        <DrawSlot key={draw.id} draw={draw} top={tops.get(draw.id) ?? 0} />
      ))}
    </ol>
  );
}

/** Under the draws: what several draws of one product come to together, and one more draw. */
export function TargetFoot({ result }: { readonly result: PlanResult | null }) {
  const add = (): void => {
    const id = addDraw();
    if (id !== null) pointed.value = { draw: id };
  };
  return (
    <div class="target-foot">
      {result && <Together result={result} />}
      <button type="button" class="text-button" onClick={add}>
        + {planWords.target.add}
      </button>
    </div>
  );
}

function Together({ result }: { readonly result: PlanResult }) {
  return (
    <dl class="together">
      {sums(result).map(({ name, figure }) => (
        <div key={name}>
          <dt>
            {name} <span class="soft">{planWords.target.together}</span>
          </dt>
          <dd>
            <Amount figure={figure} size="large" />
          </dd>
        </div>
      ))}
    </dl>
  );
}

/** Products that more than one draw asks for, with their sum. */
function sums(result: PlanResult): readonly { readonly name: string; readonly figure: Figure }[] {
  const byMaterial = Map.groupBy(result.draws, (draw) => draw.material);
  return [...byMaterial].flatMap(([material, draws]) => {
    const grams = draws.map((draw) => draw.grams).filter((figure) => figure !== null);
    if (draws.length < 2 || grams.length < draws.length) return [];
    const name = result.materials[material]?.name ?? material;
    const total = grams.reduce((sum, figure) => sum + figure.value, 0);
    return [{ name, figure: computed(planWords.target.contained(name), total, 'g', planWords.target.sum, grams) }];
  });
}
