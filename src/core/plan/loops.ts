import type { Network } from './network/network.ts';
import type { Starts } from './solve/starts.ts';

/** So much of a material that a step of a loop hands back to one that is done before it. */
export interface HandedBack {
  readonly material: string;
  /** Steps, as in the network: which makes it, and which takes it. */
  readonly from: number;
  readonly to: number;
  readonly moles: number;
}

/**
 * What goes back in a loop, loop by loop: in a steady state it comes from the round before, so that the first round needs
 * it in hand.
 */
export function handedBack(network: Network, starts: Pick<Starts, 'handovers'>): readonly (readonly HandedBack[])[] {
  const order = network.groups.flat();
  return network.groups.map((group) =>
    starts.handovers.flatMap(({ material, from, to, moles }): readonly HandedBack[] => {
      if (from.kind !== 'step' || to.kind !== 'step' || !group.includes(from.step)) return [];
      const goesOn = order.indexOf(from.step) < order.indexOf(to.step);
      return goesOn ? [] : [{ material, from: from.step, to: to.step, moles }];
    }),
  );
}
