import { signal } from '@preact/signals';
import { foldName } from '../../core/matter/facts.ts';
import type { Material } from '../../core/matter/material.ts';
import { bottlesByMaterial } from '../../core/plan/route-stock.ts';
import type { ChargeState } from '../../core/run/state.ts';
import { contentsOf } from '../../core/run/weighed.ts';
import type { Bottle } from '../../core/shelf/shelf.ts';
import { planInput } from './plan-result.ts';
import { route } from './plan-route.ts';
import { reference, settings, today } from './workbook.ts';

/** The label chosen for a charge, by its id; null: from no bottle. */
const labels = signal<ReadonlyMap<string, string | null>>(new Map());

/** Bottles on the shelf of the material of a charge. */
export function bottlesOf(material: string): readonly Bottle[] {
  return planInput.value ? (bottlesByMaterial(planInput.value).get(material) ?? []) : [];
}

/** The bottle a charge is taken from: the one that was scanned, else the planned one, else the only one there is. */
export function bottleFor({ charge, parts }: ChargeState): Bottle | null {
  const own = bottlesOf(charge.material);
  const label = labels.value.get(charge.id);
  if (label !== undefined) return own.find((one) => one.id === label) ?? null;
  const last = own.find((one) => one.id === parts.at(-1)?.bottle);
  const planned = charge.bottles.map((share) => own.find((one) => one.id === share.bottle)).filter((one) => one !== undefined);
  // A planned bottle that the parts before have emptied of its share makes room for the next.
  const open = planned.find((one) => takenFrom(parts, one.id) < shareOf(charge, one.id) * ALMOST);
  const only = own.length === 1 ? own[0] : undefined;
  return open ?? last ?? planned[0] ?? (only && fits(charge, only) ? only : null);
}

/** Whether a bottle holds what the target was worked out for; of the basis any strength will do, it is only recorded. */
export function fits(charge: ChargeState['charge'], bottle: Bottle): boolean {
  if (!reference.value) return false;
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

/** A bottle of the shelf by what was scanned or typed: its label, or the lot of a bottle of the charge's material. */
export function bottleCalled(line: string, material: string): Bottle | undefined {
  const byLabel = planInput.value?.shelf.bottles.find((one) => foldName(one.id) === foldName(line));
  return byLabel ?? bottlesOf(material).find((one) => one.lot !== undefined && foldName(one.lot) === foldName(line));
}

/** Takes a charge from this bottle from now on. */
export function chooseBottle(charge: string, code: string): void {
  labels.value = new Map([...labels.value, [charge, code]]);
}

export const expired = (bottle: Bottle): boolean => bottle.useBy !== undefined && bottle.useBy < today.value;
