import type { Facts } from '../matter/facts.ts';
import { formatAmount } from '../quantity/format.ts';
import { inHandWords } from '../words/loop-words.ts';
import type { Notice } from '../words/notice.ts';
import { handedBack } from './loops.ts';
import type { Network } from './network/network.ts';
import type { Starts } from './solve/starts.ts';

/**
 * What a later step hands back to an earlier one, and what of it must be in hand, since it has not come back yet. The plan's
 * amounts are those of a steady state; the fetch list asks for it beside them (stock/loop-lines.ts).
 */
export function loopNotices(network: Network, starts: Starts, facts: ReadonlyMap<string, Facts>): readonly Notice[] {
  const order = network.groups.flat();
  return handedBack(network, starts).flatMap((loop, at): readonly Notice[] => {
    const first = network.steps[network.groups[at]?.find((i) => starts.steps[i]?.active) ?? -1];
    const back = loop.map(({ material, from, to, moles, ahead }) => {
      const one = facts.get(material);
      const mass = one?.molarMass;
      const written = (part: number) =>
        formatAmount({
          value: part * moles * (mass?.value ?? 1),
          unit: mass ? 'g' : 'mol',
          digits: mass?.digits ?? IN_HAND_DIGITS,
        });
      const inHand = written(ahead.reduce((sum, part) => sum + part, 0));
      const batches = starts.counts[to]?.count ?? 1;
      const [made, used] = [order.indexOf(from) + 1, order.indexOf(to) + 1];
      return inHandWords({ amount: written(1), material: one?.name ?? material, made, used, batches, ahead: inHand });
    });
    if (!first || back.length === 0) return [];
    return [{ level: 'caution', code: 'steady loop', values: { back: back.join('; ') }, at: { step: first.id } }];
  });
}

const IN_HAND_DIGITS = 3;
