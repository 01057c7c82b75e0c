import './cascade.css';
import './cascade-labels.css';
import {
  arrowPath,
  bandPath,
  batchesPath,
  leftOverPath,
  lossPath,
  recyclePath,
  stockPath,
} from '../../../../core/cascade/paths.ts';
import { CASCADE } from '../../../../core/cascade/measures.ts';
import type { CascadeLayout, StepBox } from '../../../../core/cascade/shapes.ts';

interface CascadeSvgProps {
  readonly layout: CascadeLayout;
  readonly label: string;
  readonly chosen: string | null;
  /** Steps that need no start because stock covers them. */
  readonly idle: ReadonlySet<string>;
  /** Number of batches by step. */
  readonly batches: ReadonlyMap<string, number>;
}

/** The drawing under the labels: blocks, bands, losses, stock, recycles and the steps' lines. */
export function CascadeSvg({ layout, label, chosen, idle, batches }: CascadeSvgProps) {
  return (
    <svg class="cascade-svg" width={layout.width} height={layout.height} role="img" aria-label={label}>
      <Paints />
      {layout.recycles.map((shape) => (
        <path key={shape.key} class="cascade-recycle" d={recyclePath(shape)} stroke-width={Math.max(2, shape.height)} />
      ))}
      {layout.losses.map((shape) => (
        <path key={shape.step} class="cascade-loss" d={lossPath(shape)} />
      ))}
      {layout.leftOver.map((shape) => (
        <path key={shape.material} class="cascade-left-over" d={leftOverPath(shape)} />
      ))}
      {layout.stocks.map((shape) => (
        <path key={`${shape.material} ${shape.draw}`} class="cascade-stock" d={stockPath(shape)} />
      ))}
      {layout.bands.map((band) => (
        <path key={band.key} class={`cascade-band into-${band.into}`} d={bandPath(band)} />
      ))}
      {layout.materials.map((box) => (
        <rect key={box.material} class="cascade-block" x={box.x} y={box.y} width={box.width} height={Math.max(1.5, box.height)} />
      ))}
      {layout.steps.map((box) => (
        <StepLine
          key={box.step}
          box={box}
          chosen={box.step === chosen}
          idle={idle.has(box.step)}
          batches={batches.get(box.step) ?? 1}
        />
      ))}
      {layout.draws.map((port) => (
        <path key={port.draw} class="cascade-arrow" d={arrowPath(layout.width - CASCADE.arrow, port.y, port.height)} />
      ))}
    </svg>
  );
}

interface StepLineProps {
  readonly box: StepBox;
  readonly chosen: boolean;
  readonly idle: boolean;
  readonly batches: number;
}

function StepLine({ box, chosen, idle, batches }: StepLineProps) {
  const look = `cascade-line${chosen ? ' chosen' : ''}${idle ? ' idle' : ''}`;
  return (
    <>
      <line class={look} x1={box.x} x2={box.x} y1={box.top - 2} y2={box.bottom + 8} />
      {batches > 1 && <path class={`${look} cascade-batches`} d={batchesPath(box.x, box.top - 5, batches)} />}
    </>
  );
}

/** Hatching for what is lost; soft gradients that run with the flow. Colours come from the style sheet. */
function Paints() {
  return (
    <defs>
      <pattern id="loss-hatch" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <rect class="hatch-ground" width="5" height="5" />
        <line class="hatch-line" x1="0" x2="0" y1="0" y2="5" />
      </pattern>
      <linearGradient id="flow-block">
        <stop class="flow-pale" offset="0" />
        <stop class="flow-mid" offset="1" />
      </linearGradient>
      <linearGradient id="flow-on">
        <stop class="flow-mid" offset="0" />
        <stop class="flow-full" offset="1" />
      </linearGradient>
      <linearGradient id="flow-to">
        <stop class="flow-full" offset="0" />
        <stop class="flow-pale" offset="1" />
      </linearGradient>
      <linearGradient id="flow-draw">
        <stop class="flow-pale" offset="0" />
        <stop class="flow-full" offset="1" />
      </linearGradient>
    </defs>
  );
}
