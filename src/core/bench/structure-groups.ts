import type { Facts } from '../matter/facts.ts';
import type { Reference } from '../reference.ts';
import { remember } from '../remember.ts';
import { inBenzeneRing } from '../structure/benzene-ring.ts';
import { atomGraph, is, near, type Node, others } from '../structure/atom-graph.ts';

type Test = (node: Node) => boolean;

const HALOGENS = new Set(['F', 'Cl', 'Br', 'I']);
/** Metals that make an organic compound burn with water. */
const FIERCE_METALS = new Set(['Li', 'Na', 'K', 'Mg', 'Zn', 'Al']);

/**
 * How the groups of the compatibility chart (EPA-600/2-80-076) are told from a structure, by their numbers there. The
 * report lists examples, not structures: what is looked for is ours.
 */
const TESTS: readonly (readonly [group: number, test: Test])[] = [
  [
    3,
    (node) =>
      (isCarbonyl(node) || (isSulfonyl(node) && near(node).some(is('C')))) &&
      besideOxo(node).some(isHydroxyl) &&
      !isCarbonate(node),
  ],
  [4, (node) => isHydroxyl(node) && near(node).some(isSaturated)],
  [5, (node) => isCarbonyl(node) && besideOxo(node).every(is('C')) && besideOxo(node).length < 2],
  [6, (node) => isCarbonyl(node) && besideOxo(node).some(is('N')) && !besideOxo(node).some(is('O'))],
  [7, (node) => isAmine(node)],
  [8, (node) => is('N')(node) && !inBenzeneRing(node) && near(node).some((one) => is('N')(one) && !isNitro(one))],
  [9, (node) => isCarbonyl(node) && besideOxo(node).some(is('N')) && besideOxo(node).some(is('O'))],
  [13, (node) => isCarbonyl(node) && !besideOxo(node).some(is('N')) && besideOxo(node).some((one) => isBridge(one, node))],
  [14, (node) => isEther(node) && !isEpoxide(node)],
  [17, (node) => isHalogen(node) && near(node).some((one) => is('C')(one) && !isCarbonyl(one))],
  [18, (node) => is('C')(node) && doubly(node, 'O') && doubly(node, 'N')],
  [19, (node) => isCarbonyl(node) && besideOxo(node).length === 2 && besideOxo(node).every(is('C'))],
  [20, (node) => is('S')(node) && node.to.length > 0 && node.to.every((join) => join.order === 1) && near(node).some(is('C'))],
  [26, (node) => is('C')(node) && node.to.some((join) => join.order === 3 && is('N')(join.node))],
  [27, (node) => isNitro(node) && near(node).some(is('C'))],
  [30, (node) => is('O')(node) && near(node).some(is('O')) && near(node).some(is('C'))],
  [31, (node) => isHydroxyl(node) && near(node).some((one) => is('C')(one) && inBenzeneRing(one))],
  [34, isEpoxide],
  [105, isMetalOnCarbon],
  [107, (node) => isMetalOnCarbon(node) || isAcidHalide(node) || isAnhydride(node)],
];

/** Numbers of the chart's groups that a structure shows; none where there is no structure, which proves nothing. */
export const structureGroups: (facts: Facts, reference: Reference) => readonly number[] = remember((facts) => {
  if (facts.smiles === null) return [];
  const nodes = atomGraph(facts.smiles);
  return [...TESTS.filter(([, test]) => nodes.some(test)).map(([group]) => group), ...hydrocarbonGroups(nodes)];
});

/** Aromatic, unsaturated or saturated: of what holds carbon and hydrogen alone. */
function hydrocarbonGroups(nodes: readonly Node[]): readonly number[] {
  if (nodes.length === 0 || nodes.some((one) => !is('C')(one) && !is('H')(one))) return [];
  if (nodes.some(inBenzeneRing)) return [16];
  return nodes.some((one) => one.to.some((join) => join.order > 1)) ? [28] : [29];
}

function isHalogen(node: Node): boolean {
  return HALOGENS.has(node.atom.element);
}

function doubly(node: Node, element: string): boolean {
  return node.to.some((join) => join.order === 2 && is(element)(join.node));
}

function isSaturated(node: Node): boolean {
  return is('C')(node) && !node.atom.aromatic && node.to.every((join) => join.order === 1);
}

/** –OH, as far as a SMILES without its hydrogens tells; a charged oxygen is none. */
function isHydroxyl(node: Node): boolean {
  return is('O')(node) && node.to.length === 1 && node.to.every((join) => join.order === 1) && !node.sign.includes('-');
}

/** The carbon of C=O that has no other double bond. */
function isCarbonyl(node: Node): boolean {
  return is('C')(node) && doubly(node, 'O') && node.to.filter((join) => join.order > 1).length === 1;
}

/** Carbonic acid and its salts: two oxygens beside C=O. */
function isCarbonate(node: Node): boolean {
  return is('C')(node) && besideOxo(node).filter(is('O')).length > 1;
}

function isSulfonyl(node: Node): boolean {
  return is('S')(node) && node.to.filter((join) => join.order === 2 && is('O')(join.node)).length >= 2;
}

/** What is bound to the carbon of C=O, or the sulfur of SO2, but its doubly bound oxygens. */
function besideOxo(node: Node): readonly Node[] {
  return node.to.flatMap((join) => (join.order === 2 && is('O')(join.node) ? [] : [join.node]));
}

/** An oxygen between this carbon and one that is no C=O: of an ester, not of an anhydride. */
function isBridge(node: Node, from: Node): boolean {
  return is('O')(node) && others(node, from).some((one) => is('C')(one) && !isCarbonyl(one));
}

function isEther(node: Node): boolean {
  return is('O')(node) && node.to.length === 2 && near(node).every((one) => is('C')(one) && !doubly(one, 'O'));
}

function isEpoxide(node: Node): boolean {
  const [one, other] = near(node);
  return is('O')(node) && one !== undefined && other !== undefined && is('C')(one) && is('C')(other) && near(one).includes(other);
}

function isNitro(node: Node): boolean {
  return is('N')(node) && near(node).filter((one) => is('O')(one) && one.to.length === 1).length >= 2;
}

/** Nitrogen on carbon by single bonds, no amide, no ammonium; or the nitrogen of a pyridine. */
function isAmine(node: Node): boolean {
  if (!is('N')(node) || node.sign.includes('+')) return false;
  if (inBenzeneRing(node)) return true;
  const single = node.to.length > 0 && node.to.every((join) => join.order === 1);
  const plain = (one: Node): boolean => is('C')(one) && !['O', 'S', 'N'].some((element) => doubly(one, element));
  return single && near(node).every(plain) && !near(node).some((one) => one.to.some((join) => join.order === 3));
}

function isMetalOnCarbon(node: Node): boolean {
  return FIERCE_METALS.has(node.atom.element) && near(node).some(is('C'));
}

/** Halogen on C=O, SO2, silicon, phosphorus or boron. */
function isAcidHalide(node: Node): boolean {
  const takes = (one: Node): boolean =>
    isCarbonyl(one) || (is('S')(one) && doubly(one, 'O')) || ['Si', 'P', 'B'].some((element) => is(element)(one));
  return isHalogen(node) && !is('F')(node) && near(node).some(takes);
}

function isAnhydride(node: Node): boolean {
  return is('O')(node) && near(node).filter((one) => isCarbonyl(one)).length === 2;
}
