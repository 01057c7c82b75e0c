import type { RunRow } from '../../../core/port/runs.ts';
import { formatAmount } from '../../../core/quantity/format.ts';
import { learnedWords as words } from '../../../core/words/learned-words.ts';
import { decimalMark } from '../../parts/locale.ts';

interface LearnedPlotProps {
  readonly rows: readonly (RunRow & { readonly yieldPercent: number; readonly weight: number })[];
  /** Fractions of theory. */
  readonly spread: { readonly p10: number; readonly median: number; readonly p90: number };
}

const [WIDTH, HEIGHT] = [420, 220];
const PLOT = { top: 10, bottom: 176, strip: 78, from: 128, to: 404 };

/** Every run as a dot: at the left all in one row, at the right against the basis charged; the predicted span behind. */
export function LearnedPlot({ rows, spread }: LearnedPlotProps) {
  const [low, high] = spanOf([...rows.map((row) => row.yieldPercent), 100 * spread.p10, 100 * spread.p90]);
  const y = (percent: number): number => PLOT.bottom - ((percent - low) / (high - low)) * (PLOT.bottom - PLOT.top);
  const scales = rows.flatMap((row) => (row.basisGrams === null ? [] : [Math.log10(row.basisGrams)]));
  const [least, most] = [Math.min(...scales) - 0.15, Math.max(...scales) + 0.15];
  const x = (grams: number): number =>
    PLOT.from + 12 + ((Math.log10(grams) - least) / (most - least)) * (PLOT.to - PLOT.from - 24);
  const band = { top: y(100 * spread.p90), bottom: y(100 * spread.p10) };
  return (
    <svg class="learned-plot" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={words.plot(rows.length)}>
      <rect class="learned-band" x={40} width={PLOT.to - 40} y={band.top} height={Math.max(1, band.bottom - band.top)} />
      <path class="learned-median" d={`M40 ${y(100 * spread.median)}H${PLOT.to}`} />
      {ticksOf(low, high).map((tick) => (
        <g key={tick}>
          <path class="learned-rule" d={`M36 ${y(tick)}H${PLOT.to}`} />
          <text class="learned-tick" x={32} y={y(tick) + 4} text-anchor="end">
            {tick} %
          </text>
        </g>
      ))}
      {rows.map((row, at) => (
        <Dot key={row.id} cx={PLOT.strip + nudge(rows, at)} cy={y(row.yieldPercent)} weight={row.weight} />
      ))}
      {rows.map((row) =>
        row.basisGrams === null ? null : <Dot key={row.id} cx={x(row.basisGrams)} cy={y(row.yieldPercent)} weight={row.weight} />,
      )}
      <text class="learned-tick" x={PLOT.strip} y={HEIGHT - 8} text-anchor="middle">
        {words.all}
      </text>
      <text class="learned-tick" x={(PLOT.from + PLOT.to) / 2} y={HEIGHT - 8} text-anchor="middle">
        {words.scale}
      </text>
      {scales.length > 0 &&
        endsOf(scales).map((end) => (
          <text key={end} class="learned-tick" x={x(10 ** end)} y={PLOT.bottom + 18} text-anchor="middle">
            {gramsText(10 ** end)}
          </text>
        ))}
    </svg>
  );
}

/** A run that is left out is an empty ring. */
function Dot({ cx, cy, weight }: { readonly cx: number; readonly cy: number; readonly weight: number }) {
  return <circle class={weight > 0 ? 'learned-dot' : 'learned-dot learned-out'} cx={cx} cy={cy} r={weight > 1 ? 6.5 : 5} />;
}

/** Runs of nearly the same yield stand beside each other. */
function nudge(rows: LearnedPlotProps['rows'], at: number): number {
  const own = rows[at]?.yieldPercent ?? 0;
  const before = rows.slice(0, at).filter((row) => Math.abs(row.yieldPercent - own) < 2.5).length;
  return (before % 2 === 0 ? 1 : -1) * Math.ceil(before / 2) * 11;
}

/** Whole tens around what is shown. */
function spanOf(percents: readonly number[]): readonly [number, number] {
  const low = Math.max(0, Math.floor(Math.min(...percents) / 10) * 10);
  const high = Math.ceil(Math.max(...percents) / 10) * 10;
  return [low, Math.max(high, low + 10)];
}

function ticksOf(low: number, high: number): readonly number[] {
  const step = high - low > 50 ? 20 : 10;
  return Array.from({ length: Math.floor((high - low) / step) + 1 }, (_, at) => low + at * step);
}

const endsOf = (scales: readonly number[]): readonly number[] => [...new Set([Math.min(...scales), Math.max(...scales)])];

function gramsText(value: number): string {
  const { text, unit } = formatAmount({ value, unit: 'g', digits: 3 }, decimalMark);
  return `${text} ${unit}`;
}
