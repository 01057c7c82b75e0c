import { signal } from '@preact/signals';
import { foldLabel, labelMeant } from '../../core/code/label-meant.ts';
import type { Material } from '../../core/matter/material.ts';
import { bottlesByMaterial } from '../../core/plan/stock/route-stock.ts';
import { chargeInHand } from '../../core/run/in-hand.ts';
import { shareNow } from '../../core/run/sources.ts';
import type { ChargeState } from '../../core/run/state.ts';
import { contentsOf } from '../../core/run/weighed.ts';
import type { Bottle } from '../../core/shelf/shelf.ts';
import { planInput } from './plan-result.ts';
import { keepInWindow, textsIn, type WindowStore } from './kept-in-window.ts';
import { route } from './plan-route.ts';
import { run } from './run-store.ts';
import { reference, settings, today } from './workbook.ts';

/** What is chosen holds for the run that is open: another batch, or another plan, has charges of the same ids. */
const keyOf = (charge: string): string => `${run.value?.id ?? 0}/${charge}`;

/** Before the label of a bottle that was chosen, and before the name of what is on no shelf. */
const [BOTTLE, NONE] = ['bottle ', 'none '];

/** What was chosen for a charge, by its run and id: a bottle, or what is on no shelf as it was named. */
const chosen = signal<Readonly<Record<string, string>>>({});

function choose(charge: string, what: string): void {
  chosen.value = { ...chosen.value, [keyOf(charge)]: what };
}

/** The label chosen for a charge; null: from no bottle; undefined: nothing was chosen. */
function labelOf(charge: string): string | null | undefined {
  const found = chosen.value[keyOf(charge)];
  if (found === undefined) return undefined;
  return found.startsWith(BOTTLE) ? found.slice(BOTTLE.length) : null;
}

/** Keeps what was chosen over a reload of the window. */
export const keepSourcesIn = (store: WindowStore): (() => void) => keepInWindow(store, 'backweigh taken from', chosen, textsIn);

/** Bottles on the shelf of the material of a charge. */
export function bottlesOf(material: string): readonly Bottle[] {
  return planInput.value ? (bottlesByMaterial(planInput.value).get(material) ?? []) : [];
}

/** The bottle a charge is taken from: the one that was scanned, else the planned one, else the only one there is. */
export function bottleFor(state: ChargeState): Bottle | null {
  const { charge, parts } = state;
  const own = bottlesOf(charge.material);
  const label = labelOf(charge.id);
  const next = [null, ...charge.bottles.map((one) => one.bottle)].find((one) => shareNow(state, one) !== null);
  // A bottle that was scanned for the part before makes room for the planned source that comes next.
  const done = next !== undefined && next !== label && parts.some((part) => part.bottle === label);
  if (label !== undefined && !done) return own.find((one) => one.id === label) ?? null;
  // What waits on the balance stays with its bottle, whatever this window has forgotten or another one chose.
  const read = label === undefined ? own.find((one) => one.id === state.readFrom) : undefined;
  if (read) return read;
  if (next === null) return null;
  const last = own.find((one) => one.id === parts.at(-1)?.bottle);
  const planned = charge.bottles.map((share) => own.find((one) => one.id === share.bottle)).filter((one) => one !== undefined);
  // A planned bottle that the parts before have emptied of its share makes room for the next.
  const open = planned.find((one) => takenFrom(parts, one.id) < shareOf(charge, one.id) * ALMOST);
  const only = own.length === 1 ? own[0] : onlyFitting(charge, own);
  return open ?? last ?? planned[0] ?? (only && isOffered(charge, only) ? only : null);
}

/** A charge with the target and range that hold for what it is taken from now, whatever its strength. */
export function inHand(state: ChargeState): ChargeState {
  if (!reference.value) return state;
  return chargeInHand(state, {
    bottle: bottleFor(state),
    margin: (settings.value?.strengthMatchPercent ?? 0) / 100,
    elsewhere: labelOf(state.charge.id) === null,
    material: materialOf(state.charge),
    reference: reference.value,
  });
}

