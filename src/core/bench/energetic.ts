import type { Facts } from '../matter/facts.ts';
import type { Reference } from '../reference.ts';
import { remember } from '../remember.ts';
import { atomGraph, is, near, type Node, others } from '../structure/atom-graph.ts';
import { isAzo, isBareTriazole, isFulminic, isHypohalite, isNitramine, isNitroso, isOxyhalide } from './energetic-links.ts';

/** A group of atoms that stores energy, found in a structure. */
export interface EnergeticGroup {
  readonly name: string;
  readonly source: string;
}

/** Read there: nitro (O–NO2, N–NO2, C–NO2), nitroso (O–NO, N–NO), azo and related, hypohalites and haloamines, oxyhalide salts, … */
const SOURCE =
  'Prudent Practices in the Laboratory (2011) 4.D.3.1, as quoted by University of California, Berkeley, Potentially Explosive Compounds';
const SHOCK = 'University of Minnesota Duluth, Table 5-4, Shock-Sensitive Compounds';
const HALOGENS = new Set(['F', 'Cl', 'Br', 'I']);
/** What an acetylenic carbon is bound to where it is no acetylide; anything else counts as a metal. */
const NOT_METAL = new Set(['H', 'B', 'C', 'N', 'O', 'F', 'Si', 'P', 'S', 'Cl', 'Se', 'Br', 'I']);
const SEVERAL_NITRO = 2;
const CHLORATE_OXYGENS = 4;

/** The groups looked for. A structure without one of them is not thereby known to be harmless. */
const GROUPS: readonly { readonly name: string; readonly in: (nodes: readonly Node[]) => boolean; readonly source?: string }[] = [
  { name: 'an azide', in: (nodes) => nodes.some(isAzide) },
  {
    name: 'a diazo or diazonium group',
    in: (nodes) => nodes.some(isDiazo),
  },
  { name: 'a peroxide or hydroperoxide', in: (nodes) => nodes.some(isPeroxide) },
  { name: 'two or more nitro groups', in: (nodes) => nodes.filter(isNitro).length >= SEVERAL_NITRO },
  { name: 'a nitro group on nitrogen', in: (nodes) => nodes.some(isNitramine) },
  { name: 'a nitrite ester or an N-nitroso group', in: (nodes) => nodes.some(isNitroso) },
  { name: 'an azo group', in: (nodes) => nodes.some(isAzo) },
  { name: 'a nitrate ester', in: (nodes) => nodes.some(isNitrateEster) },
  { name: 'a nitrogen–halogen bond', in: (nodes) => nodes.some((one) => is('N')(one) && near(one).some(isHalogen)) },
  { name: 'an acetylide', in: (nodes) => nodes.some(isAcetylide) },
  {
    name: 'perchlorate or perchloric acid',
    in: (nodes) => nodes.some((one) => is('Cl')(one) && near(one).filter(is('O')).length >= CHLORATE_OXYGENS),
  },
  { name: 'a tetrazole ring', in: (nodes) => nodes.some(isTetrazoleCarbon) },
  {
    name: 'a 1,2,3-triazole without carbon on its nitrogens',
    in: (nodes) => nodes.some(isBareTriazole) && !nodes.some(isTetrazoleCarbon),
  },
  { name: 'a hypohalite or a hypervalent iodine ester', in: (nodes) => nodes.some(isHypohalite) },
  { name: 'a halogen with several oxygens', in: (nodes) => nodes.some(isOxyhalide) },
  { name: 'a fulminate or nitrile oxide', in: (nodes) => nodes.some(isFulminic), source: SHOCK },
];

/** Energetic groups of a material by its SMILES; none where there is no structure, or none that can be read. */
export const energeticGroups: (facts: Facts, reference: Reference) => readonly EnergeticGroup[] = remember((facts) =>
  facts.smiles === null ? [] : groupsIn(facts.smiles),
);

function groupsIn(smiles: string): readonly EnergeticGroup[] {
  const nodes = atomGraph(smiles);
  return GROUPS.filter((group) => group.in(nodes)).map(({ name, source }) => ({ name, source: source ?? SOURCE }));
}

/** The nitrogen next to carbon of a diazo or diazonium group. */
export function isDiazo(node: Node): boolean {
  return cumulated(node) && others(node, endOf(node)).every(is('C'));
}

/** The middle of an azide, covalent or ionic. */
export function isAzide(node: Node): boolean {
  return cumulated(node) && others(node, endOf(node)).every(is('N'));
}

function isHalogen(node: Node): boolean {
  return HALOGENS.has(node.atom.element);
}

/** The nitrogen at the end of –N=N or –N≡N, if there is one. */
function endOf(node: Node): Node | undefined {
  return node.to.find((join) => is('N')(join.node) && join.node.to.length === 1 && join.order >= 2)?.node;
}

/** The middle of X=N=N or X–N≡N: two neighbours, four bonds or, uncharged as some write it, five. */
function cumulated(node: Node): boolean {
  return is('N')(node) && !node.atom.aromatic && node.to.length === 2 && node.atom.bonds >= 4 && endOf(node) !== undefined;
}

/** –O–O– on carbon or silicon; hydrogen peroxide and inorganic peroxo salts are none of these. */
export function isPeroxide(node: Node): boolean {
  return (
    is('O')(node) &&
    node.to.some((join) => join.order === 1 && is('O')(join.node)) &&
    near(node).some((one) => is('C')(one) || is('Si')(one))
  );
}

function endOxygens(node: Node): readonly Node[] {
  return near(node).filter((one) => is('O')(one) && one.to.length === 1);
}

/** A nitro group on carbon or nitrogen. */
export function isNitro(node: Node): boolean {
  const ends = endOxygens(node);
  const rest = near(node).filter((one) => !ends.includes(one));
  return is('N')(node) && ends.length === 2 && rest.length === 1 && rest.every((one) => is('C')(one) || is('N')(one));
}

/** C–O–NO2; a nitrate ion or nitric acid has no carbon on its oxygen. */
export function isNitrateEster(node: Node): boolean {
  const bridge = near(node).find((one) => is('O')(one) && near(one).some(is('C')));
  return is('N')(node) && endOxygens(node).length === 2 && bridge !== undefined;
}

/** A carbon of C≡C that is an anion or is bound to a metal. */
export function isAcetylide(node: Node): boolean {
  const triple = node.to.some((join) => join.order === 3 && is('C')(join.node));
  return is('C')(node) && triple && (node.sign.includes('-') || near(node).some((one) => !NOT_METAL.has(one.atom.element)));
}

/** A carbon that closes a ring of four nitrogens in a row. */
function isTetrazoleCarbon(node: Node): boolean {
  if (!is('C')(node)) return false;
  const step = (paths: readonly (readonly Node[])[]): readonly (readonly Node[])[] =>
    paths.flatMap((path) =>
      near(path.at(-1) ?? node)
        .filter((one) => is('N')(one) && !path.includes(one))
        .map((one) => [...path, one]),
    );
  return step(step(step(step([[node]])))).some((path) => near(path.at(-1) ?? node).includes(node));
}
