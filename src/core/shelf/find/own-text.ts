import type { ShelfColumns } from './columns.ts';

/** Stands between the texts of two bottles; no folded text holds it. */
const BETWEEN = '\u0001';

interface OwnText {
  readonly version: number;
  readonly all: string;
  /** Where each bottle's text begins, and one place after the last. */
  readonly begins: Int32Array;
}

const kept = new WeakMap<ShelfColumns, OwnText>();

function ownText(columns: ShelfColumns): OwnText {
  const known = kept.get(columns);
  if (known?.version === columns.versions.own) return known;
  const { own } = columns;
  const begins = new Int32Array(own.length + 1);
  let at = 0;
  for (let position = 0; position < own.length; position += 1) {
    begins[position] = at;
    at += (own[position] ?? '').length + BETWEEN.length;
  }
  begins[own.length] = at;
  const made = { version: columns.versions.own, all: own.join(BETWEEN), begins };
  kept.set(columns, made);
  return made;
}

/** Flags of the bottles whose label or lot holds a folded text; null where none does. */
export function ownHits(columns: ShelfColumns, text: string): Uint8Array | null {
  const { all, begins } = ownText(columns);
  let hit = all.indexOf(text);
  if (hit === -1) return null;
  const flags = new Uint8Array(columns.own.length);
  let position = 0;
  while (hit !== -1) {
    position = holderOf(begins, hit, position);
    flags[position] = 1;
    hit = all.indexOf(text, begins[position + 1] ?? all.length);
  }
  return flags;
}

/** Whose text a place lies in, from a position on: looked for in growing strides, then by halving. */
function holderOf(begins: Int32Array, place: number, from: number): number {
  let low = from;
  let stride = 1;
  while (low + stride < begins.length && (begins[low + stride] ?? 0) <= place) {
    low += stride;
    stride *= 2;
  }
  let high = Math.min(low + stride, begins.length - 1);
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((begins[middle] ?? 0) <= place) low = middle;
    else high = middle;
  }
  return low;
}
