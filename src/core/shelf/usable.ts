import type { Facts } from '../matter/facts.ts';
import { neatFraction } from '../matter/form.ts';
import { molPerGram, molPerMillilitre } from '../matter/solution.ts';
import { computed, type Figure, entered } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import type { Bottle } from './shelf.ts';
import { lacksWater } from './wet-form.ts';

export type PassedOver = 'out of date' | 'unknown strength' | 'held back' | 'assay too low';

/** Why a bottle may not be used on a date; null where it may. */
export function whyNotUsable(bottle: Bottle, asOf: string, heldBack: ReadonlySet<string>): PassedOver | null {
  if (bottle.heldBack || heldBack.has(bottle.id)) return 'held back';
  if (bottle.form.kind === 'unknown' || lacksWater(bottle.form, bottle.waterPercent)) return 'unknown strength';
  return bottle.useBy !== undefined && bottle.useBy < asOf ? 'out of date' : null;
}

/** First to expire first; what has no date comes last; then the fuller, then by name, so that the order is one. */
export function byExpiry(one: Bottle, other: Bottle): number {
  const date = (bottle: Bottle): string => bottle.useBy ?? '9999';
  if (date(one) !== date(other)) return date(one) < date(other) ? -1 : 1;
  if (one.left !== other.left) return other.left - one.left;
  return one.id < other.id ? -1 : 1;
}

/** Assay of a neat bottle as it is weighed, % w/w; 100 where it states none, 0 where it is not known. */
export function assayPercent(bottle: Bottle): number {
  return bottle.form.kind === 'neat' ? (neatFraction(bottle.form) ?? 0) * 100 : 0;
}

/** Contained moles in a bottle, or null where its strength cannot be turned into moles. */
export function containedMoles(bottle: Bottle, facts: Facts, reference: Reference): Figure<'mol'> | null {
  const per = bottle.unit === 'g' ? molPerGram(facts, bottle.form, reference) : molPerMillilitre(facts, bottle.form, reference);
  if (!per.ok) return null;
  const left = entered(`left in ${bottle.lot ?? bottle.id}`, bottle.left, bottle.unit, 'the shelf');
  return computed(
    `${facts.name} in ${bottle.lot ?? bottle.id}`,
    bottle.left * per.figure.value,
    'mol',
    'amount left × moles per unit',
    [left, per.figure],
  );
}
