import { useRef } from 'preact/hooks';
import type { PlanResult, StepPlan } from '../../../../core/plan/result.ts';
import type { Figure } from '../../../../core/quantity/figure.ts';
import { computed } from '../../../../core/quantity/figure.ts';
import { formatAmount } from '../../../../core/quantity/format.ts';
import { planWords } from '../../../../core/words/plan-words.ts';
import { Amount } from '../../../parts/amount.tsx';
import { decimalMark } from '../../../parts/locale.ts';
import { useRoving } from '../../../parts/roving.ts';
import { chooseStep } from '../../../state/plan-view.ts';
import { YieldField } from '../yield-field.tsx';
import type { CascadeLayout, MaterialBox, RecycleShape, StepBox, StockShape } from '../../../../core/cascade/shapes.ts';

interface LabelsProps {
  readonly result: PlanResult;
  readonly layout: CascadeLayout;
  readonly chosen: string | null;
}

/** Words and controls over the drawing: what each block holds, each step's number and its yield. */
export function CascadeLabels({ result, layout, chosen }: LabelsProps) {
  const markers = useRef<HTMLOListElement>(null);
  const onKeyDown = useRoving(markers, '.cascade-marker');
  const boxes = new Map(layout.steps.map((box) => [box.step, box]));
  return (
    <>
      {layout.materials.map((box) => (
        <MaterialLabel key={box.material} result={result} box={box} column={layout.column} />
      ))}
      {layout.stocks.map((shape) => (
        <StockLabel key={`${shape.material} ${shape.draw}`} result={result} shape={shape} />
      ))}
      {layout.recycles.map((shape) => (
        <RecycleLabel key={shape.key} result={result} shape={shape} />
      ))}
      <ol class="cascade-steps" ref={markers} onKeyDown={onKeyDown} aria-label={planWords.cascade.steps}>
        {result.steps.map((step) => {
          const box = boxes.get(step.id);
          return box && <StepLabel key={step.id} result={result} step={step} box={box} chosen={step.id === chosen} />;
        })}
      </ol>
    </>
  );
}

/** In narrower columns there is no room for the moles beside a band that rises, px; the table has them. */
const COLUMN_FOR_MOLES = 216;

/** A letter of a material's name is about so wide, px: beside a rising band a name of two lines leaves no room for the moles. */
const LETTER = 7;

