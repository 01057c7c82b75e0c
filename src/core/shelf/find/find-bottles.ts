import type { Meant } from '../../matter/meant-materials.ts';
import { NO_DATE, type ShelfColumns } from './columns.ts';
import { applyFilter, type Filter } from './filters.ts';
import type { HazardGroup } from './hazard-groups.ts';
import { orderBy, type Sort } from './orders.ts';
import { searchTerms } from './search-text.ts';
import { heldFlags, lookUp, nearFlags, occurs, type Word } from './words.ts';

export interface Question {
  readonly search: string;
  readonly filter: Filter;
  readonly sort: Sort;
  /** Backwards. */
  readonly down: boolean;
  /** ISO date the states and use-by dates are told for. */
  readonly today: string;
}

export interface Knowing {
  /** What a typed text means among materials. */
  readonly meant: (typed: string) => Meant;
  /** Hazard groups of a material at its strength. */
  readonly hazards: (presented: number) => ReadonlySet<HazardGroup>;
}

export interface FoundBottles {
  /** Positions in the columns, in the order asked for. */
  readonly positions: Int32Array;
  /** Where nothing was spelled as typed: the names that are nearly so, which were taken instead. */
  readonly nearly: readonly string[];
}

/**
 * The bottles that answer a search and its filters. Every word must be found: in a name, another name, the formula, the CAS
 * number, the label, the lot, the place or the supplier, in any spelling of it; a search may also mean a material as a
 * whole. Where that finds nothing, words that occur nowhere are taken for the names nearest to them.
 */
export function findBottles(columns: ShelfColumns, question: Question, knowing: Knowing): FoundBottles {
  const passing = new Uint8Array(columns.row.length).fill(1);
  applyFilter(passing, columns, question.filter, question.today, knowing.hazards);
  const terms = searchTerms(question.search);
  if (terms.length === 0) return { positions: inOrder(columns, question, passing), nearly: [] };
  const words = terms.map((term) => lookUp(columns, term, knowing.meant(term)));
  const found = withEvery(passing, columns, words);
  // "Oil of vitriol" means something only as a whole.
  if (terms.length > 1) addHeld(found, passing, columns, heldFlags(columns, knowing.meant(question.search)));
  const positions = inOrder(columns, question, found);
  return positions.length > 0 ? { positions, nearly: [] } : nearlySpelled(columns, question, passing, words);
}

/** Positions that are flagged, in the order asked for. What has no date stays last in either direction. */
function inOrder(columns: ShelfColumns, { sort, down }: Question, flags: Uint8Array): Int32Array {
  const order = orderBy(columns, sort);
  const found = new Int32Array(order.length);
  let count = 0;
  for (let step = 0; step < order.length; step += 1) {
    const position = order[step] ?? 0;
    if (flags[position] === 1) found[count++] = position;
  }
  const upward = found.subarray(0, count);
  if (!down) return upward;
  const undated = sort === 'useBy' ? upward.findIndex((position) => columns.useBy[position] === NO_DATE) : -1;
  if (undated === -1) return upward.reverse();
  upward.subarray(0, undated).reverse();
  upward.subarray(undated).reverse();
  return upward;
}

function withEvery(passing: Uint8Array, columns: ShelfColumns, words: readonly Word[]): Uint8Array {
  const flags = passing.slice();
  for (const word of words) keepWord(flags, columns, word);
  return flags;
}

const NOWHERE = new Uint8Array(0);

function keepWord(flags: Uint8Array, columns: ShelfColumns, { holdings, places, suppliers, own }: Word): void {
  const { material, place, supplier } = columns;
  const label = own ?? NOWHERE;
  for (let at = 0; at < flags.length; at += 1) {
    if (flags[at] === 0) continue;
    if (holdings[material[at] ?? 0] === 1 || places[place[at] ?? 0] === 1) continue;
    if (suppliers[supplier[at] ?? 0] !== 1 && label[at] !== 1) flags[at] = 0;
  }
}

function addHeld(flags: Uint8Array, passing: Uint8Array, { material }: ShelfColumns, held: Uint8Array | null): void {
  if (held === null) return;
  for (let at = 0; at < flags.length; at += 1) if (passing[at] === 1 && held[material[at] ?? -1] === 1) flags[at] = 1;
}

/** More names than this are not named. */
const MOST_NAMED = 3;

function nearlySpelled(columns: ShelfColumns, question: Question, passing: Uint8Array, words: readonly Word[]): FoundBottles {
  const nearer = words.map((word) => (occurs(word) ? word : { ...word, holdings: nearFlags(columns, word.term) }));
  const flags = withEvery(passing, columns, nearer);
  const positions = inOrder(columns, question, flags);
  const names = new Set<string>();
  for (const position of positions) {
    if (names.size >= MOST_NAMED) break;
    names.add(columns.holdings[columns.material[position] ?? -1]?.material.name ?? '');
  }
  return { positions, nearly: [...names] };
}
