import type { CascadeFlow, CascadeInput, CascadeStep } from './input.ts';

/**
 * The cascade as a layered graph. Each column holds two layers, and draws stand after the last:
 *
 *     layer 2c        layer 2c+1     layer 2c+2 …            last layer
 *     materials  ──▶  steps     ──▶  materials  ──▶ … ──▶   draws
 *
 * A link that skips layers gets a way point in each, so that bands never run over a step. Columns and order depend on
 * which step uses and makes what, never on amounts: editing a number moves nothing to another place.
 */
export interface Graph {
  readonly columns: number;
  readonly layers: readonly (readonly Item[])[];
  readonly links: readonly Link[];
  /** The links that begin, end or have a way point at an item, in their order. */
  readonly linksOf: (item: Item) => readonly Link[];
}

export interface Item {
  readonly kind: 'material' | 'step' | 'draw' | 'way point';
  /** Material key, step id, draw id, or the link's own key. */
  readonly id: string;
  readonly layer: number;
}

/** A band from one item to another, with the way points between. */
export interface Link {
  readonly key: string;
  readonly material: string;
  readonly items: readonly Item[];
  readonly size: number;
}

/** Builds columns, items and links. Flows marked as recycle, and stock, are no part of it: they are drawn apart. */
export function buildGraph(input: CascadeInput): Graph {
  const column = columnsOf(input.steps);
  const columns = Math.max(0, ...column.values()) + (input.steps.length > 0 ? 1 : 0);
  const makers = makersOf(input);
  const nodes = materialColumns(input.steps, column);
  const items = new Map<string, Item>();
  const item = (kind: Item['kind'], id: string, layer: number): Item => {
    const key = `${kind} ${id} ${layer}`;
    const known = items.get(key) ?? { kind, id, layer };
    items.set(key, known);
    return known;
  };
  const stepItem = (step: string): Item => item('step', step, 2 * (column.get(step) ?? 0) + 1);
  const materialItem = (material: string): Item => item('material', material, 2 * (nodes.get(material) ?? 0));

  const links: Link[] = [];
  const join = (from: Item, to: Item, material: string, size: number): void => {
    if (from.layer >= to.layer) return;
    const key = `${from.id} → ${to.id} ${material}`;
    const between = Array.from({ length: to.layer - from.layer - 1 }, (_, index) =>
      item('way point', key, from.layer + index + 1),
    );
    links.push({ key, material, items: [from, ...between, to], size });
  };

  for (const step of input.steps) {
    stepItem(step.id);
    for (const material of [step.basis, ...step.also]) {
      join(materialItem(material), stepItem(step.id), material, total(input.flows, material, toStep(step.id)));
    }
  }
  for (const [material, steps] of makers) {
    if (!nodes.has(material)) continue;
    for (const step of steps) {
      join(stepItem(step), materialItem(material), material, total(input.flows, material, fromStep(step)));
    }
  }
  for (const draw of input.draws) {
    const end = item('draw', draw.id, 2 * columns);
    const { material } = draw;
    if (nodes.has(material)) {
      join(materialItem(material), end, material, total(input.flows, material, toDraw(draw.id)));
      continue;
    }
    for (const step of makers.get(material) ?? []) {
      join(stepItem(step), end, material, total(input.flows, material, fromStep(step), toDraw(draw.id)));
    }
  }
  const byItem = new Map<Item, Link[]>([...items.values()].map((one) => [one, []]));
  for (const link of links) for (const one of link.items) byItem.get(one)?.push(link);
  const linksOf = (one: Item): readonly Link[] => byItem.get(one) ?? [];
  return { columns, layers: ordered([...items.values()], linksOf, input, columns), links, linksOf };
}

/** What a link goes on to from an item; undefined where it ends there. */
export function nextOf(link: Link, item: Item): Item | undefined {
  return link.items[link.items.indexOf(item) + 1];
}

