import type { Notice } from '../../words/notice.ts';
import { leastCost } from './linear-program.ts';
import { makes, mustMake, needOf, netUse, type RequirementInput, scaleOf } from './needs.ts';

export type Solved = { readonly ok: true; readonly starts: readonly number[] } | { readonly ok: false; readonly notice: Notice };

/** A floor of the program: of what material, and how much at least must be made of it beyond what is used. */
export interface Floor {
  readonly material: string;
  /** Draws that ask for this assay or better, % w/w; 0: all of them. */
  readonly leastAssay: number;
  readonly row: readonly number[];
  readonly floor: number;
  readonly scale: number;
}

/**
 * Starts where there is a choice: two makers of one material, or a step that gives two wanted products.
 *
 *     for every made material:   Σ (made − used) · x  ≥  draws − stock        least Σ cost · x
 *
 * @returns mol of basis to start per step; or the material of which no mix of the steps makes enough.
 */
export function chooseStarts(input: RequirementInput): Solved {
  const floors = floorsOf(input);
  const solved = leastCost({
    rows: floors.map((one) => one.row),
    floors: floors.map((one) => one.floor),
    scale: floors.map((one) => one.scale),
    costs: input.costs,
  });
  if (solved.ok) return { ok: true, starts: solved.x };
  const material = floors[solved.row]?.material ?? '';
  const maker = input.network.steps[input.network.makersOf.get(material)?.[0] ?? -1];
  const values = { material: input.facts.get(material)?.name ?? material };
  return { ok: false, notice: { level: 'error', code: 'never enough', values, at: maker ? { step: maker.id } : {} } };
}

/** What every made material asks of the steps; what must be made whatever is on the shelf has a row of its own. */
export function floorsOf(input: RequirementInput): readonly Floor[] {
  const { network } = input;
  return [...network.makersOf.keys()].flatMap((material): readonly Floor[] => {
    const made = network.steps.map((_, i) => makes(input, i, material));
    const net = made.map((value, j) => value - netUse(network, j, material));
    const scale = scaleOf(input, material);
    const all = { material, leastAssay: 0, row: net, floor: needOf(input, material), scale };
    return [
      all,
      ...mustMake(input, material).map(({ leastAssay, moles }) => ({ material, leastAssay, row: made, floor: moles, scale })),
    ];
  });
}