/** Where none is planned, the one bottle that holds what is asked for: a make-up that was put on the shelf meanwhile. */
function onlyFitting(charge: ChargeState['charge'], own: readonly Bottle[]): Bottle | undefined {
  if (charge.isBasis || charge.bottles.length > 0) return undefined;
  const fitting = own.filter((one) => isOffered(charge, one) && !expired(one) && one.heldBack !== true);
  return fitting.length === 1 ? fitting[0] : undefined;
}

/** What a charge is taken from where that is no bottle of the shelf, as it was named; '' where it was not. */
export function namedSource({ charge, parts }: ChargeState): string {
  const last = parts.at(-1);
  const found = chosen.value[keyOf(charge.id)];
  if (found?.startsWith(NONE)) return found.slice(NONE.length);
  return last?.bottle === null ? last.lot : '';
}

/** Planned bottles that hold nothing any more: emptied or thrown away since the run began. */
export function goneBottles({ charge }: ChargeState): readonly string[] {
  const own = new Set(bottlesOf(charge.material).map((one) => one.id));
  return charge.bottles.map((share) => share.bottle).filter((code) => !own.has(code));
}

/** Whether a bottle that no plan named is offered: brine, of a strength not known, in mL is not taken from a solid in grams. */
export function isOffered(charge: ChargeState['charge'], bottle: Bottle): boolean {
  if (!charge.isBasis && charge.molesPerUnit === null && charge.unit !== bottle.unit) return false;
  return fits(charge, bottle);
}

/** Whether a bottle holds what the target was worked out for; of the basis any strength will do, it is only recorded. */
export function fits(charge: ChargeState['charge'], bottle: Bottle): boolean {
  if (!reference.value) return false;
  // A stock solution is in no bottle of the shelf.
  if (charge.asStock) return false;
  if (charge.isBasis || charge.molesPerUnit === null) return true;
  const { moles } = contentsOf(charge, 1, charge.unit, bottle, materialOf(charge), reference.value);
  const margin = (settings.value?.strengthMatchPercent ?? 0) / 100 + ROUNDING;
  return moles !== null && Math.abs(moles / charge.molesPerUnit - 1) <= margin;
}

/** What two assays may differ by and still be taken for one, as a part. */
const ROUNDING = 0.005;

/** A charge's material as the route names it. */
export const materialOf = (charge: ChargeState['charge']): Material =>
  route.value?.materials[charge.material] ?? { name: charge.name };

const ALMOST = 0.98;

const takenFrom = (parts: ChargeState['parts'], code: string): number =>
  parts.reduce((sum, part) => (part.bottle === code ? sum + (part.taken ?? 0) : sum), 0);

const shareOf = (charge: ChargeState['charge'], code: string): number =>
  charge.bottles.find((one) => one.bottle === code)?.amount ?? 0;

/** Which bottle of the shelf a scanned or typed text means. */
export type BottleMeant =
  | { readonly kind: 'one'; readonly bottle: Bottle }
  | { readonly kind: 'several'; readonly labels: readonly string[]; readonly by: 'label' | 'lot' }
  | { readonly kind: 'none' };

/** A bottle by its label, or by a lot that only one bottle of the charge's material has. */
export function bottleCalled(line: string, material: string): BottleMeant {
  const all = planInput.value?.shelf.bottles ?? [];
  const byLabel = labelMeant(
    line,
    all.map(({ id }) => id),
  );
  if (byLabel.kind === 'several') return { ...byLabel, by: 'label' };
  const ofLot = bottlesOf(material).filter(({ lot }) => lot !== undefined && foldLabel(lot) === foldLabel(line));
  const bottle = byLabel.kind === 'one' ? all.find(({ id }) => id === byLabel.label) : ofLot.length === 1 ? ofLot[0] : undefined;
  if (bottle) return { kind: 'one', bottle };
  return ofLot.length > 1 ? { kind: 'several', by: 'lot', labels: ofLot.map(({ id }) => id) } : { kind: 'none' };
}

/** Takes a charge from this bottle from now on. */
export function chooseBottle(charge: string, code: string): void {
  choose(charge, `${BOTTLE}${code}`);
}

/** Takes a charge from no bottle of the shelf from now on, but from what is named so. */
export function chooseNone(charge: string, name: string): void {
  choose(charge, `${NONE}${name}`);
}

export const expired = (bottle: Bottle): boolean => bottle.useBy !== undefined && bottle.useBy < today.value;
