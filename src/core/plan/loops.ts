import type { Network } from './network/network.ts';
import type { Starts } from './solve/starts.ts';

/** So much of a material that a step of a loop hands back to one that is done before it. */
export interface HandedBack {
  readonly material: string;
  /** Steps, as in the network: which makes it, and which takes it. */
  readonly from: number;
  readonly to: number;
  readonly moles: number;
  /** Which part of the moles each batch of the taking step needs in hand, since no batch before it has given it back yet. */
  readonly ahead: readonly number[];
}

type Rounds = Pick<Starts, 'handovers' | 'counts'>;

/**
 * What goes back in a loop, loop by loop: in a steady state it comes from the round before, so that what has not come back
 * yet must be in hand. Every batch of the loop is done as soon as there is enough for it:
 *
 *     taking step, 3 batches   ▇▇ 1        ▇▇ 2        ▇▇ 3         in hand: a third for batch 1;
 *     handing step, 3 batches        ▇▇ 1        ▇▇ 2        ▇▇ 3   batches 2 and 3 have what 1 and 2 gave back
 *
 *     taking step, 2 batches   ▇▇▇ 1  ▇▇▇ 2                         in hand: all of it, for the handing step
 *     handing step, 1 batch                 ▇▇▇▇▇▇ 1                gives nothing back before the last batch is through
 */
export function handedBack(network: Network, starts: Rounds): readonly (readonly HandedBack[])[] {
  const order = network.groups.flat();
  return network.groups.map((group) =>
    starts.handovers.flatMap(({ material, from, to, moles }): readonly HandedBack[] => {
      if (from.kind !== 'step' || to.kind !== 'step' || !group.includes(from.step)) return [];
      const goesOn = order.indexOf(from.step) < order.indexOf(to.step);
      if (goesOn) return [];
      const loop = order.slice(order.indexOf(to.step), order.indexOf(from.step) + 1).filter((one) => group.includes(one));
      return [{ material, from: from.step, to: to.step, moles, ahead: aheadOf(loop, starts) }];
    }),
  );
}

/** Which part of what goes round each batch of the first step of a loop needs ahead. @param loop its steps, in order. */
function aheadOf(loop: readonly number[], starts: Rounds): readonly number[] {
  const batches = batchesOf(loop[0], starts);
  const reached = Array.from({ length: batches }, (_, at) => (at + 1) / batches - doneOf(loop, at / batches, starts));
  return reached.map((part, at) => Math.max(0, part - Math.max(0, ...reached.slice(0, at))));
}

/** How far the last step of a loop can be when the first has done a part of its work, 0 … 1: whole batches each. */
function doneOf(loop: readonly number[], part: number, { handovers, counts }: Rounds): number {
  const done = new Map([[loop[0], part]]);
  for (const step of loop.slice(1)) {
    const before = handovers.flatMap(({ from, to }) => {
      const far = from.kind === 'step' && to.kind === 'step' && to.step === step ? done.get(from.step) : undefined;
      return far === undefined ? [] : [far];
    });
    const count = batchesOf(step, { counts });
    // Of three batches of three a part of 3 × ⅓ is whole, though the doubles come to a hair less.
    if (before.length > 0) done.set(step, Math.floor(Math.min(...before) * count + HAIR) / count);
  }
  return done.get(loop.at(-1)) ?? 0;
}

const HAIR = 1e-9;
const batchesOf = (step: number | undefined, { counts }: Pick<Starts, 'counts'>): number =>
  Math.max(1, (step === undefined ? undefined : counts[step]?.count) ?? 1);
