import { chooseStarts } from './choose-starts.ts';
import type { Network } from './network.ts';
import type { RequirementInput } from './needs.ts';
import type { Choice } from './result.ts';
import type { Costs } from './step-cost.ts';

/**
 * Which of several makers a plan runs, and what each would cost alone: bought materials of the whole plan with only
 * that step making the material. Null where that cannot be planned.
 */
export function choicesOf(input: RequirementInput, starts: readonly number[], costs: Costs): readonly Choice[] {
  return [...input.network.makersOf].flatMap(([material, makers]): readonly Choice[] =>
    makers.length < 2
      ? []
      : [
          {
            material,
            by: costs.by,
            makers: makers.map((i) => ({
              step: input.network.steps[i]?.id ?? '',
              runs: (starts[i] ?? 0) > 0,
              cost: costAlone(input, material, i),
            })),
          },
        ],
  );
}

function costAlone(input: RequirementInput, material: string, maker: number): number | null {
  const products = input.network.products.map((list, i) =>
    i === maker ? list : list.filter((one) => one.material !== material),
  );
  const network: Network = { ...input.network, products };
  const solved = chooseStarts({ ...input, network });
  if (!solved.ok) return null;
  return solved.starts.reduce((sum, start, i) => sum + start * (input.costs[i]?.[0] ?? 0), 0);
}
