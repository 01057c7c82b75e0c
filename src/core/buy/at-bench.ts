import type { Ask } from '../plan/ask.ts';
import type { PlanInput } from '../plan/input.ts';
import { bottlesByMaterial } from '../plan/stock/route-stock.ts';
import { NEAT } from '../matter/form.ts';
import type { RunCharge, RunSheet } from '../run/run-sheet.ts';
import type { ChargeState, RunState } from '../run/state.ts';
import type { Shelf } from '../shelf/shelf.ts';

/** An amount of a bottle, in the bottle's unit. */
export interface OfBottle {
  readonly bottle: string;
  readonly amount: number;
  readonly unit: 'g' | 'mL';
}

/** A batch as it was started, and how far it has come. */
export interface Started {
  readonly id: number;
  readonly sheet: RunSheet;
  readonly state: RunState;
}

/**
 * What batches being weighed are still to take of each bottle: what their sheets say, less what is booked of a charge
 * already, since the ledger has taken that. What was booked counts against the first bottles of the sheet; a charge that
 * is done takes nothing more, and one whose amount so far is not known is counted whole.
 */
export function stillToTake(started: readonly Started[]): readonly OfBottle[] {
  return started.flatMap(({ state }) =>
    state.phase === 'finished' ? [] : state.charges.flatMap((one) => ofCharge(one, state.factor ?? 1)),
  );
}

function ofCharge({ charge, parts, net, complete }: ChargeState, factor: number): readonly OfBottle[] {
  if (complete) return [];
  const scale = charge.scales ? factor : 1;
  const planned = charge.bottles.map(({ bottle, amount, unit }) => ({ bottle, unit, amount: amount * scale }));
  let booked = parts.length === 0 || net === null ? 0 : partBooked(charge, net, scale);
  const share = 1 / Math.max(1, planned.length);
  const whole = planned.reduce((sum, one) => sum + one.amount, 0);
  return planned.flatMap((one): readonly OfBottle[] => {
    // Bottles of one sheet line add up to it; where the units differ, each stands for an equal part.
    const alike = planned.every(({ unit }) => unit === one.unit);
    const part = alike && whole > 0 ? one.amount / whole : share;
    const off = Math.min(booked, part);
    booked -= off;
    const amount = part > 0 ? one.amount * (1 - off / part) : 0;
    return amount > 0 ? [{ ...one, amount }] : [];
  });
}

/** Which part of a charge is booked, 0 … 1. */
function partBooked({ exact, target }: RunCharge, net: number, scale: number): number {
  const whole = (exact ?? target ?? 0) * scale;
  return whole > 0 ? Math.min(1, net / whole) : 1;
}

/**
 * The shelf as the rest of a plan sees it while batches are being weighed: what they are to give stands on it as planned,
 * so that the plan does not ask for those batches again; what they have given stands there by itself.
 */
export function shelfAfter(shelf: Shelf, started: readonly Started[]): Shelf {
  const open = started.filter(
    ({ sheet, state }) => state.phase !== 'finished' && state.products.length === 0 && sheet.product.grams > 0,
  );
  if (open.length === 0) return shelf;
  return {
    ...shelf,
    materials: { ...shelf.materials, ...Object.fromEntries(open.map(({ id, sheet }) => [keyOf(id), sheet.product.holds])) },
    bottles: [
      ...shelf.bottles,
      ...open.map(({ id, sheet }) => ({
        id: keyOf(id),
        material: keyOf(id),
        form: NEAT,
        left: sheet.product.grams,
        unit: 'g' as const,
      })),
    ],
  };
}

/**
 * The ask of the rest of a plan while batches are being weighed. One that counts no stock counts nonetheless what those
 * batches are to give, and nothing else of what the route makes: else it would ask for them once more. `input` has the shelf
 * as it stands.
 */
export function askAfter(input: PlanInput, started: readonly Started[]): Ask {
  const { ask } = input;
  if (ask.useStock !== false || started.length === 0) return ask;
  const steps = input.route.steps.filter(({ id }) => !ask.leaveOut?.includes(id));
  const made = new Set([...steps.map(({ product }) => product), ...ask.draws.map(({ material }) => material)]);
  const onShelf = [...bottlesByMaterial(input)].flatMap(([material, bottles]) =>
    made.has(material) ? bottles.map(({ id }) => id) : [],
  );
  return { ...ask, useStock: true, holdBack: [...(ask.holdBack ?? []), ...onShelf] };
}

const keyOf = (run: number): string => `run-${run}-as-planned`;
