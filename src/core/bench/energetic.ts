import type { Facts } from '../matter/facts.ts';
import type { Reference } from '../reference.ts';
import { remember } from '../remember.ts';
import { atomGraph, is, near, type Node, others } from '../structure/atom-graph.ts';

/** A group of atoms that stores energy, found in a structure. */
export interface EnergeticGroup {
  readonly name: string;
  readonly source: string;
}

const SOURCE = 'Prudent Practices in the Laboratory, from memory';
const HALOGENS = new Set(['F', 'Cl', 'Br', 'I']);
/** What an acetylenic carbon is bound to where it is no acetylide; anything else counts as a metal. */
const NOT_METAL = new Set(['H', 'B', 'C', 'N', 'O', 'F', 'Si', 'P', 'S', 'Cl', 'Se', 'Br', 'I']);
const MANY_NITRO = 3;
const CHLORATE_OXYGENS = 4;

/** The groups looked for. A structure without one of them is not thereby known to be harmless. */
const GROUPS: readonly { readonly name: string; readonly in: (nodes: readonly Node[]) => boolean }[] = [
  { name: 'an azide', in: (nodes) => nodes.some((one) => cumulated(one) && others(one, endOf(one)).every(is('N'))) },
  {
    name: 'a diazo or diazonium group',
    in: (nodes) => nodes.some((one) => cumulated(one) && others(one, endOf(one)).every(is('C'))),
  },
  { name: 'a peroxide or hydroperoxide', in: (nodes) => nodes.some(isPeroxide) },
  { name: 'three or more nitro groups', in: (nodes) => nodes.filter(isNitro).length >= MANY_NITRO },
  { name: 'a nitrate ester', in: (nodes) => nodes.some(isNitrateEster) },
  { name: 'a nitrogen–halogen bond', in: (nodes) => nodes.some((one) => is('N')(one) && near(one).some(isHalogen)) },
  { name: 'an acetylide', in: (nodes) => nodes.some(isAcetylide) },
  {
    name: 'perchlorate or perchloric acid',
    in: (nodes) => nodes.some((one) => is('Cl')(one) && near(one).filter(is('O')).length >= CHLORATE_OXYGENS),
  },
  { name: 'a tetrazole ring', in: (nodes) => nodes.some(isTetrazoleCarbon) },
];

/** Energetic groups of a material by its SMILES; none where there is no structure, or none that can be read. */
export const energeticGroups: (facts: Facts, reference: Reference) => readonly EnergeticGroup[] = remember((facts) =>
  facts.smiles === null ? [] : groupsIn(facts.smiles),
);

function groupsIn(smiles: string): readonly EnergeticGroup[] {
  const nodes = atomGraph(smiles);
  return GROUPS.filter((group) => group.in(nodes)).map(({ name }) => ({ name, source: SOURCE }));
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
function isPeroxide(node: Node): boolean {
  return (
    is('O')(node) &&
    node.to.some((join) => join.order === 1 && is('O')(join.node)) &&
    near(node).some((one) => is('C')(one) || is('Si')(one))
  );
}

function endOxygens(node: Node): readonly Node[] {
  return near(node).filter((one) => is('O')(one) && one.to.length === 1);
}

function isNitro(node: Node): boolean {
  const ends = endOxygens(node);
  const rest = near(node).filter((one) => !ends.includes(one));
  return is('N')(node) && ends.length === 2 && rest.length === 1 && rest.every((one) => is('C')(one) || is('N')(one));
}

/** C–O–NO2; a nitrate ion or nitric acid has no carbon on its oxygen. */
function isNitrateEster(node: Node): boolean {
  const bridge = near(node).find((one) => is('O')(one) && near(one).some(is('C')));
  return is('N')(node) && endOxygens(node).length === 2 && bridge !== undefined;
}

/** A carbon of C≡C that is an anion or is bound to a metal. */
function isAcetylide(node: Node): boolean {
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
