import type { Facts } from '../../matter/facts.ts';
import type { Figure } from '../../quantity/figure.ts';
import type { Network, Use } from '../network/network.ts';

/** One wanted amount of a made material, with the least assay that will do. */
export interface Want {
  readonly material: string;
  readonly moles: Figure<'mol'>;
  readonly leastAssayPercent: number;
}

/** Usable stock of a made material in one bottle. */
export interface Stock {
  readonly material: string;
  readonly bottle: string;
  readonly moles: Figure<'mol'>;
  readonly assayPercent: number;
}

export interface RequirementInput {
  readonly network: Network;
  readonly facts: ReadonlyMap<string, Facts>;
  /** Likeliest yield of each step, as a figure in %. */
  readonly yields: readonly Figure<'%'>[];
  readonly wants: readonly Want[];
  readonly stock: readonly Stock[];
  /** Batches of each step, for what is charged once a batch. */
  readonly batches: readonly number[];
  /** What a mole of each step's basis costs, most important first; only looked at where there is a choice. */
  readonly costs: readonly (readonly number[])[];
  /** Steps that may not run in this way of making things; none where it is left out. */
  readonly closed?: ReadonlySet<number>;
}

/** Mol of a material step i makes per mol of its basis. */
export function makes(input: Pick<RequirementInput, 'network' | 'yields' | 'closed'>, i: number, material: string): number {
  if (input.closed?.has(i)) return 0;
  return (input.network.products[i] ?? []).reduce(
    (sum, one) =>
      one.material === material ? sum + (one.perMole * (one.yieldPercent ?? input.yields[i]?.value ?? 0)) / 100 : sum,
    0,
  );
}

/** What must be made of a material for the draws and once a batch, less its stock, mol; negative where stock is left. */
export function needOf(input: RequirementInput, material: string): number {
  return wanted(input, material, 0) + fixedUse(input, material) + lostOf(input, material) - stocked(input, material, 0);
}

/** The size of what that need is the difference of. */
export function scaleOf(input: RequirementInput, material: string): number {
  return wanted(input, material, 0) + fixedUse(input, material) + lostOf(input, material) + stocked(input, material, 0);
}

/** Mol of a made material step j takes for good, per mol of its basis: charged less what comes back. */
export function netUse(network: Network, j: number, material: string): number {
  return Math.max(0, (network.charged[j]?.get(material) ?? 0) - (network.recovered[j]?.get(material) ?? 0));
}

/** What steps take of a made material; none where none does. */
export function usesOf(network: Network, material: string): readonly Use[] {
  return network.usesOf.get(material) ?? [];
}

/** Mol of a material that all steps take for good. @param starts mol of basis by step. */
export function usedOf(network: Network, material: string, starts: readonly number[]): number {
  return usesOf(network, material).reduce((sum, { step, perMole }) => sum + perMole * (starts[step] ?? 0), 0);
}

/** Moles drawn of a material by draws that ask for this assay or better. */
export function wanted(input: RequirementInput, material: string, leastAssay: number): number {
  return input.wants.reduce(
    (sum, want) => (want.material === material && want.leastAssayPercent >= leastAssay ? sum + want.moles.value : sum),
    0,
  );
}

/** Moles of a material on the shelf of this assay or better. */
export function stocked(input: RequirementInput, material: string, leastAssay: number): number {
  return input.stock.reduce(
    (sum, one) => (one.material === material && one.assayPercent >= leastAssay ? sum + one.moles.value : sum),
    0,
  );
}

/** Moles of a material charged once a batch, over all batches. */
export function fixedUse(input: RequirementInput, material: string): number {
  return usesOf(input.network, material).reduce((sum, { step, perBatch }) => sum + perBatch * (input.batches[step] ?? 0), 0);
}

/** Product of step i that stays behind over all its batches, mol. */
export function lostIn({ network, batches }: Pick<RequirementInput, 'network' | 'batches'>, i: number): number {
  const product = network.steps[i]?.product;
  const makesIt = (network.products[i] ?? []).some((one) => one.material === product);
  return makesIt ? (network.lost[i] ?? 0) * (batches[i] ?? 0) : 0;
}

/** What stays behind of a material in the batches of all its makers, mol. */
function lostOf(input: RequirementInput, material: string): number {
  const { steps, makersOf } = input.network;
  return (makersOf.get(material) ?? []).reduce((sum, i) => (steps[i]?.product === material ? sum + lostIn(input, i) : sum), 0);
}

/** Relative size below which a difference of doubles means nothing. */
export const ROUNDING = 1e-12;

/** What draws of this assay or better ask for beyond the stock that has it; a draw that takes all there is asks for no more. */
function unserved(input: RequirementInput, material: string, leastAssay: number): number {
  const [asked, there] = [wanted(input, material, leastAssay), stocked(input, material, leastAssay)];
  return Math.abs(asked - there) <= ROUNDING * (asked + there) ? 0 : asked - there;
}

/** More than any draw can ask for: stands for what is needed without one. */
const NO_DRAW = 101;

/**
 * What must be made of a material whatever else stands on the shelf, mol: what draws that ask for a purity cannot get
 * from stock that has it, and what stays behind in every batch.
 */
export function mustMake(
  input: RequirementInput,
  material: string,
): readonly { readonly leastAssay: number; readonly moles: number }[] {
  const lost = lostOf(input, material);
  const purities = new Set(
    input.wants.filter((want) => want.material === material && want.leastAssayPercent > 0).map((want) => want.leastAssayPercent),
  );
  const pure = [...purities].map((leastAssay) => ({ leastAssay, moles: unserved(input, material, leastAssay) + lost }));
  return lost > 0 ? [...pure, { leastAssay: NO_DRAW, moles: lost }] : pure;
}
