import type { ChargeEntry, HoldEntry, RemovalEntry, StageBlock } from '../paper/sheet.ts';
import type { RunSheet } from './run-sheet.ts';
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

/** A basis this close to the plan changes no target by what a balance shows; part of the whole. */
const SAME_BASIS = 1e-4;

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
  if (factor !== null && state.factor === null && Math.abs(factor - 1) > SAME_BASIS && followers(state)) {
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

/** Real ÷ planned contained basis once all of it is weighed; null before, or where its moles cannot be told. */
export function basisFactor(sheet: RunSheet, state: RunState): number | null {
  const basis = state.charges.filter((one) => one.charge.isBasis);
  if (basis.length === 0 || basis.some((one) => !one.complete)) return null;
  const moles = basis.flatMap((one) => one.parts.map((part) => part.moles));
  if (moles.some((one) => one === null)) return null;
  const sum = moles.reduce<number>((total, one) => total + (one ?? 0), 0);
  return sum > 0 ? sum / sheet.basis.moles : null;
}

/** Whether a charge that follows the basis is still to be weighed. */
function followers(state: RunState): boolean {
  return state.charges.some((one) => !one.charge.isBasis && one.charge.scales && !one.complete);
}
