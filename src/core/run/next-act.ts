import type { ChargeEntry, HoldEntry, RemovalEntry, StageBlock } from '../paper/sheet.ts';
import type { RunSheet } from './run-sheet.ts';
import { shiftTarget } from './target.ts';
import { type ChargeState, READ_FIRST, type RunState } from './state.ts';

/** What stands to be done now: one thing at a time. */
export type NextAct =
  /** The head of the sheet: read and signed before anything is weighed. */
  | { readonly kind: 'read' }
  /** `early`: the basis, weighed before its place because the others follow it. */
  | {
      readonly kind: 'weigh';
      readonly entry: ChargeEntry;
      readonly charge: ChargeState;
      readonly stage: StageBlock;
      readonly early: boolean;
    }
  /** The basis was weighed differently: scale what follows, or leave it. */
  | { readonly kind: 'rescale'; readonly factor: number }
  /** The basis, weighed before, goes in here. */
  | { readonly kind: 'add'; readonly entry: ChargeEntry; readonly charge: ChargeState; readonly stage: StageBlock }
  | { readonly kind: 'hold'; readonly entry: HoldEntry; readonly stage: StageBlock }
  | { readonly kind: 'removal'; readonly entry: RemovalEntry; readonly stage: StageBlock }
  | { readonly kind: 'product' };

/** A basis this close to the plan is the plan's: its factor, as it is said, would be 1.000. Part of the whole. */
const SAME_BASIS = 5e-4;

/** What is to be done next: operations in the order of the sheet, but the basis weighed before what follows it. */
export function nextAct(sheet: RunSheet, state: RunState): NextAct {
  const charges = new Map(state.charges.map((one) => [one.charge.id, one]));
  const places = sheet.sheet.stages.flatMap((stage) => stage.entries.map((entry) => ({ stage, entry })));
  if (!state.confirmed.has(READ_FIRST)) return { kind: 'read' };
  const firstWeighed = places.find(({ entry }) => entry.do === 'charge');
  for (const { stage, entry } of places) {
    const charge = charges.get(entry.id);
    if (entry.do !== 'charge' || !charge?.charge.isBasis || charge.complete) continue;
    if (firstWeighed && charges.get(firstWeighed.entry.id)?.charge.isBasis) break;
    return { kind: 'weigh', entry, charge, stage, early: true };
  }
  const factor = basisFactor(sheet, state);
  if (factor !== null && state.factor === null && Math.abs(factor - 1) > sameBasis(state) && followers(state, factor)) {
    return { kind: 'rescale', factor };
  }
  for (const { stage, entry } of places) {
    if (entry.do === 'hold' && !state.confirmed.has(entry.id)) return { kind: 'hold', entry, stage };
    if (entry.do === 'removal' && !state.confirmed.has(entry.id)) return { kind: 'removal', entry, stage };
    const charge = charges.get(entry.id);
    if (entry.do !== 'charge' || !charge) continue;
    if (!charge.complete) return { kind: 'weigh', entry, charge, stage, early: false };
    if (charge.charge.isBasis && entry.id !== firstWeighed?.entry.id && !state.confirmed.has(entry.id)) {
      return { kind: 'add', entry, charge, stage };
    }
  }
  return { kind: 'product' };
}

/** A factor that is none, but goes through the same rounding. */
const UNCHANGED = 1 + 1e-12;

/** How far a basis may be off and still be the plan's: by the rounding of its target to what its device shows. */
function sameBasis(state: RunState): number {
  const rounding = state.charges.flatMap(({ charge: { isBasis, target, line, decimals } }) =>
    isBasis && target !== null && target > 0 ? [(0.5 * (line ?? 10 ** -decimals)) / target] : [],
  );
  return Math.max(SAME_BASIS, ...rounding);
}

/** Real ÷ planned contained basis once all of it is weighed; null before, or where its moles cannot be told. */
export function basisFactor(sheet: RunSheet, state: RunState): number | null {
  const basis = state.charges.filter((one) => one.charge.isBasis);
  if (basis.length === 0 || basis.some((one) => !one.complete)) return null;
  const moles = basis.flatMap((one) => one.parts.map((part) => part.moles));
  if (moles.some((one) => one === null)) return null;
  const sum = moles.reduce<number>((total, one) => total + (one ?? 0), 0);
  return sum > 0 ? sum / sheet.basis.moles : null;
}

/** Whether a charge that is still to be weighed would get another target, as its device shows it. */
function followers(state: RunState, factor: number): boolean {
  return state.charges.some(({ charge, complete }) => {
    if (complete || charge.isBasis || !charge.scales) return false;
    const shown = (target: number | null): string => (target ?? 0).toFixed(charge.decimals);
    const then = shown(shiftTarget(charge, factor).target);
    // What only its own rounding would change is not changed by the basis.
    return then !== shown(charge.target) && then !== shown(shiftTarget(charge, UNCHANGED).target);
  });
}
