import { CASCADE } from './measures.ts';
import type { BandShape, LeftOverShape, LossShape, RecycleShape, StockShape } from './shapes.ts';

/** Shapes as SVG path data. Thin bands are drawn at least this thick, so that they can be seen. */
const LEAST_BAND = 1.5;
/** Where along a bend its handles stand, as parts of its length. */
const EVEN = [0.5, 0.5] as const;
const LATE = [0.92, 0.62] as const;
type Point = { readonly x: number; readonly y: number };
const n = (value: number): string => String(Math.round(value * 100) / 100);

/** A band: along its upper edge to the right, back along its lower edge. */
export function bandPath(band: BandShape): string {
  const height = Math.max(band.height, LEAST_BAND);
  const [first, ...rest] = band.points;
  if (!first) return '';
  const segments = rest.map((to, index) => ({ from: band.points[index] ?? first, to }));
  const upper = segments.map(({ from, to }) => bend(from, to, to.late));
  const last = band.points.at(-1) ?? first;
  const lower = segments.toReversed().map(({ from, to }) => bend(below(to, height), below(from, height), to.late));
  return `M${n(first.x)} ${n(first.y)}${upper.join('')}L${n(last.x)} ${n(last.y + height)}${lower.join('')}Z`;
}

const below = ({ x, y }: Point, by: number): Point => ({ x, y: y + by });

/** A curve that leaves and arrives level; the same curve whichever way it is run. */
function bend(from: Point, to: Point, late: boolean): string {
  if (Math.abs(from.y - to.y) < 0.005) return `L${n(to.x)} ${n(to.y)}`;
  const [left, right] = from.x < to.x ? [from.x, to.x] : [to.x, from.x];
  const [leave, arrive] = late ? LATE : EVEN;
  const nearLeft = left + (right - left) * leave;
  const nearRight = left + (right - left) * arrive;
  const [one, other] = from.x < to.x ? [nearLeft, nearRight] : [nearRight, nearLeft];
  return `C${n(one)} ${n(from.y)} ${n(other)} ${n(to.y)} ${n(to.x)} ${n(to.y)}`;
}

/** The loss at a step: as tall as what is lost at the step's line, running out to nothing below. */
export function lossPath({ x, y, height, length }: LossShape): string {
  const droop = 10 + height * 0.25;
  const bottom = y + height;
  const tipX = x + length;
  const tipY = bottom + droop;
  return [
    `M${n(x)} ${n(y)}`,
    `C${n(x + length * 0.45)} ${n(y + 2)} ${n(x + length * 0.75)} ${n(bottom - droop * 0.2)} ${n(tipX)} ${n(tipY)}`,
    `C${n(x + length * 0.7)} ${n(bottom + droop * 0.55)} ${n(x + length * 0.35)} ${n(bottom)} ${n(x)} ${n(bottom)}Z`,
  ].join('');
}

/** Stock: down from above, then level into the block's upper left. */
export function stockPath({ x, top, toX, toY, height }: StockShape): string {
  const h = Math.max(height, LEAST_BAND);
  const half = Math.min(h, (toX - x) * 0.7) / 2;
  return [
    `M${n(x - half)} ${n(top)}L${n(x + half)} ${n(top)}`,
    `C${n(x + half)} ${n(toY - 2)} ${n(x + half + 4)} ${n(toY)} ${n(toX)} ${n(toY)}`,
    `L${n(toX)} ${n(toY + h)}`,
    `C${n(x + 2)} ${n(toY + h)} ${n(x - half)} ${n(toY + h * 0.6)} ${n(x - half)} ${n(top)}Z`,
  ].join('');
}

/** What is left over runs out to a point. */
export function leftOverPath({ x, y, height, length }: LeftOverShape): string {
  const h = Math.max(height, LEAST_BAND);
  return `M${n(x)} ${n(y)}C${n(x + length * 0.6)} ${n(y)} ${n(x + length * 0.8)} ${n(y + h)} ${n(x + length)} ${n(y + h)}L${n(x)} ${n(y + h)}Z`;
}

/** The tip in front of a draw: as tall as its band and a little more. */
export function arrowPath(x: number, middle: number, height: number): string {
  const half = Math.max(6, height / 2 + 2);
  const length = CASCADE.arrow - 1;
  return `M${n(x)} ${n(middle - half)}L${n(x + length)} ${n(middle)}L${n(x)} ${n(middle + half)}Z`;
}

/** A recycle as the middle line of its band: down, back underneath everything, and up again. */
export function recyclePath({ from, to, down, up, lane }: RecycleShape): string {
  const r = 10;
  return [
    `M${n(from.x)} ${n(from.y)}`,
    `C${n(down - 4)} ${n(from.y)} ${n(down)} ${n(from.y + 6)} ${n(down)} ${n(from.y + 24)}`,
    `L${n(down)} ${n(lane - r)}Q${n(down)} ${n(lane)} ${n(down - r)} ${n(lane)}`,
    `L${n(up + r)} ${n(lane)}Q${n(up)} ${n(lane)} ${n(up)} ${n(lane - r)}`,
    `L${n(up)} ${n(to.y + r)}Q${n(up)} ${n(to.y)} ${n(up + Math.min(r, Math.max(1, to.x - up)))} ${n(to.y)}`,
    `L${n(to.x)} ${n(to.y)}`,
  ].join('');
}

/** Batches as parallel strokes over the step's line; many of them as the most that are drawn. */
export function batchesPath(x: number, top: number, count: number): string {
  const { most, apart, long } = CASCADE.ticks;
  const drawn = Math.min(count, most);
  const first = x - ((drawn - 1) * apart) / 2;
  return Array.from({ length: drawn }, (_, at) => `M${n(first + at * apart)} ${n(top - long)}V${n(top)}`).join('');
}
