import { buildGraph, type Graph, type Item, type Link, nextOf } from './graph.ts';
import type { CascadeInput } from './input.ts';
import { CASCADE } from './measures.ts';
import { stackMiddles } from './place.ts';
import { measurePorts, type Ports } from './ports.ts';
import type {
  BandShape,
  CascadeLayout,
  DrawPort,
  LeftOverShape,
  LossShape,
  MaterialBox,
  RecycleShape,
  StepBox,
  StockShape,
} from './shapes.ts';

/** Everything the shapes are drawn from. */
interface Frame {
  readonly input: CascadeInput;
  readonly graph: Graph;
  readonly ports: Ports;
  readonly middle: (item: Item) => number;
  /** px per unit of size. */
  readonly scale: number;
  readonly pitch: number;
  readonly width: number;
  /** Height without the lanes of recycles. */
  readonly height: number;
}

/**
 * Lays the cascade out, from the draws at the right back to the left.
 * @param width room in px; the layout is wider where its columns need it.
 * @param least width of a column, px: what zooming changes. Heights stay, so that nothing jumps.
 * @param lowest height, px: of a picture that has no target strip beside it.
 */
export function layoutCascade(
  input: CascadeInput,
  width: number,
  least: number = CASCADE.least.column,
  lowest: number = CASCADE.least.height,
): CascadeLayout {
  const graph = buildGraph(input);
  const largest = fullest(graph, measurePorts(graph, input, 1, 0));
  const scale = largest > 0 ? CASCADE.bands / largest : 0;
  const ports = measurePorts(graph, input, scale, CASCADE.gap);
  const height = heightOf(graph, input, lowest);
  const pitch = Math.max(least, (width - CASCADE.left - CASCADE.tail) / Math.max(1, graph.columns));
  const frame: Frame = {
    input,
    graph,
    ports,
    scale,
    middle: placeItems(graph, input, ports, height),
    pitch,
    width: CASCADE.left + pitch * Math.max(1, graph.columns) + CASCADE.tail,
    height,
  };
  const recycles = recycleShapes(frame);
  return {
    column: pitch,
    columns: graph.columns,
    width: frame.width,
    height: height + recycles.length * CASCADE.recycleLane,
    materials: itemsOf(graph, 'material').map((item) => materialBox(frame, item)),
    steps: itemsOf(graph, 'step').map((item) => stepBox(frame, item)),
    bands: graph.links.map((link) => bandShape(frame, link)),
    losses: itemsOf(graph, 'step').flatMap((item) => lossShape(frame, item)),
    stocks: stockShapes(frame),
    recycles,
    leftOver: [...itemsOf(graph, 'material'), ...itemsOf(graph, 'step')].flatMap((item) => leftOverShape(frame, item)),
    draws: itemsOf(graph, 'draw').map((item) => drawPort(frame, item)),
  };
}

/** The height of the fullest layer. */
function fullest(graph: Graph, ports: Ports): number {
  return Math.max(...graph.layers.map((layer) => layer.reduce((sum, item) => sum + ports.height(item), 0)));
}

/** Room for the fullest layer's labels and bands, and for the draws' slots: the same whatever the amounts are. */
function heightOf(graph: Graph, input: CascadeInput, lowest: number): number {
  const layers = graph.layers.map((layer) =>
    layer.reduce<number>((sum, item) => {
      const { above, below } = padOf(graph, item);
      return sum + above + below;
    }, CASCADE.bands),
  );
  return Math.ceil(Math.max(lowest, input.draws.length * CASCADE.drawSlot, ...layers));
}

/** Room an item keeps for its label, and a step for the gaps between what it uses. */
function padOf(graph: Graph, item: Item): { readonly above: number; readonly below: number } {
  const { above, below } = CASCADE.pad[item.kind];
  if (item.kind === 'material' && labelBelow(graph, item)) return { above: below, below: above };
  const gaps = item.kind === 'step' ? graph.linksOf(item).filter((link) => link.items.at(-1) === item).length - 1 : 0;
  const gap = (Math.max(0, gaps) * CASCADE.gap) / 2;
  return { above: above + gap, below: below + gap };
}

