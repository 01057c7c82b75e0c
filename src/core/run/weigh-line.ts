import type { Material } from '../matter/material.ts';
import type { Reference } from '../reference.ts';
import type { Bottle } from '../shelf/shelf.ts';
import { unknown, type Why } from '../words/why.ts';
import { readBalanceText } from './balance-text.ts';
import type { Charged, RunEntry } from './entry.ts';
import { isShare } from './sources.ts';
import { type ChargeState, inUnitOf, less, type Weighing } from './state.ts';
import { type Verdict, verdictOf } from './target.ts';
import { contentsOf } from './weighed.ts';

/** Everything a line means something against, while a charge is weighed. */
export interface AtTheBalance {
  readonly charge: ChargeState;
  readonly by: string;
  /** Whether a second person looks at each weighing. */
  readonly secondCheck: boolean;
  /** The bottle it is taken from; null for the tap, a dish, or one that is not on the shelf. */
  readonly bottle: Bottle | null;
  /** What it is taken from where that is no bottle, in the person's words; '' where nobody said. */
  readonly named?: string;
  /** As the route names it. */
  readonly material: Material;
  readonly reference: Reference;
  /** Real ÷ planned of the run whose dish this is; null where it comes from no dish, or that is not known. */
  readonly dish: number | null;
}

export type LineMeaning =
  /** To be written at once. */
  { readonly ok: true; readonly entry: RunEntry } | { readonly ok: false; readonly why: Why };

const CELSIUS = /^([+-]?\d{1,4}(?:[.,]\d{1,3})?)\s*°\s*C$/iu;

/** A temperature as a thermometer or a person types it, `78.5 °C`; null for anything else. */
export function readCelsius(text: string): number | null {
  const found = CELSIUS.exec(text.trim().replaceAll('−', '-'));
  const value = found ? Number((found[1] ?? '').replace(',', '.')) : Number.NaN;
  return Number.isFinite(value) && value >= -200 && value <= 1000 ? value : null;
}

/**
 * What a typed line does at a charge: a weighing in range is taken; any other, and one that a second person has to see
 * first, is written as a reading. Tare and gross come one after the other: after a tare a plain number is the gross.
 */
export function weighLine(text: string, at: AtTheBalance): LineMeaning {
  const { charge, by, secondCheck, reference } = at;
  if (at.bottle === null && at.dish !== null && ALL.test(text.trim())) return wholeDish(at, at.dish);
  const read = readBalanceText(text, charge.charge.unit, reference.rows.balanceTexts);
  if (!read.ok) return read;
  const { amount, unit } = read;
  const base = {
    kind: 'reading',
    by,
    charge: charge.charge.id,
    portion: portionOf(charge),
    amount,
    unit,
    text: text.trim(),
    ...(at.bottle ? { bottle: at.bottle.id } : {}),
  } as const;
  if (read.what === 'tare') return { ok: true, entry: { ...base, what: 'tare' } };
  if (read.what === 'gross' && charge.tare === null) return unknown('gross without tare');
  const isGross = charge.tare !== null;
  if (isGross && amount <= (charge.tare ?? 0)) return unknown('gross not above tare', { tare: charge.tare ?? 0, gross: amount });
  const weighing: Weighing = isGross
    ? { net: less(amount, charge.tare ?? 0), unit, text: base.text, tare: charge.tare ?? 0, gross: amount }
    : { net: amount, unit, text: base.text };
  const verdict = verdictAt(charge, weighing, at.bottle?.id ?? null);
  if (!verdict) return unknown('weighed without density', { material: charge.charge.name, unit: charge.charge.unit });
  const good = verdict.kind === 'in range' || verdict.kind === 'recorded';
  if (!good || secondCheck) return { ok: true, entry: { ...base, what: isGross ? 'gross' : 'net' } };
  return { ok: true, entry: takenEntry(at, weighing, { complete: completes(charge, weighing, at.bottle?.id ?? null) }) };
}

/** All of a dish, unweighed. */
const ALL = /^all$/i;

