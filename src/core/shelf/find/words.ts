import { foldForSearch, foldPlural, isNearly } from '../../matter/fold-name.ts';
import type { Meant } from '../../matter/meant-materials.ts';
import type { Holding, ShelfColumns } from './columns.ts';
import { ownHits } from './own-text.ts';
import { foldText } from './search-text.ts';

/** Where a typed word was found: flags by material, place and supplier, and by position for what is a bottle's own. */
export interface Word {
  readonly term: string;
  readonly holdings: Uint8Array;
  readonly places: Uint8Array;
  readonly suppliers: Uint8Array;
  readonly own: Uint8Array | null;
}

/** Letters and digits alone are compared from here on: fewer would be found everywhere. */
const SHORTEST_SPELLED = 3;

/** Looks a word up among everything that is written on the bottles; `meant` is what it means among materials. */
export function lookUp(columns: ShelfColumns, term: string, meant: Meant): Word {
  const text = foldText(term);
  const letters = foldForSearch(term);
  const spelled = letters.length >= SHORTEST_SPELLED ? foldPlural(letters) : null;
  const isHeld = heldTest(meant);
  const holdings = flagged(
    columns.holdings,
    (one) => one.folded.includes(text) || (spelled !== null && one.spelled.includes(spelled)) || isHeld(one),
  );
  const within = (one: string): boolean => one.includes(text);
  return {
    term,
    holdings,
    places: flagged(columns.places.folded, within),
    suppliers: flagged(columns.suppliers.folded, within),
    own: ownHits(columns, text),
  };
}

/** Whether a word stands on any bottle at all. */
export function occurs({ holdings, places, suppliers, own }: Word): boolean {
  return holdings.includes(1) || places.includes(1) || suppliers.includes(1) || own !== null;
}

/** Flags of the materials that a text means: told by CAS number, or by name where a bottle's material carries none. */
export function heldFlags(columns: ShelfColumns, meant: Meant): Uint8Array | null {
  return meant.cas.length === 0 ? null : flagged(columns.holdings, heldTest(meant));
}

function heldTest({ cas, names }: Meant): (holding: Holding) => boolean {
  if (cas.length === 0) return () => false;
  const numbers = new Set(cas);
  const called = new Set(names);
  return ({ material, nameKey }) => (material.cas === undefined ? called.has(nameKey) : numbers.has(material.cas));
}

const SHORTEST_NEAR = 5;
const LONG = 9;
const LONGEST_NEAR = 60;

/** Flags of the materials whose name, or its beginning, is nearly spelled like a word. */
export function nearFlags(columns: ShelfColumns, term: string): Uint8Array {
  const typed = foldForSearch(term);
  if (typed.length < SHORTEST_NEAR || typed.length > LONGEST_NEAR) return new Uint8Array(columns.holdings.length);
  const most = typed.length >= LONG ? 2 : 1;
  // A slip in the first letter is rare, and asking for it leaves few names to compare letter by letter.
  return flagged(columns.holdings, ({ names }) => names.some((name) => name[0] === typed[0] && isNearly(typed, name, most)));
}

function flagged<T>(list: readonly T[], test: (one: T) => boolean): Uint8Array {
  const flags = new Uint8Array(list.length);
  for (const [at, one] of list.entries()) if (test(one)) flags[at] = 1;
  return flags;
}
