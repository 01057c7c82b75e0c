import { is, near, type Node } from '../structure/atom-graph.ts';

// Links between nitrogen, oxygen and halogens that store energy, as tests on one atom.

const CHAIN = 3;
const HEAVY_HALOGENS = new Set(['Cl', 'Br', 'I']);
const MANY_OXYGENS = 4;

function endOxygens(node: Node): readonly Node[] {
  return near(node).filter((one) => is('O')(one) && one.to.length === 1);
}

/** A nitramine: a nitro group on nitrogen, N–NO2. */
export function isNitramine(node: Node): boolean {
  return is('N')(node) && endOxygens(node).length === 2 && near(node).filter(is('N')).length === 1 && near(node).length === CHAIN;
}

/** O–N=O or N–N=O, an ester of nitrous acid or an N-nitroso compound; a nitrite ion has no carbon on its oxygen. */
export function isNitroso(node: Node): boolean {
  if (!is('N')(node) || near(node).length !== 2) return false;
  const end = node.to.find((join) => is('O')(join.node) && join.order === 2 && join.node.to.length === 1)?.node;
  const rest = node.to.find((join) => join.node !== end && join.order === 1)?.node;
  return end !== undefined && rest !== undefined && (is('N')(rest) || (is('O')(rest) && near(rest).some(is('C'))));
}

/** A nitrogen of –N=N– that is no ring of an aromatic system and does not lie between two aromatic carbons: no azo dye. */
export function isAzo(node: Node): boolean {
  const other = node.to.find((join) => join.order === 2 && is('N')(join.node))?.node;
  if (!is('N')(node) || !other || near(node).length !== 2 || near(other).length !== 2) return false;
  // Of an azide or a diazo group one of the two has another double bond.
  if ([node, other].some((one) => one.to.filter((join) => join.order >= 2).length > 1)) return false;
  const ends = [...near(node), ...near(other)].filter((one) => one !== node && one !== other);
  return ends.every((one) => is('C')(one) || is('N')(one)) && !ends.every(isArylCarbon) && !sharesRing(node, other);
}

/** A carbon written as aromatic, or one with a double bond inside a ring. */
function isArylCarbon(node: Node): boolean {
  return (
    is('C')(node) &&
    (node.atom.aromatic || node.to.some((join) => join.order === 2 && is('C')(join.node) && sharesRing(node, join.node)))
  );
}

const RING = 7;

/** Whether two neighbours lie in one small ring. */
function sharesRing(one: Node, other: Node): boolean {
  const seen = new Set<Node>([one]);
  let edge = near(one).filter((next) => next !== other);
  for (let size = 2; size < RING && edge.length > 0; size += 1) {
    if (edge.some((next) => near(next).includes(other))) return true;
    for (const next of edge) seen.add(next);
    edge = edge.flatMap(near).filter((next) => !seen.has(next) && next !== other);
  }
  return false;
}

/** A 1,2,3-triazole whose nitrogens carry H, OH, a metal or a halogen, not carbon: benzotriazole, its 1-hydroxy compound. */
export function isBareTriazole(node: Node): boolean {
  if (!is('N')(node)) return false;
  const [one, other] = near(node).filter(is('N'));
  if (!one || !other || !sharesRing(node, one) || !sharesRing(node, other)) return false;
  return [node, one, other].every((each) => near(each).filter((next) => is('C')(next) && !sharesRing(each, next)).length === 0);
}

/** C–O–Cl, C–O–Br, C–O–I: an ester of a hypohalous acid, or an iodine that holds carboxylates. */
export function isHypohalite(node: Node): boolean {
  const halogen = near(node).find((one) => HEAVY_HALOGENS.has(one.atom.element));
  return (
    is('O')(node) && near(node).some(is('C')) && halogen !== undefined && near(halogen).filter(is('O')).length < MANY_OXYGENS
  );
}

/** A halogen with two or three oxygens: chlorite, chlorate, bromate, iodate, iodyl; perchlorate is looked for by itself. */
export function isOxyhalide(node: Node): boolean {
  const ends = endOxygens(node).length;
  return HEAVY_HALOGENS.has(node.atom.element) && ends >= 2 && near(node).filter(is('O')).length < MANY_OXYGENS;
}

/** C≡N–O: a fulminate or a nitrile oxide. */
export function isFulminic(node: Node): boolean {
  return is('N')(node) && node.to.some((join) => join.order === 3 && is('C')(join.node)) && near(node).some(is('O'));
}

/** Two halogens or more on carbons that are not aromatic, as a chlorinated solvent has them. */
export function isPolyhalide(nodes: readonly Node[]): boolean {
  const held = nodes.filter(
    (node) => HEAVY_HALOGENS.has(node.atom.element) && near(node).some((one) => is('C')(one) && !isArylCarbon(one)),
  );
  return held.length >= 2;
}
