import * as z from 'zod/mini';
import { dayNumber, SOON_DAYS, STATE_KINDS, type StateKind } from '../bottle-state.ts';
import { NO_DATE, type ShelfColumns } from './columns.ts';
import { HAZARD_GROUPS, type HazardGroup } from './hazard-groups.ts';

export const USE_BY_WINDOWS = ['passed', 'in 30 days', 'in 90 days', 'in a year', 'no date'] as const;
export type UseByWindow = (typeof USE_BY_WINDOWS)[number];

/** What the list is narrowed to; what is left out is not asked for. */
export const Filter = z.strictObject({
  /** A place exactly as it is written; empty for bottles that have none. */
  place: z.optional(z.string().check(z.maxLength(300))),
  state: z.optional(z.enum(STATE_KINDS)),
  hazard: z.optional(z.enum(HAZARD_GROUPS)),
  useBy: z.optional(z.enum(USE_BY_WINDOWS)),
});
export type Filter = z.infer<typeof Filter>;

/**
 * Takes out of the flags (one for each position) the bottles that do not pass a filter on a day (ISO). `hazards` gives the
 * groups of a presentation.
 */
export function applyFilter(
  flags: Uint8Array,
  columns: ShelfColumns,
  filter: Filter,
  today: string,
  hazards: (presented: number) => ReadonlySet<HazardGroup>,
): void {
  const day = dayNumber(today);
  if (filter.place !== undefined) keepEqual(flags, columns.place, columns.places.numbers.get(filter.place) ?? -1);
  if (filter.state !== undefined) keepState(flags, columns, filter.state, day);
  if (filter.useBy !== undefined) keepDays(flags, columns.useBy, WINDOWS[filter.useBy](day));
  if (filter.hazard !== undefined) keepHazard(flags, columns, filter.hazard, hazards);
}

function keepEqual(flags: Uint8Array, column: readonly number[], value: number): void {
  for (let at = 0; at < flags.length; at += 1) if (column[at] !== value) flags[at] = 0;
}

function keepState(flags: Uint8Array, columns: ShelfColumns, asked: StateKind, today: number): void {
  for (let at = 0; at < flags.length; at += 1) if (stateAt(columns, at, today) !== asked) flags[at] = 0;
}

/** As bottleState() tells it, over columns. */
function stateAt({ left, heldBack, known, useBy }: ShelfColumns, at: number, today: number): StateKind {
  if ((left[at] ?? 0) <= 0) return 'empty';
  if (heldBack[at] === 1) return 'held back';
  if (known[at] === 0) return 'unknown strength';
  const days = (useBy[at] ?? NO_DATE) - today;
  if (days < 0) return 'out of date';
  return days <= SOON_DAYS ? 'soon' : 'good';
}

type Days = readonly [first: number, last: number];

const WINDOWS: Readonly<Record<UseByWindow, (today: number) => Days>> = {
  passed: (today) => [-NO_DATE, today - 1],
  'in 30 days': (today) => [today, today + 30],
  'in 90 days': (today) => [today, today + 90],
  'in a year': (today) => [today, today + 365],
  'no date': () => [NO_DATE, NO_DATE],
};

function keepDays(flags: Uint8Array, useBy: readonly number[], [first, last]: Days): void {
  for (let at = 0; at < flags.length; at += 1) {
    const day = useBy[at] ?? NO_DATE;
    if (day < first || day > last) flags[at] = 0;
  }
}

function keepHazard(
  flags: Uint8Array,
  { presented, presentations }: ShelfColumns,
  asked: HazardGroup,
  hazards: (presented: number) => ReadonlySet<HazardGroup>,
): void {
  const has = new Uint8Array(presentations.length);
  for (let number = 0; number < has.length; number += 1) has[number] = Number(hazards(number).has(asked));
  for (let at = 0; at < flags.length; at += 1) if (has[presented[at] ?? -1] !== 1) flags[at] = 0;
}
