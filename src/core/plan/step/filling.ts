import type { Charge, Operation, Removal, Stage, Step } from '../../route/route.ts';
import { onFilter } from './on-filter.ts';
import { liquidsOf, type Pot, volumeOf } from './pot.ts';

/** How full the vessel gets while a step is gone through, all batches together, mL. */
export interface Filling {
  /** Largest volume in the vessel during each stage. */
  readonly peaks: Map<Stage, number>;
  /** The operation that makes the vessel fullest in each stage. */
  readonly fullestAt: Map<Stage, string>;
  /** Smallest volume that is stirred during each stage; stages where nothing is stirred are left out. */
  readonly stirred: Map<Stage, number>;
  /** Liquid that runs off through a filter during each stage, at most; stages without are left out. */
  readonly runsOff: Map<Stage, number>;
  /** Whether there is liquid to stir. */
  fluid: boolean;
  /** Whether what is done now is done on a filter. */
  filtering: boolean;
  /** Of washings on the filter, what is in `runsOff` already. */
  counted: number;
}

/** The filling of a step before its first operation: an empty vessel, nothing stirred, nothing run off. */
export function emptyFilling(): Filling {
  const [peaks, fullestAt] = [new Map<Stage, number>(), new Map<Stage, string>()];
  const [stirred, runsOff] = [new Map<Stage, number>(), new Map<Stage, number>()];
  return { peaks, fullestAt, stirred, runsOff, fluid: false, filtering: false, counted: 0 };
}

/** Notes an operation before it is done: whether it is on a filter, and what is stirred. */
export function beginOperation(filling: Filling, operation: Operation, step: Step, pot: Pot): void {
  const { peaks, stirred } = filling;
  const { stage } = operation;
  filling.filtering = operation.do === 'charge' ? onFilter(step).has(operation.id) : filling.filtering && peaks.has(stage);
  // What starts in a new vessel is poured in as it comes: its first operation may well be the other way round.
  const poured = !peaks.has(stage) && step.stages?.[stage]?.newVessel === true;
  if (!filling.fluid || poured || !isStirred(operation)) return;
  const volume = volumeOf(pot);
  stirred.set(stage, Math.min(stirred.get(stage) ?? volume, volume));
}

/** Notes the vessel with a charge in it. What is poured on a filter runs off, whether a removal says so or not. */
export function fillCharge(filling: Filling, { stage }: Charge, liquid: boolean, before: Pot, pot: Pot): void {
  const added = volumeOf(pot) - volumeOf(before);
  if (!liquid || added <= 0) return;
  if (!filling.filtering) filling.fluid = true;
  else {
    filling.runsOff.set(stage, (filling.runsOff.get(stage) ?? 0) + added);
    filling.counted += added;
  }
}

/** Notes how full the vessel is; while something is done on a filter it stands empty beside it. */
export function noteFill({ peaks, fullestAt, filtering }: Filling, { stage, id }: Operation, pot: Pot): void {
  const volume = volumeOf(pot);
  if (filtering || volume <= (peaks.get(stage) ?? -1)) return;
  peaks.set(stage, volume);
  fullestAt.set(stage, id);
}

/** Notes a removal: what ran off, and that a cake or a residue is not stirred until liquid comes in again. */
export function emptyRemoval(filling: Filling, { how, stage }: Removal, before: Pot, pot: Pot): void {
  const { runsOff } = filling;
  const [liquids, left] = [liquidsOf(before), liquidsOf(pot)];
  if (how === 'filter' || (how === 'wash away' && runsOff.has(stage))) {
    runsOff.set(stage, (runsOff.get(stage) ?? 0) + Math.max(0, liquids - left - filling.counted));
    filling.counted = 0;
  }
  if (left < liquids / 2) filling.fluid = false;
}

/** What lies in the vessel is stirred while it is held, and while something is added slowly or in portions. */
function isStirred(operation: Operation): boolean {
  if (operation.do !== 'charge') return operation.do === 'hold';
  return operation.overMinutes !== undefined || (operation.portions ?? 1) > 1 || operation.rule.kind === 'until';
}
