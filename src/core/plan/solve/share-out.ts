import type { Network } from '../network/network.ts';
import { usesOf, type Stock, type Want } from './needs.ts';
import type { Requirement } from './requirements.ts';

export type Source = { readonly kind: 'stock'; readonly stock: Stock } | { readonly kind: 'step'; readonly step: number };
export type Taker =
  | { readonly kind: 'step'; readonly step: number }
  | { readonly kind: 'draw'; readonly draw: number }
  | { readonly kind: 'left over' };

/** So many moles of a material handed from where it is to where it is wanted. */
export interface Handover {
  readonly material: string;
  readonly from: Source;
  readonly to: Taker;
  readonly moles: number;
}

interface Asking {
  readonly to: Taker;
  readonly moles: number;
  readonly leastAssay: number;
}

/**
 * Who gets what: for every made material, stock is used before what is made. A step that charges what it makes (a seed)
 * is served first, for it can have it from stock only; then the strictest purity, then the steps in working order, then the
 * draws. What nobody asked for is left over.
 */
export function shareOut(
  network: Network,
  steps: readonly Requirement[],
  wants: readonly Want[],
  stock: readonly Stock[],
  batches: readonly number[],
): readonly Handover[] {
  const place = new Map(network.groups.flat().map((step, at) => [step, at]));
  return [...network.makersOf].flatMap(([material, makers]) => {
    const asking = askings(network, material, place, steps, wants, batches);
    const sources = [
      ...stock
        .filter((one) => one.material === material)
        .map((one) => ({ from: { kind: 'stock', stock: one } as Source, moles: one.moles.value, assay: one.assayPercent })),
      ...makers
        .map((step) => ({
          from: { kind: 'step', step } as Source,
          moles: madeOf(steps[step], network, step, material),
          assay: 100,
        }))
        .filter((one) => one.moles > 0),
    ];
    return handOut(material, sources, asking);
  });
}

/** Mol a step makes of a material, its product or a second one. */
function madeOf(requirement: Requirement | undefined, network: Network, step: number, material: string): number {
  if (network.steps[step]?.product === material) return requirement?.productMoles.value ?? 0;
  return requirement?.seconds.find((one) => one.material === material)?.moles.value ?? 0;
}

function askings(
  network: Network,
  material: string,
  place: ReadonlyMap<number, number>,
  steps: readonly Requirement[],
  wants: readonly Want[],
  batches: readonly number[],
): readonly Asking[] {
  const inOrder = usesOf(network, material).toSorted((one, other) => (place.get(one.step) ?? 0) - (place.get(other.step) ?? 0));
  const uses = inOrder.flatMap(({ step, perMole, perBatch }): readonly Asking[] => {
    const moles = perMole * (steps[step]?.basisMoles.value ?? 0) + perBatch * (batches[step] ?? 0);
    return moles > 0 ? [{ to: { kind: 'step', step }, moles, leastAssay: 0 }] : [];
  });
  const draws = wants.flatMap((want, draw): readonly Asking[] =>
    want.material === material && want.moles.value > 0
      ? [{ to: { kind: 'draw', draw }, moles: want.moles.value, leastAssay: want.leastAssayPercent }]
      : [],
  );
  const strict = draws.filter((one) => one.leastAssay > 0).sort((a, b) => b.leastAssay - a.leastAssay);
  const ofItself = ({ to }: Asking): boolean => to.kind === 'step' && (network.makersOf.get(material) ?? []).includes(to.step);
  const [own, others] = [uses.filter(ofItself), uses.filter((one) => !ofItself(one))];
  return [...own, ...strict, ...others, ...draws.filter((one) => one.leastAssay === 0)];
}

function handOut(
  material: string,
  sources: readonly { from: Source; moles: number; assay: number }[],
  asking: readonly Asking[],
): readonly Handover[] {
  const left = sources.map((source) => source.moles);
  const handovers: Handover[] = [];
  for (const one of asking) {
    let open = one.moles;
    for (const [index, source] of sources.entries()) {
      const moles = Math.min(open, left[index] ?? 0);
      if (moles <= one.moles * 1e-12 || source.assay < one.leastAssay) continue;
      left[index] = (left[index] ?? 0) - moles;
      open -= moles;
      handovers.push({ material, from: source.from, to: one.to, moles });
    }
  }
  const spare = sources.flatMap((source, index): readonly Handover[] => {
    const moles = left[index] ?? 0;
    // Stock nobody needs stays in its bottle; only what a step makes beyond the need is left over.
    return source.from.kind === 'step' && moles > source.moles * 1e-9
      ? [{ material, from: source.from, to: { kind: 'left over' }, moles }]
      : [];
  });
  return [...handovers, ...spare];
}
