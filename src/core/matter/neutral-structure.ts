import { remember } from '../remember.ts';
import type { Reference } from '../reference.ts';
import { atomGraph, is, near, type Node } from '../structure/atom-graph.ts';
import type { Facts } from './facts.ts';

// What counts as neither acid nor base by its structure: a short list of groups, and no other atom. What is not on it
// stays unknown. pKa of the groups lie below 0 (amides, nitriles, nitro groups, ethers, ketones as bases) or above 13
// (alcohols, amides, ketones, esters as acids); textbook values, from memory.

const HALOGENS = new Set(['F', 'Cl', 'Br', 'I']);
const isHalogen = (node: Node): boolean => HALOGENS.has(node.atom.element);
const heavy = (node: Node): readonly Node[] => near(node).filter((one) => !is('H')(one));
const doubled = (node: Node): readonly Node[] => node.to.flatMap((join) => (join.order === 2 ? [join.node] : []));
const isSaturated = (node: Node): boolean => !node.atom.aromatic && node.to.every((join) => join.order === 1);
const isCarbonyl = (node: Node): boolean => is('C')(node) && doubled(node).some(is('O'));
const isNitrile = (node: Node): boolean => is('C')(node) && node.to.some((join) => join.order === 3 && is('N')(join.node));
const isHydroxyl = (node: Node): boolean => is('O')(node) && heavy(node).length === 1 && doubled(node).length === 0;
const pulls = (node: Node): boolean => isCarbonyl(node) || isNitrile(node);

/**
 * Whether a structure holds only groups that neither give nor take a proton in water between pH 2 and 12, and none that
 * water turns into an acid: hydrocarbons, ethers, alcohols, aldehydes, ketones, esters, amides, nitriles, aromatic nitro
 * groups and halides. False for anything else, and where there is no structure.
 */
export const isNeutralByStructure: (facts: Facts, reference: Reference) => boolean = remember((facts) => {
  if (facts.smiles === null || facts.smiles.includes('.')) return false;
  const nodes = atomGraph(facts.smiles);
  return nodes.some(is('C')) && nodes.every(isNeutral);
});

function isNeutral(node: Node): boolean {
  const { element } = node.atom;
  if (element === 'H') return true;
  if (/[+-]/.test(node.sign) && !inNitro(node)) return false;
  if (HALOGENS.has(element)) return near(node).length === 1 && near(node).every(is('C'));
  if (element === 'C') return isNeutralCarbon(node);
  if (element === 'O') return isNeutralOxygen(node);
  return element === 'N' && isNeutralNitrogen(node);
}

function isNeutralCarbon(node: Node): boolean {
  const around = heavy(node);
  const halides = around.filter(isHalogen);
  if (doubled(node).length > 1) return false;
  if (isCarbonyl(node)) return isNeutralCarbonyl(node);
  if (!isSaturated(node)) return true;
  // Between two groups that pull, beside a nitro group, or a cyanohydrin: acid. A halide that water takes off: not here.
  if (around.filter(pulls).length > 1 || around.some(is('N')) !== around.some(isAmideNitrogen)) return false;
  if (around.some(isNitrile) && around.some(is('O'))) return false;
  const loose = halides.filter((one) => !is('F')(one));
  return loose.length === 0 || (!around.some(is('O')) && !around.some(is('N')) && around.filter(is('C')).length < 3);
}

/** No acid, acid halide, anhydride, imide or acyl cyanide, and no halogens beside it. */
function isNeutralCarbonyl(node: Node): boolean {
  const around = heavy(node).filter((one) => !doubled(node).includes(one));
  if (around.some(isHalogen) || around.some(isHydroxyl) || (around.some(pulls) && around.some(isNitrile))) return false;
  if (around.some((one) => is('O')(one) && heavy(one).some((next) => next !== node && isCarbonyl(next)))) return false;
  return !around.some((one) => is('C')(one) && heavy(one).some(isHalogen) && isSaturated(one));
}

/** A carbonyl, an ether, an ester, a furan, or an alcohol on a plain saturated carbon. */
function isNeutralOxygen(node: Node): boolean {
  if (inNitro(node)) return true;
  const around = heavy(node);
  if (!around.every(is('C'))) return false;
  if (!isHydroxyl(node)) return true;
  const [carrier] = around;
  return carrier !== undefined && isSaturated(carrier) && !heavy(carrier).some((one) => heavy(one).some(isHalogen));
}

function isNeutralNitrogen(node: Node): boolean {
  if (inNitro(node)) return true;
  if (node.to.length === 1 && node.to[0]?.order === 3) return is('C')(node.to[0].node);
  return isAmideNitrogen(node);
}

/** Bound by single bonds to one carbonyl carbon, and to nothing but carbon. */
function isAmideNitrogen(node: Node): boolean {
  const around = heavy(node);
  return is('N')(node) && isSaturated(node) && around.every(is('C')) && around.filter(isCarbonyl).length === 1;
}

/** A nitro group on an aromatic carbon, or one of its oxygens. */
function inNitro(node: Node): boolean {
  const nitrogen = is('N')(node) ? node : near(node).find(is('N'));
  if (!nitrogen) return false;
  const ends = near(nitrogen).filter((one) => is('O')(one) && near(one).length === 1);
  const carrier = near(nitrogen).find((one) => !ends.includes(one));
  return ends.length === 2 && near(nitrogen).length === 3 && carrier !== undefined && is('C')(carrier) && !isSaturated(carrier);
}
