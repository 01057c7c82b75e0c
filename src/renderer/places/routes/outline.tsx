import type { Route, Step } from '../../../core/route/route.ts';
import { routeEditorWords } from '../../../core/words/route-editor-words.ts';
import { newStepAt } from '../../state/route-view.ts';

const words = routeEditorWords.step;

interface OutlineProps {
  readonly route: Route;
  /** In the order a plan works them. */
  readonly steps: readonly Step[];
}

/** The route in a few lines, from what is bought to what it is for; a step can be added at either side of it. */
export function Outline({ route, steps }: OutlineProps) {
  const made = new Set(route.steps.map((step) => step.product));
  const used = new Set(route.steps.flatMap((step) => step.equation.uses.map((term) => term.material)));
  const name = (key: string): string => route.materials[key]?.name ?? key;
  const list = (
    <ol class="route-outline">
      {steps.map((step) => (
        <li key={step.id}>
          <span>
            {step.equation.uses.map(({ material }, index) => (
              <span key={material}>
                {index > 0 && ' + '}
                {name(material)}
                {!made.has(material) && (
                  <AddButton
                    label={words.makes(name(material))}
                    sign="← +"
                    onAdd={() => {
                      newStepAt.value = { at: 'makes', key: material };
                    }}
                  />
                )}
              </span>
            ))}{' '}
            → <b>{name(step.product)}</b>
            {!used.has(step.product) && (
              <AddButton
                label={words.uses(name(step.product))}
                sign="+ →"
                onAdd={() => {
                  newStepAt.value = { at: 'uses', key: step.product };
                }}
              />
            )}
          </span>
        </li>
      ))}
    </ol>
  );
  if (steps.length <= MOST_OPEN) return list;
  return (
    <details class="fold">
      <summary>{words.outline(steps.length)}</summary>
      {list}
    </details>
  );
}

/** More steps than this would push the first of them off the window. */
const MOST_OPEN = 12;

function AddButton({ label, sign, onAdd }: { readonly label: string; readonly sign: string; readonly onAdd: () => void }) {
  return (
    <button type="button" class="outline-add" aria-label={label} title={label} onClick={onAdd}>
      {sign}
    </button>
  );
}
