import * as z from 'zod/mini';
import { type DecimalMark, formatSignificant } from '../quantity/format.ts';
import type { SectionWords } from '../words/section-words.ts';
import type { BenchPlot } from './bench-section.ts';

const Text = z.string().check(z.maxLength(2000));
const Shape = z.strictObject({ kind: z.enum(['inside', 'grid', 'axis', 'line', 'dashed', 'mark']), path: Text });
const Word = z.strictObject({ x: z.number(), y: z.number(), anchor: z.enum(['start', 'middle', 'end']), text: Text });

/** A plot as it is drawn, px, with all its words: for the screen, and kept with a paper. */
export const PlotPicture = z.strictObject({
  width: z.number(),
  height: z.number(),
  shapes: z.array(Shape).check(z.maxLength(200)),
  points: z.array(z.strictObject({ x: z.number(), y: z.number() })).check(z.maxLength(200)),
  words: z.array(Word).check(z.maxLength(200)),
  label: Text,
});
export type PlotPicture = z.infer<typeof PlotPicture>;

const SIZE = { width: 328, height: 176, left: 40, right: 26, top: 18, bottom: 24 } as const;
const RIGHT = SIZE.width - SIZE.right;
const FLOOR = SIZE.height - SIZE.bottom;
/** Two marks nearer than this, px, and a mark this near to an edge, give way. */
const APART = 26;

interface Scale {
  readonly x: (value: number) => number;
  readonly y: (value: number) => number;
  readonly xTicks: readonly number[];
  readonly yTicks: readonly number[];
}

/** Draws a plot: shaded where there are points, lines, points, and what is marked. Screen and paper show the same. */
export function plotPicture(plot: BenchPlot, words: SectionWords, mark: DecimalMark): PlotPicture {
  const scale = scaleOf(plot);
  const { x, y, xTicks, yTicks } = scale;
  const path = (at: readonly { readonly x: number; readonly y: number }[]): string =>
    at.map((one, nth) => `${nth === 0 ? 'M' : 'L'}${px(x(one.x))} ${px(y(one.y))}`).join('');
  const [from, to] = [x(plot.inside.from), x(plot.inside.to)];
  return {
    width: SIZE.width,
    height: SIZE.height,
    shapes: [
      { kind: 'inside', path: `M${px(from)} ${SIZE.top}H${px(to)}V${FLOOR}H${px(from)}Z` },
      ...yTicks.slice(1).map((tick) => ({ kind: 'grid' as const, path: `M${SIZE.left} ${px(y(tick))}H${RIGHT}` })),
      ...plot.marks.map((one) => ({ kind: 'mark' as const, path: `M${px(x(one.x))} ${SIZE.top}V${FLOOR}` })),
      { kind: 'axis', path: `M${SIZE.left} ${SIZE.top}V${FLOOR}H${RIGHT}` },
      ...plot.lines.map((line) => ({ kind: line.dashed ? ('dashed' as const) : ('line' as const), path: path(line.at) })),
    ],
    points: plot.points.map((one) => ({ x: px(x(one.x)), y: px(y(one.y)) })),
    words: [
      ...yTicks.map((tick) => word(SIZE.left - 5, y(tick) + 4, 'end', tickText(tick, mark))),
      ...xTicks.map((tick, at) => {
        const last = at === xTicks.length - 1;
        return word(x(tick), FLOOR + 16, 'middle', last ? `${tickText(tick, mark)} ${plot.x}` : tickText(tick, mark));
      }),
      ...plot.marks.map((one) => word(held(x(one.x)), SIZE.top - 6, 'middle', words.marks?.[one.name] ?? one.name)),
    ],
    label: words.plots?.[plot.name]?.(plot.values) ?? plot.name,
  };
}

function word(x: number, y: number, anchor: PlotPicture['words'][number]['anchor'], text: string): PlotPicture['words'][number] {
  return { x: px(x), y: px(y), anchor, text };
}

/** The words of a mark stay inside the picture. */
function held(x: number): number {
  return Math.min(SIZE.width - APART / 2, Math.max(APART / 2, x));
}

function scaleOf(plot: BenchPlot): Scale {
  const xs = [...plot.points.map((one) => one.x), ...plot.marks.map((one) => one.x)];
  const ys = [...plot.points, ...plot.lines.flatMap((line) => line.at)].map((one) => one.y).filter(Number.isFinite);
  const [fromX, toX] = [Math.min(...xs), Math.max(...xs)];
  const most = Math.max(...ys);
  const [, step = most] = ticks(0, most, 4);
  // The axis ends on the first round number the values stay below.
  const toY = step * Math.ceil(most / step - 1e-9);
  const yTicks = ticks(0, toY, 5);
  return {
    x: (value) => SIZE.left + ((value - fromX) / Math.max(1e-9, toX - fromX)) * (RIGHT - SIZE.left),
    y: (value) => FLOOR - (value / Math.max(1e-12, toY)) * (FLOOR - SIZE.top),
    xTicks: ticks(fromX, toX, 5),
    yTicks,
  };
}

/** Round numbers from one value to another, at most so many steps: 1, 2 or 5 times a power of ten. */
function ticks(from: number, to: number, most: number): readonly number[] {
  const rough = Math.max(1e-9, to - from) / most;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = power * ([1, 2, 5].find((one) => one * power >= rough) ?? 10);
  const first = Math.ceil(from / step - 1e-9);
  const count = Math.floor(to / step + 1e-9) - first;
  return Array.from({ length: count + 1 }, (_, at) => Number(((first + at) * step).toPrecision(12)));
}

function tickText(value: number, mark: DecimalMark): string {
  const text = String(value).replace('-', '−');
  return mark === ',' ? text.replace('.', ',') : text;
}

function px(value: number): number {
  return Number(value.toFixed(1));
}

/** The plot as a table of texts: its heads, and a row for each point. */
export function plotTable(
  plot: BenchPlot,
  words: SectionWords,
  mark: DecimalMark,
): { readonly heads: readonly string[]; readonly rows: readonly (readonly string[])[] } {
  const text = (value: number | null, at: number): string => {
    if (value === null) return '–';
    return at === 0 ? tickText(value, mark) : formatSignificant(value, 3, mark);
  };
  return {
    heads: plot.table.columns.map((column) => words.columns?.[column] ?? column),
    rows: plot.table.rows.map((row) => row.map(text)),
  };
}
