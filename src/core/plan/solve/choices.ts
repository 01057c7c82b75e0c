import type { Network } from '../network/network.ts';
import type { Choice } from '../result.ts';
import { costOf } from './makers.ts';
import type { Settling } from './settle.ts';
import type { Costs } from './step-cost.ts';

/**
 * Which of several makers a plan runs, and what each would cost alone: bought materials of the whole plan with only
 * that step making the material, what is charged and lost once a batch counted. Null where that cannot be planned.
 * @param settle the plan of a network that is a part of this one.
 */
export function choicesOf(
  network: Network,
  starts: readonly number[],
  costs: Costs,
  settle: (network: Network) => Settling,
): readonly Choice[] {
  const costAlone = (material: string, maker: number): number | null => {
    const found = settle(alone(network, material, maker));
    return found.ok && !found.settled.nothing ? (costOf(costs, found.settled)[0] ?? null) : null;
  };
  return [...network.makersOf].flatMap(([material, makers]): readonly Choice[] =>
    makers.length < 2
      ? []
      : [
          {
            material,
            by: costs.by,
            makers: makers.map((i) => ({
              step: network.steps[i]?.id ?? '',
              runs: (starts[i] ?? 0) > 0,
              cost: costAlone(material, i),
            })),
          },
        ],
  );
}

/** The network with one maker of a material; what else the other makers make they may still make. */
function alone(network: Network, material: string, maker: number): Network {
  const products = network.products.map((list, i) => (i === maker ? list : list.filter((one) => one.material !== material)));
  return { ...network, products };
}
