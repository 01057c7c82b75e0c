import { factsOf } from '../matter/facts.ts';
import { NEAT } from '../matter/form.ts';
import type { Material } from '../matter/material.ts';
import { gramsPerMillilitre } from '../matter/solution.ts';
import { decimalsOf, roundTo } from '../quantity/round.ts';
import type { Reference } from '../reference.ts';
import type { Bottle } from '../shelf/shelf.ts';
import type { RunCharge } from './run-sheet.ts';
import { shareNow } from './sources.ts';
import { type ChargeState, inUnitOf } from './state.ts';
import type { Target } from './target.ts';
import { contentsOf } from './weighed.ts';

/**
 * What a charge asks for from the bottle in hand. A target was worked out for the strength of what the plan takes; of
 * another strength another amount brings the same moles, less what the parts before have brought.
 */

/** What a charge is taken from now. */
export interface InHand {
  /** Null for the tap, a dish, or what is on no shelf. */
  readonly bottle: Pick<Bottle, 'id' | 'form' | 'unit'> | null;
  /** Somebody said that it comes from no bottle of the shelf. */
  readonly elsewhere: boolean;
  /** Part by which a planned bottle's strength may be off what the plan reckons with, ≥ 0. */
  readonly margin: number;
  /** As the route names it. */
  readonly material: Material;
  readonly reference: Reference;
}

/** Two strengths that differ by less than this part are one: what an assay is rounded to. */
const SAME = 0.005;

/**
 * The charge with the target and range that hold for what is in hand: (planned moles − moles of the parts so far) ÷ what
 * a g or mL of it holds; it is then `reworked`. Unchanged where the strengths are the plan's; `untold`, with no target at all, where the
 * strength of what is in hand, or of a part before, is not known.
 */
export function chargeInHand(state: ChargeState, inHand: InHand): ChargeState {
  const { charge, target, parts, net } = state;
  const wanted = charge.molesPerUnit;
  if (wanted === null || target.target === null) return state;
  const per = strengthInHand(charge, inHand);
  if (isAsPlanned(state, inHand, per === null ? null : per / wanted - 1)) return state;
  const brought = parts.flatMap((part) => (part.moles === null ? [] : [part.moles]));
  const same = per !== null && isNear(per, wanted) && parts.every((part) => broughtAsPlanned(charge, part));
  if (same) return state;
  if (per === null || net === null || brought.length < parts.length) {
    return { ...state, target: { target: null, low: null, high: null }, untold: true };
  }
  const moles = brought.reduce((sum, one) => sum + one, 0);
  const last = parts.length + 1 >= charge.portions;
  const before = last ? net : 0;
  // The first of a bottle is set to a line of its device; what tops up a part is what it is.
  const line = parts.length === 0 && charge.portions === 1 ? charge.line : undefined;
  const toTake = (value: number): number => (value * wanted - (last ? moles : 0)) / per;
  const density = inHand.bottle ? densityOf(inHand) : charge.gramsPerMillilitre;
  return {
    ...state,
    charge: { ...charge, gramsPerMillilitre: density },
    target: rounded(target, toTake, before, line, charge.decimals),
    reworked: true,
  };
}

/** mol per unit of the charge of what is in hand; null where that cannot be told. */
function strengthInHand(charge: RunCharge, { bottle, elsewhere, material, reference }: InHand): number | null {
  if (bottle) return charge.asStock ? null : contentsOf(charge, 1, charge.unit, bottle, material, reference).moles;
  const planned = charge.restMolesPerUnit ?? charge.molesPerUnit;
  if (!elsewhere || charge.isBasis || charge.bottles.length === 0) return planned;
  // Planned as the pure material, it is taken for pure; of a solution nobody said how strong another one is.
  const pure = contentsOf(charge, 1, charge.unit, { form: NEAT, unit: charge.unit }, material, reference).moles;
  return pure !== null && planned !== null && isNear(pure, planned) ? planned : null;
}

/** Nothing was said but what the plan says: its own source gives the part that is its own. */
function isAsPlanned(state: ChargeState, { bottle, elsewhere, margin }: InHand, off: number | null): boolean {
  const share = shareNow(state, bottle?.id ?? null);
  if (share && !share.last) return true;
  if (state.parts.length > 0) return false;
  if (!bottle) return !elsewhere;
  const planned = state.charge.bottles.some((one) => one.bottle === bottle.id);
  return planned && off !== null && Math.abs(off) <= SAME + margin;
}

/**
 * What the parts of a charge have brought, and what was to be brought, in mol of the active material, where one of them
 * came from a bottle of another strength than planned; null where none did, or what one brought is not known.
 */
export function otherStrength({
  charge,
  target,
  parts,
}: ChargeState): { readonly brought: number; readonly wanted: number } | null {
  const moles = parts.flatMap((part) => (part.moles === null ? [] : [part.moles]));
  const planned = new Set(charge.bottles.map((one) => one.bottle));
  const other = parts.some((part) => part.bottle !== null && !planned.has(part.bottle) && !broughtAsPlanned(charge, part));
  if (!other || moles.length < parts.length || charge.molesPerUnit === null || target.target === null) return null;
  return { brought: moles.reduce((sum, one) => sum + one, 0), wanted: target.target * charge.molesPerUnit };
}

/** Whether a part brought what the plan reckoned for as much of it. */
function broughtAsPlanned(charge: RunCharge, { net, unit, moles }: ChargeState['parts'][number]): boolean {
  const amount = inUnitOf(charge, net, unit);
  return amount !== null && moles !== null && charge.molesPerUnit !== null && isNear(moles, amount * charge.molesPerUnit);
}

const isNear = (value: number, of: number): boolean => Math.abs(value / of - 1) <= SAME;

function densityOf({ bottle, material, reference }: InHand): number | null {
  if (!bottle) return null;
  const found = gramsPerMillilitre(factsOf(material, reference), bottle.form, reference);
  return found.ok ? found.figure.value : null;
}

/** A target and its range, each turned into what is to be taken, as the device shows it. */
function rounded(
  { target, low, high }: Target,
  toTake: (value: number) => number,
  before: number,
  line: number | undefined,
  decimals: number,
): Target {
  const shown = (value: number | null, step: number): number | null =>
    value === null ? null : Number((before + roundTo(toTake(value), step)).toFixed(Math.max(decimals, decimalsOf(step))));
  const step = 10 ** -decimals;
  const [from, to] = [shown(low, step), shown(high, step)];
  const set = shown(target, line ?? step);
  // Rounded to a coarser line it never leaves its own range.
  const kept = set === null ? null : Math.min(to ?? set, Math.max(from ?? set, set));
  return { target: kept, low: from, high: to };
}
