import type { Material } from '../matter/material.ts';
import type { Reference } from '../reference.ts';
import type { Bottle } from '../shelf/shelf.ts';
import { unknown, type Why } from '../words/why.ts';
import { readBalanceText } from './balance-text.ts';
import type { Charged, RunEntry } from './entry.ts';
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
  if (at.dish !== null && ALL.test(text.trim())) return wholeDish(at, at.dish);
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
  } as const;
  if (read.what === 'tare') return { ok: true, entry: { ...base, what: 'tare' } };
  if (read.what === 'gross' && charge.tare === null) return unknown('gross without tare');
  const isGross = charge.tare !== null;
  if (isGross && amount <= (charge.tare ?? 0)) return unknown('gross not above tare', { tare: charge.tare ?? 0, gross: amount });
  const weighing: Weighing = isGross
    ? { net: less(amount, charge.tare ?? 0), unit, text: base.text, tare: charge.tare ?? 0, gross: amount }
    : { net: amount, unit, text: base.text };
  const verdict = verdictAt(charge, weighing);
  if (!verdict) return unknown('weighed without density', { material: charge.charge.name, unit: charge.charge.unit });
  const good = verdict.kind === 'in range' || verdict.kind === 'recorded';
  if (!good || secondCheck) return { ok: true, entry: { ...base, what: isGross ? 'gross' : 'net' } };
  return { ok: true, entry: takenEntry(at, weighing, { complete: portionOf(charge) >= charge.charge.portions }) };
}

/** All of a dish, unweighed. */
const ALL = /^all$/i;

/**
 * The whole dish of the step before goes in as it is and is not weighed: counted as planned, in the proportion in which
 * that step was really begun. The record says so.
 */
function wholeDish(at: AtTheBalance, dish: number): LineMeaning {
  const { charge } = at.charge;
  const planned = charge.exact ?? charge.target;
  if (planned === null || planned <= 0 || at.charge.parts.length > 0) return unknown('dish unknown', { material: charge.name });
  const net = Number((planned * dish).toFixed(Math.max(6, charge.decimals)));
  const weighing: Weighing = { net, unit: charge.unit, text: 'all' };
  if (!at.secondCheck) return { ok: true, entry: takenEntry({ ...at, bottle: null }, weighing, { complete: true }) };
  const reading = { kind: 'reading', by: at.by, charge: charge.id, portion: 1, what: 'net', amount: net } as const;
  return { ok: true, entry: { ...reading, unit: charge.unit, text: 'all' } };
}

/** Stands in the record where a dish was not weighed. */
export const NOT_WEIGHED = 'all of the dish, not weighed: counted as planned, in proportion to the step before';

/** What a weighing comes to; null where it was weighed in another unit and no density is known. */
export function verdictAt(charge: ChargeState, weighing: Weighing): Verdict | null {
  const amount = inUnitOf(charge.charge, weighing.net, weighing.unit);
  if (amount === null) return null;
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
  { charge, by, bottle, material, reference }: AtTheBalance,
  weighing: Weighing,
  taking: Taking,
): Charged {
  const { net, unit } = weighing;
  const { taken, moles } = contentsOf(charge.charge, net, unit, bottle, material, reference);
  return {
    kind: 'charged',
    by,
    charge: charge.charge.id,
    portion: portionOf(charge),
    ...weighing,
    bottle: bottle?.id ?? null,
    lot: bottle?.lot ?? '',
    taken,
    moles,
    ...(ALL.test(weighing.text) ? { deviation: NOT_WEIGHED } : {}),
    ...taking,
  };
}
