import type { Route, Step } from '../../../core/route/route.ts';
import { routeEditorWords } from '../../../core/words/route-editor-words.ts';
import { AddButton } from './route-picture.tsx';

const words = routeEditorWords.step;

interface OutlineProps {
  readonly route: Route;
  /** In the order a plan works them. */
  readonly steps: readonly Step[];
}

/** The route in words; what the picture leaves out, a step's other materials, can be made by a step too. */
export function Outline({ route, steps }: OutlineProps) {
  const made = new Set(route.steps.map((step) => step.product));
  const name = (key: string): string => route.materials[key]?.name ?? key;
  const drawn = new Set(route.steps.map((step) => step.basis));
  return (
    <details class="fold">
      <summary>{words.outline(steps.length)}</summary>
      <ol class="route-outline">
        {steps.map((step) => (
          <li key={step.id}>
            {step.equation.uses.map(({ material }, index) => (
              <span key={material}>
                {index > 0 && ' + '}
                {name(material)}
                {!made.has(material) && !drawn.has(material) && (
                  <AddButton at="makes" material={material} name={name(material)} />
                )}
              </span>
            ))}{' '}
            → <b>{name(step.product)}</b>
          </li>
        ))}
      </ol>
    </details>
  );
}
