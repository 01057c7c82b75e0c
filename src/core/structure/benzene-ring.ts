import { is, type Node } from './atom-graph.ts';

/**
 * Whether an atom sits in a six-membered ring of alternating bonds, of carbon or nitrogen: written in small letters, or
 * with its double bonds. A quinone's ring is none; rings of five are not looked at.
 */
export function inBenzeneRing(node: Node): boolean {
  if (node.atom.aromatic) return true;
  const step = (path: readonly Node[]): boolean => {
    const last = path.at(-1) ?? node;
    if (path.length === 6) return last.to.some((join) => join.node === node && join.order === 1);
    const order = path.length % 2 === 1 ? 2 : 1;
    return last.to.some(
      (join) => join.order === order && !path.includes(join.node) && inRing(join.node) && step([...path, join.node]),
    );
  };
  return inRing(node) && step([node]);
}

function inRing(node: Node): boolean {
  return is('C')(node) || is('N')(node);
}
