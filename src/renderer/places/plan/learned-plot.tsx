import type { RunRow } from '../../../core/port/runs.ts';
import { formatSignificant, shownUnit } from '../../../core/quantity/format.ts';
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
      {scales.length > 0 &&
        gramTicks(least, most).map((grams) => (
          <g key={grams}>
            <path class="learned-rule" d={`M${x(grams)} ${PLOT.top}V${PLOT.bottom + 4}`} />
            <text class="learned-tick" x={x(grams)} y={PLOT.bottom + 18} text-anchor="middle">
              {gramsText(grams)}
            </text>
          </g>
        ))}
      {rows.map((row, at) => (
        <Dot key={row.id} cx={PLOT.strip + nudge(rows, at, y)} cy={y(row.yieldPercent)} row={row} />
      ))}
      {rows.map((row) =>
        row.basisGrams === null ? null : <Dot key={row.id} cx={x(row.basisGrams)} cy={y(row.yieldPercent)} row={row} />,
      )}
      <text class="learned-tick" x={PLOT.strip} y={HEIGHT - 8} text-anchor="middle">
        {words.all}
      </text>
      <text class="learned-tick" x={(PLOT.from + PLOT.to) / 2} y={HEIGHT - 8} text-anchor="middle">
        {words.scale}
      </text>
    </svg>
  );
}

/** A run that is left out is an empty ring. */
function Dot({ cx, cy, row }: { readonly cx: number; readonly cy: number; readonly row: LearnedPlotProps['rows'][number] }) {
  const { id, weight, yieldPercent, basisGrams } = row;
  const shown = `${formatSignificant(yieldPercent, 3, decimalMark)} %`;
  return (
    <circle class={weight > 0 ? 'learned-dot' : 'learned-dot learned-out'} cx={cx} cy={cy} r={weight > 1 ? 6.5 : 5}>
      <title>{words.dot(id, shown, basisGrams === null ? '' : gramsText(basisGrams))}</title>
    </circle>
  );
}

/** Two dots closer than this would lie on each other. */
const DOT = 11;

/** Runs of nearly the same yield stand beside each other. */
function nudge(rows: LearnedPlotProps['rows'], at: number, y: (percent: number) => number): number {
  const own = y(rows[at]?.yieldPercent ?? 0);
  const before = rows.slice(0, at).filter((row) => Math.abs(y(row.yieldPercent) - own) < DOT).length;
  return (before % 2 === 0 ? 1 : -1) * Math.ceil(before / 2) * DOT;
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

/** Powers of ten between two logarithms; where they are fewer than two, 1, 2 and 5 of each. */
function gramTicks(least: number, most: number): readonly number[] {
  const powers = Array.from({ length: Math.ceil(most) - Math.floor(least) + 1 }, (_none, at) => Math.floor(least) + at);
  const inside = (of: readonly number[]): readonly number[] =>
    powers
      .flatMap((power) => of.map((times) => Number(`${times}e${power}`)))
      .filter((grams) => Math.log10(grams) >= least && Math.log10(grams) <= most);
  const tens = inside([1]);
  return tens.length > 1 ? tens : inside([1, 2, 5]);
}

function gramsText(value: number): string {
  const { unit, factor } = shownUnit(value, 'g');
  return `${String(Number((value * factor).toPrecision(3))).replace('.', decimalMark)} ${unit}`;
}
