import { remember } from '../remember.ts';
import type { Reference } from '../reference.ts';
import { atomGraph, is, near, type Node } from '../structure/atom-graph.ts';
import type { AcidPart } from './acidity.ts';
import type { Facts } from './facts.ts';

/** Stronger ones (trifluoroacetic, oxalic) are not like the rest. */
const WEAKEST_FIRST_PKA = 2;

/** –C(=O)–OH or its salt. */
function isCarboxyl(node: Node): boolean {
  const oxygens = node.to.filter((join) => is('O')(join.node));
  return (
    is('C')(node) &&
    oxygens.length === 2 &&
    oxygens.some((join) => join.order === 2) &&
    oxygens.some((join) => join.order === 1 && near(join.node).length === 1)
  );
}

const carboxyls: (facts: Facts, reference: Reference) => number | null = remember((facts) =>
  facts.smiles === null ? null : atomGraph(facts.smiles).filter(isCarboxyl).length,
);

/**
 * Whether every proton that an acid gives in water sits on a carboxyl group, by its structure, and none is stronger than
 * pKa 2: such acids give and take little heat as they ionise. False where the structure is not known.
 * @param facts of the material that brings the acid; of another than itself the built-in table has the structure.
 */
export function isCarboxylic({ acidity, cas }: AcidPart, facts: Facts, reference: Reference): boolean {
  if (cas !== facts.cas || acidity.pKa.length === 0) return false;
  return acidity.pKa.every((one) => one.value >= WEAKEST_FIRST_PKA) && carboxyls(facts, reference) === acidity.pKa.length;
}
