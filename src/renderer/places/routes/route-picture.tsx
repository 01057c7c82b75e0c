import './route-picture.css';
import { useMemo, useRef } from 'preact/hooks';
import { layoutCascade } from '../../../core/cascade/layout.ts';
import { routeCascade } from '../../../core/cascade/route-input.ts';
import type { CascadeLayout, StepBox } from '../../../core/cascade/shapes.ts';
import type { Route, Step } from '../../../core/route/route.ts';
import { STEP_FIELDS } from '../../../core/route/step-fields.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { routeEditorWords } from '../../../core/words/route-editor-words.ts';
import { useRoving } from '../../parts/roving.ts';
import { changeStep } from '../../state/route-edits.ts';
import { newStepAt, pointAtStep, routeStep } from '../../state/route-view.ts';
import { useSight, useWidth } from '../plan/cascade/cascade-room.ts';
import { CascadeSvg } from '../plan/cascade/cascade-svg.tsx';
import { useDragScroll } from '../plan/cascade/drag-scroll.ts';
import { PrintField } from './print-field.tsx';

const words = routeEditorWords.picture;
/** Room at the right for the names of the last products, px. */
const ENDS = 216;
/** Room for names that are not cut in the middle of a word, px. */
const LEAST_COLUMN = 168;
/** A chain of steps runs straight in it, px. */
const LEAST_HEIGHT = 264;
const NO_IDLE: ReadonlySet<string> = new Set();
const ONE_BATCH: ReadonlyMap<string, number> = new Map();

interface PictureProps {
  readonly route: Route;
  /** In the order a plan works them. */
  readonly steps: readonly Step[];
}

/** The route drawn: from what is bought at the left to what it is for at the right, and where a step can be added. */
export function RoutePicture({ route, steps }: PictureProps) {
  const room = useRef<HTMLDivElement>(null);
  const width = useWidth(room);
  const input = routeCascade(steps);
  // Most edits change nothing of what is drawn.
  const drawn = JSON.stringify(input);
  const layout = useMemo(() => layoutCascade(input, Math.max(0, width - ENDS), LEAST_COLUMN, LEAST_HEIGHT), [drawn, width]);
  useSight(room, layout.width + ENDS, routeStep.value);
  useDragScroll(room);
  return (
    <div ref={room} class="route-picture fading-edges" role="group" aria-label={words.group}>
      <div class="cascade" style={{ width: `${layout.width + ENDS}px`, height: `${layout.height}px` }}>
        <CascadeSvg
          layout={layout}
          label={words.label(route.name, steps.length)}
          chosen={routeStep.value}
          idle={NO_IDLE}
          batches={ONE_BATCH}
        />
        <Labels route={route} steps={steps} layout={layout} />
      </div>
    </div>
  );
}

function Labels({ route, steps, layout }: PictureProps & { readonly layout: CascadeLayout }) {
  const list = useRef<HTMLDivElement>(null);
  const onKeyDown = useRoving(list, 'button');
  const made = new Set(steps.map((step) => step.product));
  const boxes = new Map(layout.steps.map((box) => [box.step, box]));
  const name = (key: string): string => route.materials[key]?.name ?? key;
  return (
    <div ref={list} onKeyDown={onKeyDown}>
      {layout.materials.map(({ material, x, label }) => (
        <div
          key={material}
          class={`cascade-material${label.below ? ' below' : ''}${label.rising ? ' rising' : ''}`}
          style={{ left: `${x}px`, top: `${label.y}px`, width: `${label.room}px` }}
        >
          <span class="cascade-name" title={name(material)}>
            {name(material)}
          </span>
          <span class="route-adds">
            {!made.has(material) && <AddButton at="makes" material={material} name={name(material)} />}
            <AddButton at="uses" material={material} name={name(material)} />
          </span>
        </div>
      ))}
      {layout.recycles.map((shape) => (
        <div
          key={shape.key}
          class="cascade-recycle-label"
          style={{ left: `${(shape.up + shape.down) / 2}px`, top: `${shape.lane}px` }}
        >
          {planWords.cascade.comesBack(name(shape.material))}
        </div>
      ))}
      {layout.draws.map(({ draw, y }) => (
        <div key={draw} class="route-end" style={{ left: `${layout.width + 8}px`, top: `${y}px` }}>
          <b title={name(draw)}>{name(draw)}</b>
          <AddButton at="uses" material={draw} name={name(draw)} />
        </div>
      ))}
      <ol class="cascade-steps" aria-label={words.steps}>
        {steps.map((step, index) => {
          const box = boxes.get(step.id);
          return box && <StepLabel key={step.id} step={step} number={index + 1} box={box} route={route} />;
        })}
      </ol>
    </div>
  );
}

interface StepLabelProps {
  readonly step: Step;
  readonly number: number;
  readonly box: StepBox;
  readonly route: Route;
}

const YIELD = STEP_FIELDS.find((field) => field.name === 'yield');

function StepLabel({ step, number, box, route }: StepLabelProps) {
  const name = (key: string): string => route.materials[key]?.name ?? key;
  const chosen = routeStep.value === step.id;
  return (
    <li>
      <button
        type="button"
        class="cascade-marker"
        style={{ left: `${box.x}px`, top: `${(box.top + box.bottom) / 2}px` }}
        aria-label={words.step(number, step.title, name(step.basis), name(step.product))}
        aria-current={chosen ? 'step' : undefined}
        title={step.title}
        onClick={() => pointAtStep(step.id)}
      >
        {number}
      </button>
      <div class="cascade-step" style={{ left: `${box.x}px`, top: `${box.bottom}px`, '--room': `${box.labelWidth}px` }}>
        <span class="cascade-title" title={step.title}>
          {step.title}
        </span>
        {YIELD && <YieldOf step={step} route={route} field={YIELD} />}
      </div>
    </li>
  );
}

interface YieldProps {
  readonly step: Step;
  readonly route: Route;
  readonly field: (typeof STEP_FIELDS)[number];
}

/** The expected yield, typed where the loss is drawn. */
function YieldOf({ step, route, field }: YieldProps) {
  const context = { route };
  const read = (text: string) => field.write(step, text, context);
  return (
    <PrintField
      label={words.yield(step.title)}
      value={field.read(step, context)}
      needed
      check={(text) => {
        const now = read(text);
        return now.ok ? null : { at: now.at, words: now.words };
      }}
      onCommit={(text) => {
        const now = read(text);
        return now.ok ? changeStep(step.id, routeEditorWords.edits.field(words.yieldWord, step.title), () => now.value) : null;
      }}
    />
  );
}

interface AddButtonProps {
  readonly at: 'makes' | 'uses';
  readonly material: string;
  readonly name: string;
}

/** Adds the step that makes a material, at its left, or one that uses it, at its right. */
export function AddButton({ at, material, name }: AddButtonProps) {
  const label = at === 'makes' ? routeEditorWords.step.makes(name) : routeEditorWords.step.uses(name);
  return (
    <button
      type="button"
      class="outline-add"
      aria-label={label}
      title={label}
      onClick={() => {
        newStepAt.value = { at, key: material };
      }}
    >
      {at === 'makes' ? '← +' : '+ →'}
    </button>
  );
}