/** A name that may break anywhere but behind the numbers it begins with: no "4-" alone on its line. */
function Unbroken({ name }: { readonly name: string }) {
  return (
    <>{name.split(/(\d['′]?-\p{L})/u).map((part, at) => (at % 2 === 0 ? part : <span class="cascade-locant">{part}</span>))}</>
  );
}

interface MaterialLabelProps {
  readonly result: PlanResult;
  readonly box: MaterialBox;
  /** Width of a column, px. */
  readonly column: number;
}

function MaterialLabel({ result, box, column }: MaterialLabelProps) {
  const name = result.materials[box.material]?.name ?? box.material;
  const { grams, moles } = amountsIn(result, box.material);
  const { rising, room } = box.label;
  const hasMoles = !rising || (column >= COLUMN_FOR_MOLES && name.length * LETTER <= room);
  return (
    <div
      class={`cascade-material${box.label.below ? ' below' : ''}${box.label.rising ? ' rising' : ''}`}
      style={{ left: `${box.x}px`, top: `${box.label.y}px`, width: `${box.label.room}px` }}
    >
      <span class="cascade-name" title={name}>
        <Unbroken name={name} />
      </span>
      {grams?.value === 0 ? (
        <span class="cascade-none">{planWords.cascade.none}</span>
      ) : (
        <>
          <Amount figure={grams} size="large" />
          {hasMoles && <Amount figure={moles} size="small" plain />}
        </>
      )}
    </div>
  );
}

/** All of a material that its block holds: the basis of its step, or the sum of what leaves the block. */
function amountsIn(result: PlanResult, material: string): { grams: Figure | null; moles: Figure | null } {
  const users = result.steps.filter((step) => step.basis.material === material);
  const leaving = result.flow.bands.filter((band) => band.material === material);
  const [only] = users;
  if (only && users.length === 1 && leaving.every((band) => band.to.kind === 'step')) return only.basis;
  const sum = (unit: 'g' | 'mol', figures: readonly Figure[]): Figure =>
    computed(
      planWords.cascade.inAll(result.materials[material]?.name ?? material),
      figures.reduce((total, figure) => total + figure.value, 0),
      unit,
      planWords.cascade.sum,
      figures,
    );
  return {
    grams: sum(
      'g',
      leaving.map((band) => band.grams),
    ),
    moles: sum(
      'mol',
      leaving.map((band) => band.moles),
    ),
  };
}

function StockLabel({ result, shape }: { readonly result: PlanResult; readonly shape: StockShape }) {
  const bands = result.flow.bands.filter(
    ({ from, to, material }) =>
      from.kind === 'stock' &&
      material === shape.material &&
      (shape.draw === null || (to.kind === 'draw' && to.draw === shape.draw)),
  );
  const grams = bands.reduce((sum, band) => sum + band.grams.value, 0);
  const [first] = bands;
  if (!first) return null;
  const figure =
    bands.length === 1
      ? first.grams
      : computed(
          planWords.cascade.fromShelf,
          grams,
          'g',
          planWords.cascade.sum,
          bands.map((band) => band.grams),
        );
  return (
    <div class="cascade-stock-label" style={{ left: `${shape.x}px`, top: `${shape.top}px` }}>
      <span>{planWords.cascade.shelf}</span>
      <Amount figure={figure} size="small" />
    </div>
  );
}

function RecycleLabel({ result, shape }: { readonly result: PlanResult; readonly shape: RecycleShape }) {
  const band = result.flow.bands.find((one) => one.recycle && one.material === shape.material);
  const name = result.materials[shape.material]?.name ?? shape.material;
  return (
    <div class="cascade-recycle-label" style={{ left: `${(shape.up + shape.down) / 2}px`, top: `${shape.lane}px` }}>
      <span>{planWords.cascade.comesBack(name)}</span>
      <Amount figure={band?.grams ?? null} size="small" />
    </div>
  );
}

interface StepLabelProps {
  readonly result: PlanResult;
  readonly step: StepPlan;
  readonly box: StepBox;
  readonly chosen: boolean;
}

function StepLabel({ result, step, box, chosen }: StepLabelProps) {
  return (
    <li class={`${step.active ? '' : 'idle'} ${box.labelWidth < 116 ? 'narrow' : ''}`}>
      <button
        type="button"
        class="cascade-marker"
        style={{ left: `${box.x}px`, top: `${(box.top + box.bottom) / 2}px` }}
        aria-label={stepName(result, step)}
        aria-current={chosen ? 'step' : undefined}
        title={step.title}
        onClick={() => chooseStep(step.id)}
      >
        {step.number}
      </button>
      <div class="cascade-step" style={{ left: `${box.x}px`, top: `${box.bottom}px`, '--room': `${box.labelWidth}px` }}>
        <span class="cascade-title" title={step.title}>
          <Unbroken name={step.title} />
        </span>
        <YieldField step={step.id} title={step.title} />
      </div>
    </li>
  );
}

/** E.g. "Step 2, oxidation: 19.9 g benzoin gives 18.2 g benzil". */
function stepName(result: PlanResult, step: StepPlan): string {
  const shown = (figure: Figure): string => {
    const { text, unit } = formatAmount(figure, decimalMark);
    return `${text} ${unit}`;
  };
  return planWords.cascade.step({
    number: step.number,
    title: step.title,
    basis: `${shown(step.basis.grams)} ${result.materials[step.basis.material]?.name ?? ''}`,
    product: `${shown(step.product.grams)} ${result.materials[step.product.material]?.name ?? ''}`,
    idle: !step.active,
    batches: step.batches.count,
  });
}
