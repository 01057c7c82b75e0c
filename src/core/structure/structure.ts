import { Molecule } from 'openchemlib';
import { isPossibleValence } from './valences.ts';

/** A structure as atoms, by element symbol or labelled isotope ("C-13", "H-2"), with its charge. */
export interface Structure {
  readonly ok: true;
  readonly atoms: ReadonlyMap<string, number>;
  readonly charge: number;
  /** In Hill order, with labels as our formulas write them: C14H10O2, CD3Cl, [13C]H4. */
  readonly formula: string;
}

export interface StructureProblem {
  readonly ok: false;
  readonly words: string;
}

const LONGEST_SMILES = 2000;
const LONGEST_MOLFILE = 100_000;
const MOST_ATOMS = 500;
/** An element by itself, [S] or [Al]: the reader would hang hydrogens on it. */
const BARE_ATOM = /^\[[A-Z][a-z]?\]$/;

/**
 * Reads a structure from a SMILES or a molfile: what atoms it has. The reader's own leniency is made good here: an
 * empty molecule and an impossible valence are refused in words. This file is loaded when it is needed: it is large.
 */
export function readStructure(text: string): Structure | StructureProblem {
  const molecule = moleculeOf(text, true);
  if (!(molecule instanceof Molecule)) return molecule;
  const atoms = new Map<string, number>();
  let charge = 0;
  const bare = BARE_ATOM.test(text.trim());
  for (let atom = 0; atom < molecule.getAllAtoms(); atom += 1) {
    const element = molecule.getAtomLabel(atom);
    const hydrogens = bare ? 0 : molecule.getImplicitHydrogens(atom);
    const valence = molecule.getOccupiedValence(atom) + hydrogens;
    const own = molecule.getAtomCharge(atom);
    const stated = molecule.getAtomAbnormalValence(atom) >= 0 || molecule.getAtomRadical(atom) !== 0;
    if (!bare && !isPossibleValence(element, own, { valence, hydrogens, stated })) {
      return { ok: false, words: `${element} cannot have ${valence} bonds${own === 0 ? '' : ` with a charge of ${own}`}` };
    }
    charge += own;
    count(atoms, molecule.getAtomMass(atom) > 0 ? `${element}-${molecule.getAtomMass(atom)}` : element, 1);
    if (hydrogens > 0) count(atoms, 'H', hydrogens);
  }
  return { ok: true, atoms, charge, formula: hillFormula(atoms) };
}

/** The molecule of a text, or why there is none. `plain` leaves out the drawing's coordinates, which take most time. */
export function moleculeOf(text: string, plain: boolean): Molecule | StructureProblem {
  const written = text.trim();
  const isMolfile = /[\r\n]/.test(written);
  if (written === '') return { ok: false, words: 'a structure is expected here: a SMILES such as CCO, or a molfile' };
  if (written.length > (isMolfile ? LONGEST_MOLFILE : LONGEST_SMILES)) return { ok: false, words: 'this structure is too long' };
  try {
    const molecule = isMolfile ? Molecule.fromMolfile(text) : Molecule.fromSmiles(written, { noCoordinates: plain });
    if (molecule.getAllAtoms() === 0)
      return { ok: false, words: isMolfile ? 'this molfile holds no atoms' : 'this SMILES holds no atoms' };
    if (molecule.getAllAtoms() > MOST_ATOMS) return { ok: false, words: `this structure has more than ${MOST_ATOMS} atoms` };
    molecule.ensureHelperArrays(Molecule.cHelperNeighbours);
    return molecule;
  } catch (error) {
    return { ok: false, words: problemWords(error, isMolfile) };
  }
}

/** The reader's complaint without its own name, and with the place it gives. */
function problemWords(error: unknown, isMolfile: boolean): string {
  const said = error instanceof Error ? error.message : '';
  const place = /[Pp]osition:\s*(\d+)/.exec(said);
  const what = isMolfile ? 'this molfile' : 'this SMILES';
  const why = /SmilesParser:\s*([^.;]+)/.exec(said)?.[1];
  return `${what} cannot be read${place ? ` at character ${Number(place[1]) + 1}` : ''}${why ? `: ${why.trim()}` : ''}`;
}

function count(atoms: Map<string, number>, key: string, more: number): void {
  atoms.set(key, (atoms.get(key) ?? 0) + more);
}

/** Hill order: carbon, hydrogen, then by letter; labelled atoms beside their element. */
function hillFormula(atoms: ReadonlyMap<string, number>): string {
  const hasCarbon = [...atoms.keys()].some((key) => elementOf(key) === 'C');
  const rank = (key: string): string => {
    const element = elementOf(key);
    const first = hasCarbon && element === 'C' ? '0' : hasCarbon && element === 'H' ? '1' : '2';
    return `${first}${element}${key}`;
  };
  return [...atoms]
    .sort(([one], [other]) => (rank(one) < rank(other) ? -1 : 1))
    .map(([key, number]) => `${written(key)}${number === 1 ? '' : number}`)
    .join('');
}

function elementOf(key: string): string {
  return key.split('-')[0] ?? key;
}

function written(key: string): string {
  const [element, mass] = key.split('-');
  if (mass === undefined) return key;
  if (element === 'H' && (mass === '2' || mass === '3')) return mass === '2' ? 'D' : 'T';
  return `[${mass}${element}]`;
}
