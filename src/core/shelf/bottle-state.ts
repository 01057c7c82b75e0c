import type { Form } from '../matter/form.ts';
import { lacksWater } from './wet-form.ts';

export const STATE_KINDS = ['good', 'soon', 'out of date', 'held back', 'empty', 'unknown strength'] as const;
export type StateKind = (typeof STATE_KINDS)[number];

export type BottleState = { readonly kind: Exclude<StateKind, 'soon'> } | { readonly kind: 'soon'; readonly days: number };

/** So many days ahead a use-by date is worth a word. */
export const SOON_DAYS = 30;
const DAY = 86_400_000;

interface StateInput {
  readonly left: number;
  readonly form: Form;
  readonly heldBack: boolean;
  readonly useBy: string | null;
  /** Water found in it, % w/w, where it is not in the form yet. */
  readonly water?: number | null;
}

/**
 * The one thing to know about a bottle first, on a day. What keeps it out of a plan comes before what does not.
 * @param today ISO date; empty where it is not known yet, and then no date counts as passed.
 */
export function bottleState(bottle: StateInput, today: string): BottleState {
  if (bottle.left <= 0) return { kind: 'empty' };
  if (bottle.heldBack) return { kind: 'held back' };
  if (bottle.form.kind === 'unknown' || lacksWater(bottle.form, bottle.water)) return { kind: 'unknown strength' };
  if (bottle.useBy === null || today === '') return { kind: 'good' };
  const days = dayNumber(bottle.useBy) - dayNumber(today);
  if (days < 0) return { kind: 'out of date' };
  return days <= SOON_DAYS ? { kind: 'soon', days } : { kind: 'good' };
}

/** Days since 1 January 1970 of an ISO date. */
export function dayNumber(date: string): number {
  return Math.round(Date.parse(date) / DAY);
}
