import type { Graph, Item, Link } from './graph.ts';
import type { CascadeFlow, CascadeInput, CascadeStep } from './input.ts';

/**
 * Where bands touch an item, as distances from the item's middle to the band's upper edge, with everything in px.
 *
 *     stock ─┐┌──────┐      ┌─ to step 3
 *     step ──┤│ item │──────┼─ to a draw
 *     bought ┘└──────┘      └─ left over, loss
 */
export interface Ports {
  readonly height: (item: Item) => number;
  readonly linkHeight: (link: Link) => number;
  readonly into: (item: Item, link: Link) => number;
  readonly outOf: (item: Item, link: Link) => number;
  /** Upper edge of the stock that enters, of what is left over, and of the loss. */
  readonly stockInto: (item: Item) => Edge;
  readonly recycledInto: (item: Item) => Edge;
  readonly leftOver: (item: Item) => Edge;
  readonly loss: (item: Item) => Edge;
}

export interface Edge {
  readonly offset: number;
  readonly height: number;
}

interface Measured {
  readonly height: number;
  readonly into: ReadonlyMap<Link, number>;
  readonly outOf: ReadonlyMap<Link, number>;
  readonly stock: Edge;
  readonly recycled: Edge;
  readonly leftOver: Edge;
  readonly loss: Edge;
}

const NOTHING: Edge = { offset: 0, height: 0 };

/** Measures every item once. `scale`: px per unit of size; `gap`: px between what a step uses. */
export function measurePorts(graph: Graph, input: CascadeInput, scale: number, gap: number): Ports {
  const rank = new Map<Item, number>();
  for (const layer of graph.layers) layer.forEach((item, at) => rank.set(item, at));
  const steps = new Map(input.steps.map((step) => [step.id, step]));
  const measured = new Map<Item, Measured>();
  for (const item of rank.keys()) {
    const links = graph.linksOf(item);
    const beside = (link: Link, by: 1 | -1): number => rank.get(link.items[link.items.indexOf(item) + by] ?? item) ?? 0;
    const ins = links.filter((link) => link.items[0] !== item).sort((a, b) => beside(a, -1) - beside(b, -1));
    const outs = links.filter((link) => link.items.at(-1) !== item).sort((a, b) => beside(a, 1) - beside(b, 1));
    const step = item.kind === 'step' ? steps.get(item.id) : undefined;
    measured.set(
      item,
      step ? measureStep(step, { ins, outs, gap }, input.flows, scale) : measureOther(item, ins, outs, input.flows, scale),
    );
  }
  const of = (item: Item): Measured | undefined => measured.get(item);
  return {
    height: (item) => of(item)?.height ?? 0,
    linkHeight: (link) => link.size * scale,
    into: (item, link) => of(item)?.into.get(link) ?? 0,
    outOf: (item, link) => of(item)?.outOf.get(link) ?? 0,
    stockInto: (item) => of(item)?.stock ?? NOTHING,
    recycledInto: (item) => of(item)?.recycled ?? NOTHING,
    leftOver: (item) => of(item)?.leftOver ?? NOTHING,
    loss: (item) => of(item)?.loss ?? NOTHING,
  };
}

/** Materials, draws and way points: everything stacked without gaps, stock on top, what is left over at the bottom. */
function measureOther(
  item: Item,
  ins: readonly Link[],
  outs: readonly Link[],
  flows: readonly CascadeFlow[],
  scale: number,
): Measured {
  // What comes to a draw from a block is in the block's band already, stock too.
  const fromBlock = item.kind === 'draw' && ins.some((link) => link.items[0]?.kind === 'material');
  const own = fromBlock ? [] : flows.filter((flow) => touches(flow, item));
  const size = (which: (flow: CascadeFlow) => boolean): number =>
    own.filter(which).reduce((sum, flow) => sum + flow.size * scale, 0);
  const stock = size(({ from }) => from.kind === 'stock');
  const bought = size(({ from }) => from.kind === 'bought');
  const recycled = size((flow) => flow.recycle);
  const leftOver = size(({ to }) => to.kind === 'left over');
  const inside = heights(ins, scale);
  const outside = heights(outs, scale);
  const height = Math.max(stock + inside + bought + recycled, outside + (item.kind === 'material' ? leftOver : 0));
  const top = -height / 2;
  return {
    height,
    into: stacked(ins, top + stock, scale, 0),
    outOf: stacked(outs, top, scale, 0),
    stock: { offset: top, height: stock },
    recycled: { offset: top + stock + inside, height: recycled },
    leftOver: { offset: top + outside, height: item.kind === 'material' ? leftOver : 0 },
    loss: NOTHING,
  };
}

/** A step: what it uses stands in a stack with small gaps; its product goes on from the top of the basis, loss below. */
function measureStep(
  step: CascadeStep,
  { ins, outs, gap }: { readonly ins: readonly Link[]; readonly outs: readonly Link[]; readonly gap: number },
  flows: readonly CascadeFlow[],
  scale: number,
): Measured {
  const gaps = Math.max(0, ins.length - 1) * gap;
  const basis = ins.find((link) => link.material === step.basis);
  const basisHeight = basis ? basis.size * scale : 0;
  const theory = step.theory === null ? basisHeight : step.theory * scale;
  const height = Math.max(heights(ins, scale) + gaps, theory);
  const top = -height / 2;
  const into = stacked(ins, top, scale, gap);
  const basisTop = basis ? (into.get(basis) ?? top) : top;
  const product = outs.filter((link) => link.material === step.product);
  const others = outs.filter((link) => link.material !== step.product);
  const leaves = flows.filter(({ from }) => from.kind === 'step' && from.step === step.id);
  const sizeOf = (which: (flow: CascadeFlow) => boolean): number =>
    leaves.filter(which).reduce((sum, flow) => sum + flow.size * scale, 0);
  const made = sizeOf(({ material, recycle }) => material === step.product && !recycle);
  const back = sizeOf(({ material, apart }) => apart && material === step.basis);
  const recovered = basisHeight > 0 ? (back * theory) / basisHeight : 0;
  const linked = heights(product, scale);
  // What is left over of a material with a block of its own leaves from that block.
  const hasBlock = product.some((link) => link.items.at(-1)?.kind === 'material');
  const leftOver = hasBlock ? 0 : sizeOf(({ material, to }) => material === step.product && to.kind === 'left over');
  const outOf = new Map([
    ...stacked(product, basisTop, scale, 0),
    ...stacked(others, basisTop + Math.max(basisHeight, theory) + gap, scale, 0),
  ]);
  return {
    height,
    into,
    outOf,
    stock: NOTHING,
    recycled: NOTHING,
    leftOver: { offset: basisTop + linked, height: leftOver },
    loss: { offset: basisTop + made, height: Math.max(0, theory - made - recovered) },
  };
}

/** Whether a flow passes through a material's block, or ends at a draw. */
function touches(flow: CascadeFlow, item: Item): boolean {
  if (item.kind === 'material') return flow.material === item.id && !flow.apart;
  return item.kind === 'draw' && flow.to.kind === 'draw' && flow.to.draw === item.id;
}

function heights(links: readonly Link[], scale: number): number {
  return links.reduce((sum, link) => sum + link.size * scale, 0);
}

function stacked(links: readonly Link[], top: number, scale: number, gap: number): Map<Link, number> {
  const tops = new Map<Link, number>();
  let at = top;
  for (const link of links) {
    tops.set(link, at);
    at += link.size * scale + gap;
  }
  return tops;
}
