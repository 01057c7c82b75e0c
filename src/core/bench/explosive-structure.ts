import type { Facts } from '../matter/facts.ts';
import type { Reference } from '../reference.ts';
import { remember } from '../remember.ts';
import { atomGraph, is, near, type Node } from '../structure/atom-graph.ts';
import { isAcetylide, isAzide, isDiazo, isNitrateEster, isNitro, isPeroxide } from './energetic.ts';
import { isNitramine } from './energetic-links.ts';

/** Why a structure counts as an explosive here, though no statement says so. */
export type ExplosiveKind =
  | 'nitro'
  | 'nitrate esters'
  | 'peroxides'
  | 'metal azide'
  | 'azide'
  | 'metal acetylide'
  | 'fulminate'
  | 'nitrogen halide'
  | 'nitramine'
  | 'small nitrate'
  | 'perchlorate ester'
  | 'diazonium';

const MANY_NITRO = 3;
const SEVERAL = 2;
const NITRO_OXYGENS = 2;
/** Atoms of carbon and oxygen for each nitrogen of an azide; fewer, and it is not kept in more than a few grams. */
const ATOMS_PER_NITROGEN = 3;
const HEAVY_METALS = new Set(['Ag', 'Au', 'Cu', 'Hg', 'Pb', 'Cd', 'Tl', 'Zn', 'Ni', 'Co', 'Mn', 'Fe']);
const HALOGENS = new Set(['Cl', 'Br', 'I']);

type Test = (nodes: readonly Node[]) => boolean;

const holds =
  (metals: ReadonlySet<string>): Test =>
  (nodes) =>
    nodes.some((one) => metals.has(one.atom.element));
const counted =
  (test: (node: Node) => boolean, least: number): Test =>
  (nodes) =>
    nodes.filter(test).length >= least;
const heavy = holds(HEAVY_METALS);

/** Of these the members that are known are classed as explosives (H200, H201), or never isolated. From memory, but azides. */
const KINDS: readonly (readonly [ExplosiveKind, Test])[] = [
  ['nitro', counted(isNitro, MANY_NITRO)],
  ['nitrate esters', counted(isNitrateEster, SEVERAL)],
  // Two oxygens each.
  ['peroxides', counted(isPeroxide, 2 * SEVERAL)],
  ['metal azide', (nodes) => heavy(nodes) && nodes.some(isAzide)],
  ['metal acetylide', (nodes) => heavy(nodes) && nodes.some(isAcetylide)],
  ['fulminate', (nodes) => nodes.some(isFulminate)],
  ['nitrogen halide', (nodes) => nodes.some(isNitrogenHalide)],
  ['nitro', (nodes) => nodes.some(isGeminalDinitro)],
  ['nitramine', (nodes) => isThin(nodes, nodes.filter(isNitramine).length)],
  ['small nitrate', (nodes) => isThin(nodes, nodes.filter(isNitrateEster).length)],
  ['perchlorate ester', (nodes) => nodes.some(isPerchlorateEster)],
  ['diazonium', isFierceDiazonium],
  ['azide', isDenseAzide],
];

/**
 * The kind of explosive that a structure belongs to; null where it shows none, or where there is no structure: neither
 * proves that it is none.
 * Source for azides, (C + O) ÷ N ≥ 3: Stanford University Environmental Health & Safety, "Information on Azide
 * Compounds", read in a stored copy; small nitramines and nitrates, perchlorate esters: University of Minnesota Duluth,
 * Table 5-4, read in a stored copy; the others are from memory.
 */
export const explosiveKindOf: (facts: Facts, reference: Reference) => ExplosiveKind | null = remember((facts) => {
  if (facts.smiles === null) return null;
  const nodes = atomGraph(facts.smiles);
  return KINDS.find(([, test]) => test(nodes))?.[0] ?? null;
});

/** Two nitro groups on one carbon that is not aromatic. */
function isGeminalDinitro(node: Node): boolean {
  return is('C')(node) && !node.atom.aromatic && near(node).filter(isNitro).length >= SEVERAL;
}

const CARBONS_PER_GROUP = 2;

/** Groups on a molecule with no more than two carbons for each of them. */
function isThin(nodes: readonly Node[], groups: number): boolean {
  return groups > 0 && nodes.filter(is('C')).length <= CARBONS_PER_GROUP * groups;
}

/** C–O–ClO3. */
function isPerchlorateEster(node: Node): boolean {
  const oxygens = is('Cl')(node) ? near(node).filter(is('O')) : [];
  return oxygens.length > NITRO_OXYGENS + 1 && oxygens.some((one) => near(one).some(is('C')));
}

/** A diazonium or diazo group together with two nitro groups, with nitrate or with perchlorate. */
function isFierceDiazonium(nodes: readonly Node[]): boolean {
  const oxygens = (node: Node): number => near(node).filter(is('O')).length;
  const fierce = (node: Node): boolean =>
    (is('N')(node) && oxygens(node) > NITRO_OXYGENS) || (is('Cl')(node) && oxygens(node) > NITRO_OXYGENS + 1);
  return nodes.some(isDiazo) && (nodes.some(fierce) || nodes.filter(isNitro).length >= SEVERAL);
}

/** A covalent azide, or hydrazoic acid, with too little carbon and oxygen to thin it. Salts of light metals are none. */
function isDenseAzide(nodes: readonly Node[]): boolean {
  const count = (element: string): number => nodes.filter(is(element)).length;
  const salt = nodes.some((one) => one.sign.includes('+') && !is('N')(one) && one.to.length === 0);
  return nodes.some(isAzide) && !salt && count('C') + count('O') < ATOMS_PER_NITROGEN * count('N');
}

/** C≡N⁺–O⁻ at the end of a chain: carbon with nothing else, or a metal, on it. */
function isFulminate(node: Node): boolean {
  if (!is('C')(node)) return false;
  const nitrogen = node.to.find((join) => is('N')(join.node) && join.order === 3)?.node;
  const rest = near(node).filter((one) => one !== nitrogen);
  return nitrogen !== undefined && near(nitrogen).some(is('O')) && rest.every((one) => HEAVY_METALS.has(one.atom.element));
}

/** Nitrogen with two halogens or more and no carbon. */
function isNitrogenHalide(node: Node): boolean {
  const halogens = near(node).filter((one) => HALOGENS.has(one.atom.element));
  return is('N')(node) && halogens.length >= SEVERAL && !near(node).some(is('C'));
}