/** Where two bands join, the lower one has its label below, out of the way of the upper one's bend. */
function labelBelow(graph: Graph, item: Item): boolean {
  const rank = (one: Item | undefined): number => (one ? (graph.layers[one.layer]?.indexOf(one) ?? 0) : 0);
  return graph.linksOf(item).some((link) => {
    const end = link.items.at(-1);
    if (link.items[0] !== item || end?.kind !== 'step') return false;
    return graph
      .linksOf(end)
      .some((other) => other !== link && other.items.at(-1) === end && rank(other.items.at(-2)) < rank(link.items.at(-2)));
  });
}

/** Middles of all items: draws in the middle of their slots, everything else as straight before what it feeds as can be. */
function placeItems(graph: Graph, input: CascadeInput, ports: Ports, height: number): (item: Item) => number {
  const middles = new Map<Item, number>();
  const first = (height - input.draws.length * CASCADE.drawSlot) / 2;
  for (const layer of graph.layers.toReversed()) {
    const stack = layer.map((item, at) => ({
      above: padOf(graph, item).above + ports.height(item) / 2,
      below: padOf(graph, item).below + ports.height(item) / 2,
      wished: item.kind === 'draw' ? first + (at + 0.5) * CASCADE.drawSlot : wish(item, graph, ports, middles, height),
    }));
    const placed = layer[0]?.kind === 'draw' ? stack.map((one) => one.wished) : stackMiddles(stack, height);
    layer.forEach((item, at) => middles.set(item, placed[at] ?? height / 2));
  }
  return (item) => middles.get(item) ?? height / 2;
}

/** Where an item would stand so that its bands run straight on. */
function wish(item: Item, graph: Graph, ports: Ports, middles: ReadonlyMap<Item, number>, height: number): number {
  const wishes = graph.linksOf(item).flatMap((link) => {
    const next = nextOf(link, item);
    return next ? [(middles.get(next) ?? 0) + ports.into(next, link) - ports.outOf(item, link)] : [];
  });
  return wishes.length === 0 ? height / 2 : wishes.reduce((sum, one) => sum + one, 0) / wishes.length;
}

const itemsOf = (graph: Graph, kind: Item['kind']): Item[] => graph.layers.flat().filter((item) => item.kind === kind);

/** Left edge of a column. */
const columnX = ({ pitch }: Frame, layer: number): number => Math.round(CASCADE.left + Math.floor(layer / 2) * pitch);

/** Where bands arrive at an item and where they leave it. */
function sides(frame: Frame, item: Item): { readonly left: number; readonly right: number } {
  const x = columnX(frame, item.layer);
  const end = frame.width - CASCADE.arrow;
  if (item.kind === 'draw') return { left: end, right: end };
  if (item.layer % 2 === 0) return { left: x, right: Math.round(x + CASCADE.block * frame.pitch) };
  const line = Math.round(x + CASCADE.marker * frame.pitch);
  return { left: line, right: line };
}

function materialBox(frame: Frame, item: Item): MaterialBox {
  const { left, right } = sides(frame, item);
  const height = frame.ports.height(item);
  const below = labelBelow(frame.graph, item);
  const rising = !below && rises(frame, item);
  const room = below
    ? CASCADE.marker * frame.pitch - 6
    : rising
      ? Math.max(CASCADE.leastRoom, CASCADE.besideRise * frame.pitch)
      : CASCADE.label * frame.pitch;
  const y = frame.middle(item) - height / 2;
  // Clear of the step's circle, which stands in the middle of a thin band.
  const gap = Math.max(CASCADE.labelGap, CASCADE.circle - height / 2);
  return {
    material: item.id,
    x: left,
    width: right - left,
    y,
    height,
    label: { below, rising, room, y: below ? y + height + gap : y - gap },
  };
}

/** A band that leaves the block upward bends through where a long label would reach. */
function rises(frame: Frame, item: Item): boolean {
  const { graph, middle, ports } = frame;
  return graph.linksOf(item).some((link) => {
    const next = nextOf(link, item);
    return next !== undefined && middle(next) + ports.into(next, link) < middle(item) + ports.outOf(item, link) - CASCADE.gap;
  });
}

function stepBox(frame: Frame, item: Item): StepBox {
  const { left } = sides(frame, item);
  const half = frame.ports.height(item) / 2;
  const middle = frame.middle(item);
  const labelWidth = Math.min(200, (1 - CASCADE.marker) * frame.pitch - 12);
  return { step: item.id, x: left, top: middle - half, bottom: middle + half, labelWidth };
}