/** Column of each step: as far right as what is made of its product allows. Recycles do not count. */
function columnsOf(steps: readonly CascadeStep[]): ReadonlyMap<string, number> {
  const fromRight = new Map<string, number>();
  for (const step of [...steps].sort((a, b) => b.number - a.number)) {
    const users = steps.filter((user) => user.number > step.number && [user.basis, ...user.also].includes(step.product));
    fromRight.set(step.id, Math.max(0, ...users.map((user) => (fromRight.get(user.id) ?? 0) + 1)));
  }
  const last = Math.max(0, ...fromRight.values());
  return new Map([...fromRight].map(([id, rank]) => [id, last - rank]));
}

/** Steps that make each material: by their product, and by what else flows out of them. */
function makersOf(input: CascadeInput): ReadonlyMap<string, readonly string[]> {
  const makers = new Map<string, Set<string>>();
  const add = (material: string, step: string): void => {
    const known = makers.get(material) ?? new Set();
    makers.set(material, known.add(step));
  };
  for (const step of input.steps) add(step.product, step.id);
  for (const flow of input.flows) if (flow.from.kind === 'step' && !flow.recycle) add(flow.material, flow.from.step);
  return new Map([...makers].map(([material, steps]) => [material, [...steps]]));
}

/** A material has a block of its own where a step uses it, in the column of the first such step. */
function materialColumns(steps: readonly CascadeStep[], column: ReadonlyMap<string, number>): ReadonlyMap<string, number> {
  const nodes = new Map<string, number>();
  for (const step of steps) {
    for (const material of [step.basis, ...step.also]) {
      const own = column.get(step.id) ?? 0;
      nodes.set(material, Math.min(nodes.get(material) ?? own, own));
    }
  }
  return nodes;
}

/** Orders every layer from the draws leftward, each item at the middle of what it goes to. */
function ordered(items: readonly Item[], linksOf: Graph['linksOf'], input: CascadeInput, columns: number): Item[][] {
  const layers: Item[][] = Array.from({ length: 2 * columns + 1 }, () => []);
  for (const item of items) layers[item.layer]?.push(item);
  const last = layers.at(-1) ?? [];
  const drawOrder = new Map(input.draws.map((draw, index) => [draw.id, index]));
  last.sort((a, b) => (drawOrder.get(a.id) ?? 0) - (drawOrder.get(b.id) ?? 0));
  const number = new Map(input.steps.map((step) => [step.id, step.number]));
  for (let index = layers.length - 2; index >= 0; index -= 1) {
    const right = layers[index + 1] ?? [];
    const place = new Map(right.map((item, at) => [item, (at + 0.5) / right.length]));
    const middle = (item: Item): number =>
      mean(
        linksOf(item)
          .flatMap((link) => nextOf(link, item) ?? [])
          .map((next) => place.get(next) ?? 1),
      ) ?? 1;
    const at = new Map((layers[index] ?? []).map((item) => [item, middle(item)]));
    layers[index]?.sort((a, b) => (at.get(a) ?? 0) - (at.get(b) ?? 0) || (number.get(a.id) ?? 0) - (number.get(b.id) ?? 0));
  }
  return layers;
}

function mean(values: readonly number[]): number | undefined {
  return values.length === 0 ? undefined : values.reduce((all, value) => all + value, 0) / values.length;
}

type End = (flow: CascadeFlow) => boolean;
/** What comes back to an earlier step is drawn apart, but it is part of what that step is charged with. */
const fromStep =
  (id: string): End =>
  ({ from, recycle }) =>
    from.kind === 'step' && from.step === id && !recycle;
const toStep =
  (id: string): End =>
  ({ to }) =>
    to.kind === 'step' && to.step === id;
const toDraw =
  (id: string): End =>
  ({ to }) =>
    to.kind === 'draw' && to.draw === id;

/** All of a material that flows between these ends. */
function total(flows: readonly CascadeFlow[], material: string, ...ends: readonly End[]): number {
  return flows
    .filter((flow) => flow.material === material && !flow.apart && ends.every((end) => end(flow)))
    .reduce((size, flow) => size + flow.size, 0);
}