/**
 * How much the dish of an earlier step holds as planned, where all of it goes in now and its bottles have given their
 * share; null where only a part of the dish is planned, or something else is next. In the charge's unit.
 */
export function dishNow({ charge, parts }: ChargeState): number | null {
  if (charge.wholeDish === undefined) return null;
  const weighed = parts.filter((part) => part.bottle !== null).length;
  return weighed === parts.length && weighed >= charge.bottles.length ? charge.wholeDish : null;
}

/**
 * The whole dish of the step before goes in as it is and is not weighed: counted as planned, in the proportion in which
 * that step was really begun. The record says so. A dish of which only a part is planned is weighed: all of it would be
 * more than the rest of the sheet is for.
 */
function wholeDish(at: AtTheBalance, dish: number): LineMeaning {
  const { charge } = at.charge;
  const planned = dishNow(at.charge);
  if (planned === null) return unknown('dish not whole', { material: charge.name });
  const net = Number((planned * dish).toFixed(Math.max(6, charge.decimals)));
  const weighing: Weighing = { net, unit: charge.unit, text: 'all' };
  if (!at.secondCheck) return { ok: true, entry: takenEntry({ ...at, bottle: null }, weighing, { complete: true }) };
  const portion = portionOf(at.charge);
  const reading = { kind: 'reading', by: at.by, charge: charge.id, portion, what: 'net', amount: net } as const;
  return { ok: true, entry: { ...reading, unit: charge.unit, text: 'all' } };
}

/** Stands in the record where a dish was not weighed. */
export const NOT_WEIGHED = 'all of the dish, not weighed: counted as planned, in proportion to the step before';

/** Whether nothing more of a charge follows a weighing that is taken: it was the last portion, and of the last source. */
export function completes(charge: ChargeState, weighing: Weighing, bottle: string | null): boolean {
  if (portionOf(charge) < charge.charge.portions) return false;
  const amount = inUnitOf(charge.charge, weighing.net, weighing.unit);
  return amount === null || !isShare(charge, amount, bottle);
}

/**
 * What a weighing comes to; null where it was weighed in another unit and no density is known.
 * @param bottle label of what it is taken from; null for a dish or none.
 */
export function verdictAt(charge: ChargeState, weighing: Weighing, bottle: string | null): Verdict | null {
  const amount = inUnitOf(charge.charge, weighing.net, weighing.unit);
  if (charge.untold) return { kind: 'untold' };
  if (amount === null) return null;
  if (isShare(charge, amount, bottle)) return { kind: charge.charge.isBasis ? 'recorded' : 'in range' };
  const { portions, decimals } = charge.charge;
  return verdictOf(charge.target, amount, charge.net ?? 0, portionOf(charge), portions, decimals);
}

/** The portion that is next, from 1. */
export function portionOf(charge: ChargeState): number {
  return charge.parts.length + 1;
}

type Taking = Pick<Charged, 'complete'> & Partial<Pick<Charged, 'deviation' | 'checkedBy'>>;

/** The entry of a weighing that is taken. */
export function takenEntry(
  { charge, by, bottle, named = '', material, reference }: AtTheBalance,
  weighing: Weighing,
  taking: Taking,
): Charged {
  const { net, unit } = weighing;
  const { taken, moles, density } = contentsOf(charge.charge, net, unit, bottle, material, reference);
  const planned = charge.charge.bottles.some((one) => one.bottle === bottle?.id);
  return {
    kind: 'charged',
    by,
    charge: charge.charge.id,
    portion: portionOf(charge),
    ...weighing,
    bottle: bottle?.id ?? null,
    lot: bottle ? (bottle.lot ?? '') : named,
    taken,
    // Of what nobody said how strong it is, the plan's own strength says nothing.
    moles: charge.untold && !bottle ? null : moles,
    // A bottle that the plan took without a density of its own has the plan's.
    ...(unit === 'mL' && bottle ? { gramsPerMillilitre: density ?? (planned ? charge.charge.gramsPerMillilitre : null) } : {}),
    ...(ALL.test(weighing.text) ? { deviation: NOT_WEIGHED } : {}),
    ...taking,
  };
}