function bandShape(frame: Frame, link: Link): BandShape {
  const points = link.items.flatMap((item, index) => {
    const { left, right } = sides(frame, item);
    const middle = frame.middle(item);
    const late = (link.items[index - 1]?.layer ?? 0) % 2 === 1;
    const arrives = { x: left, y: middle + frame.ports.into(item, link), late };
    const leaves = { x: right, y: middle + frame.ports.outOf(item, link), late: false };
    if (index === 0) return [leaves];
    return index === link.items.length - 1 ? [arrives] : [arrives, leaves];
  });
  const last = link.items.at(-1)?.kind;
  return {
    key: link.key,
    material: link.material,
    points,
    height: frame.ports.linkHeight(link),
    into: last === 'draw' || last === 'step' ? last : 'material',
  };
}

function lossShape(frame: Frame, item: Item): LossShape[] {
  const { offset, height } = frame.ports.loss(item);
  if (height <= 0) return [];
  const length = Math.min(CASCADE.lossLength, 0.3 * frame.pitch);
  return [{ step: item.id, x: sides(frame, item).right, y: frame.middle(item) + offset, height, length }];
}

function leftOverShape(frame: Frame, item: Item): LeftOverShape[] {
  const { offset, height } = frame.ports.leftOver(item);
  if (height <= 0) return [];
  const step = frame.input.steps.find((one) => item.kind === 'step' && one.id === item.id);
  const { right } = sides(frame, item);
  return [{ material: step?.product ?? item.id, x: right, y: frame.middle(item) + offset, height, length: 0.16 * frame.pitch }];
}

/** Stock of a material that is made here enters its block, or its draw, from above. */
function stockShapes(frame: Frame): StockShape[] {
  const made = new Set(frame.input.steps.map((step) => step.product));
  return [...itemsOf(frame.graph, 'material'), ...itemsOf(frame.graph, 'draw')].flatMap((item) => {
    const { offset, height } = frame.ports.stockInto(item);
    const draw = frame.input.draws.find((one) => item.kind === 'draw' && one.id === item.id);
    const material = draw?.material ?? item.id;
    if (height <= 0 || !made.has(material) || (draw && itemsOf(frame.graph, 'material').some((one) => one.id === material)))
      return [];
    const toX = sides(frame, item).left;
    const toY = frame.middle(item) + offset;
    const x = toX - 0.18 * frame.pitch;
    return [{ material, draw: draw?.id ?? null, x, top: Math.max(30, toY - CASCADE.stockDrop), toX, toY, height }];
  });
}

/** What comes back to an earlier step bends back underneath everything, each in a lane of its own. */
function recycleShapes(frame: Frame): RecycleShape[] {
  const find = (kind: Item['kind'], id: string): Item | undefined => itemsOf(frame.graph, kind).find((item) => item.id === id);
  return frame.input.flows
    .filter((flow) => flow.recycle && flow.size > 0)
    .flatMap((flow, index) => {
      const source = flow.from.kind === 'step' ? find('step', flow.from.step) : undefined;
      const target = flow.to.kind === 'step' ? find('step', flow.to.step) : undefined;
      if (!source || !target) return [];
      const block = find('material', flow.material);
      const { ofBlock, ofOther } = CASCADE.thickestLoop;
      const height = Math.min(block ? ofBlock : ofOther, flow.size * frame.scale);
      const end = block ?? target;
      const gutter = block ? columnX(frame, block.layer) : columnX(frame, target.layer);
      const bottom = frame.middle(end) + frame.ports.height(end) / 2;
      const endY = flow.apart || !block ? bottom + 3 : frame.middle(block) + frame.ports.recycledInto(block).offset;
      return [
        {
          key: `${flow.material} ${source.id} ${target.id} ${index}`,
          material: flow.material,
          from: { x: sides(frame, source).right, y: frame.middle(source) + frame.ports.height(source) / 2 },
          to: { x: sides(frame, end).left, y: endY + height / 2 },
          down: columnX(frame, source.layer) + 0.95 * frame.pitch,
          up: Math.max(height / 2 + 1, gutter - 0.05 * frame.pitch),
          lane: frame.height + (index + 0.5) * CASCADE.recycleLane,
          height,
        },
      ];
    });
}

function drawPort(frame: Frame, item: Item): DrawPort {
  const middle = frame.middle(item);
  return { draw: item.id, slotTop: middle - CASCADE.drawSlot / 2, y: middle, height: frame.ports.height(item) };
}
