import type { BenchPlot } from '../../core/bench/bench-section.ts';
import { formatSignificant } from '../../core/quantity/format.ts';
import { decimalMark } from './locale.ts';

const SIZE = { width: 220, height: 110, left: 34, bottom: 20, top: 8, right: 8 } as const;

/** Points and the line through them, small; the points can be read as a list too. */
export function PlotOfPoints({ plot, label }: { readonly plot: BenchPlot; readonly label: string }) {
  const all = [...plot.points, ...plot.curve];
  const [fromX, toX] = [Math.min(...all.map((one) => one.x)), Math.max(...all.map((one) => one.x))];
  const toY = Math.max(...all.map((one) => one.y));
  const x = (value: number): number =>
    SIZE.left + ((value - fromX) / Math.max(1e-12, toX - fromX)) * (SIZE.width - SIZE.left - SIZE.right);
  const y = (value: number): number =>
    SIZE.height - SIZE.bottom - (value / Math.max(1e-12, toY)) * (SIZE.height - SIZE.bottom - SIZE.top);
  const shown = (value: number): string => formatSignificant(value, 3, decimalMark);
  const read = plot.points.map((point) => `${shown(point.x)} ${plot.x}: ${shown(point.y)} ${plot.y}`).join('; ');
  return (
    <figure class="bench-plot">
      <svg
        viewBox={`0 0 ${SIZE.width} ${SIZE.height}`}
        width={SIZE.width}
        height={SIZE.height}
        role="img"
        aria-label={`${label}. ${read}`}
      >
        <path class="plot-axis" d={`M${SIZE.left} ${SIZE.top}V${SIZE.height - SIZE.bottom}H${SIZE.width - SIZE.right}`} />
        <path
          class="plot-line"
          d={plot.curve.map((one, at) => `${at === 0 ? 'M' : 'L'}${x(one.x).toFixed(1)} ${y(one.y).toFixed(1)}`).join('')}
        />
        {plot.points.map((point) => (
          <circle key={point.x} class="plot-point" cx={x(point.x)} cy={y(point.y)} r={3} />
        ))}
        <text x={SIZE.left - 4} y={y(toY) + 4} text-anchor="end">
          {shown(toY)}
        </text>
        <text x={SIZE.left} y={SIZE.height - 6}>
          {shown(fromX)} {plot.x}
        </text>
        <text x={SIZE.width - SIZE.right} y={SIZE.height - 6} text-anchor="end">
          {shown(toX)} {plot.x}
        </text>
      </svg>
      <figcaption class="soft small">{label}</figcaption>
    </figure>
  );
}
