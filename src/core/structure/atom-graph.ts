import { readSmilesText, type SmilesAtom } from './smiles-text.ts';

/** One atom with its neighbours. */
export interface Node {
  readonly atom: SmilesAtom;
  /** As it is written, with brackets and charge. */
  readonly sign: string;
  readonly to: readonly { readonly node: Node; readonly order: number }[];
}

/** The atoms a SMILES writes, each with its neighbours; none where it cannot be read. */
export function atomGraph(smiles: string): readonly Node[] {
  const text = smiles.trim();
  const read = readSmilesText(text);
  if (!read.ok) return [];
  const nodes = read.atoms.map((atom) => ({ atom, sign: signAt(text, atom.at), to: [] as { node: Node; order: number }[] }));
  for (const { one, other, order } of read.joins) {
    const [first, second] = [nodes[one], nodes[other]];
    if (!first || !second) continue;
    first.to.push({ node: second, order });
    second.to.push({ node: first, order });
  }
  return nodes;
}

function signAt(text: string, at: number): string {
  return text[at] === '[' ? text.slice(at, text.indexOf(']', at) + 1) : '';
}

/** Tells whether an atom is of an element. */
export function is(element: string): (node: Node) => boolean {
  return (node) => node.atom.element === element;
}

/** The neighbours of an atom. */
export function near(node: Node): readonly Node[] {
  return node.to.map((join) => join.node);
}

/** The neighbours of an atom but one of them. */
export function others(node: Node, but: Node | undefined): readonly Node[] {
  return near(node).filter((one) => one !== but);
}
