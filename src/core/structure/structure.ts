import { Molecule } from 'openchemlib';
import { structureWords } from '../words/structure-words.ts';
import { hillFormula } from './hill.ts';
import { readMolfileText } from './molfile-text.ts';
import { readSmilesText, type SmilesAtom } from './smiles-text.ts';
import { isPossibleValence } from './valences.ts';

/** A structure as atoms, by element symbol or labelled isotope ("C-13", "H-2"), with its charge. */
export interface Structure {
  readonly ok: true;
  readonly atoms: ReadonlyMap<string, number>;
  readonly charge: number;
  /** In Hill order with labels and charge, as our formulas write them: C14H10O2, CD3Cl, [13C]H4, H4N⁺. */
  readonly formula: string;
}

export interface StructureProblem {
  readonly ok: false;
  /** Index of the character that is wrong; 0 where it is the structure as a whole. */
  readonly at: number;
  readonly words: string;
}

const LONGEST_SMILES = 2000;
const LONGEST_MOLFILE = 100_000;
/** Reading them takes some milliseconds; a laboratory material is far smaller. */
const MOST_ATOMS = 500;
const HALOGENS = new Set(['F', 'Cl', 'Br', 'I']);

/**
 * Reads a structure from a SMILES or a molfile: what atoms it has, its charge, its formula. Masses are no part of it.
 * The reading library's leniency is made good here: what it would pass over (an empty molecule, an impossible valence,
 * a pattern for searching, a file that is cut off) is refused in words. This file is loaded when it is needed: it is large.
 * @returns the atoms, or the place and words of what is wrong. Never throws, for any text.
 */
export function readStructure(text: string): Structure | StructureProblem {
  const read = readMolecule(text, true);
  if (!read.ok) return read;
  const { molecule, named } = read;
  const atoms = new Map<string, number>();
  let charge = 0;
  for (const one of atomsOf(molecule, named)) {
    const problem = atomProblem(one);
    if (problem !== null) return { ok: false, at: one.at, words: problem };
    charge += one.charge;
    count(atoms, one.isotope > 0 ? `${one.element}-${one.isotope}` : one.element, 1);
    if (one.hydrogens > 0) count(atoms, 'H', one.hydrogens);
  }
  return { ok: true, atoms, charge, formula: hillFormula(atoms, charge) };
}

/** A structure as a SMILES on one line, whatever it was written as; the words of what is wrong where it cannot be. */
export function smilesOf(text: string): { readonly ok: true; readonly smiles: string } | StructureProblem {
  const structure = readStructure(text);
  if (!structure.ok) return structure;
  if (!isMolfile(text)) return { ok: true, smiles: text.trim() };
  const read = readMolecule(text, false);
  if (!read.ok) return read;
  const smiles = read.molecule.toIsomericSmiles();
  const again = readStructure(smiles);
  return again.ok && again.formula === structure.formula
    ? { ok: true, smiles }
    : { ok: false, at: 0, words: structureWords.notAsSmiles };
}

interface ReadMolecule {
  readonly ok: true;
  readonly molecule: Molecule;
  /** The atoms a SMILES names, in order; null for a molfile. */
  readonly named: readonly SmilesAtom[] | null;
}

/** The molecule of a text, or why there is none. `plain` leaves out the drawing's coordinates, which take most time. */
export function readMolecule(text: string, plain: boolean): ReadMolecule | StructureProblem {
  if (text.trim() === '') return refused(structureWords.expected);
  const longest = isMolfile(text) ? LONGEST_MOLFILE : LONGEST_SMILES;
  if (text.length > longest) return refused(structureWords.tooLong(longest), longest);
  return isMolfile(text) ? readMolfile(text) : readSmiles(text, plain);
}

function readSmiles(text: string, plain: boolean): ReadMolecule | StructureProblem {
  const smiles = text.trim();
  const shift = text.indexOf(smiles);
  const named = readSmilesText(smiles);
  if (!named.ok) return refused(named.words, named.at + shift);
  if (named.atoms.length > MOST_ATOMS) return refused(structureWords.tooManyAtoms(MOST_ATOMS, named.atoms.length));
  const atoms = named.atoms.map((atom) => ({ ...atom, at: atom.at + shift }));
  try {
    // The library reads [HH] as one atom.
    const molecule = Molecule.fromSmiles(smiles.replaceAll('[HH]', '[H][H]'), { noCoordinates: plain });
    molecule.ensureHelperArrays(Molecule.cHelperRings);
    if (molecule.isFragment()) return refused(structureWords.query);
    return aromaticProblem(molecule, atoms) ?? nitrogenProblem(atoms) ?? { ok: true, molecule, named: atoms };
  } catch {
    return refused(structureWords.unreadableSmiles, shift);
  }
}

function readMolfile(text: string): ReadMolecule | StructureProblem {
  const looked = readMolfileText(text);
  if (!looked.ok) return refused(looked.words);
  if (looked.atoms > MOST_ATOMS) return refused(structureWords.tooManyAtoms(MOST_ATOMS, looked.atoms));
  if (looked.atoms === 0) return refused(structureWords.noAtoms);
  try {
    const molecule = Molecule.fromMolfile(looked.text);
    molecule.ensureHelperArrays(Molecule.cHelperRings);
    if (molecule.isFragment()) return refused(structureWords.query);
    const read = molecule.getAllAtoms();
    return read === looked.atoms ? { ok: true, molecule, named: null } : refused(structureWords.atomsMissing(looked.atoms, read));
  } catch {
    return refused(structureWords.unreadableMolfile);
  }
}

function isMolfile(text: string): boolean {
  return /[\r\n]/.test(text.trim()) || /\bV[23]000\b/.test(text);
}

function refused(words: string, at = 0): StructureProblem {
  return { ok: false, at, words };
}

interface Atom {
  readonly at: number;
  readonly element: string;
  readonly isotope: number;
  readonly charge: number;
  readonly hydrogens: number;
  readonly bonds: number;
  readonly neighbours: readonly string[];
  readonly stated: boolean;
  readonly filled: boolean;
  readonly number: number;
}

/** The molecule's atoms; hydrogens as a SMILES' brackets write them, where it has any, else as the bonds ask for. */
function atomsOf(molecule: Molecule, named: readonly SmilesAtom[] | null): readonly Atom[] {
  // The library moves plain hydrogens behind the other atoms and leaves the order of these.
  const heavy = named?.filter((atom) => atom.element !== 'H').values();
  return Array.from({ length: molecule.getAllAtoms() }, (_, atom): Atom => {
    const element = molecule.getAtomicNo(atom) === 1 ? 'H' : molecule.getAtomLabel(atom);
    const written = element === 'H' ? undefined : heavy?.next().value;
    const hydrogens = written?.hydrogens ?? hydrogensOf(molecule, atom);
    const radical = molecule.getAtomRadical(atom) !== 0;
    return {
      at: written?.at ?? 0,
      element,
      isotope: molecule.getAtomMass(atom),
      charge: molecule.getAtomCharge(atom),
      hydrogens,
      bonds: molecule.getOccupiedValence(atom) + hydrogens,
      neighbours: [...connectedTo(molecule, atom).map((other) => molecule.getAtomLabel(other)), ...(hydrogens > 0 ? ['H'] : [])],
      stated: written ? written.hydrogens !== null : radical,
      filled: written?.hydrogens === null,
      number: molecule.getAtomicNo(atom),
    };
  });
}

/** Hydrogens that are not drawn: the rest of a valence that is written out, else what the bonds leave open. */
function hydrogensOf(molecule: Molecule, atom: number): number {
  const stated = molecule.getAtomAbnormalValence(atom);
  const bonds = molecule.getOccupiedValence(atom);
  if (stated >= 0) return Math.max(0, stated - bonds);
  // The library would fill a halogen between two metals up to three bonds.
  return bonds > 0 && HALOGENS.has(molecule.getAtomLabel(atom)) ? 0 : molecule.getImplicitHydrogens(atom);
}

function connectedTo(molecule: Molecule, atom: number): readonly number[] {
  return Array.from({ length: molecule.getAllConnAtoms(atom) }, (_, index) => molecule.getConnAtom(atom, index));
}

const HEAVIEST = 2.7;

function atomProblem({ element, isotope, charge, number, ...bonded }: Atom): string | null {
  if (isotope > 0 && (isotope < number || isotope > HEAVIEST * number + 1)) return structureWords.isotope(isotope, element);
  return isPossibleValence(element, charge, bonded) ? null : structureWords.valence(element, bonded.bonds, charge);
}

/** Small letters outside a ring, and rings in which single and double bonds cannot alternate: both would pass as radicals. */
function aromaticProblem(molecule: Molecule, named: readonly SmilesAtom[]): StructureProblem | null {
  const heavy = named.filter((atom) => atom.element !== 'H');
  for (const [index, atom] of heavy.entries()) {
    if (!atom.aromatic) continue;
    const beside = connectedTo(molecule, index).filter((other) => heavy[other]?.aromatic);
    if (!molecule.isRingAtom(index) || beside.length < 2) return refused(structureWords.notAromatic, atom.at);
    if (molecule.getAtomRadical(index) === 0) continue;
    // What is missing is mostly the hydrogen of a nitrogen.
    const bare = heavy.find((one) => one.aromatic && one.element === 'N' && one.hydrogens === null);
    return refused(structureWords.noAlternatingBonds, (bare ?? atom).at);
  }
  return null;
}

/** A nitrogen with four bonds and no charge: the library would split a double bond and charge it. */
function nitrogenProblem(named: readonly SmilesAtom[]): StructureProblem | null {
  const wrong = named.find((atom) => atom.element === 'N' && !atom.aromatic && atom.hydrogens === null && atom.bonds === 4);
  return wrong ? refused(structureWords.valence('N', 4, 0), wrong.at) : null;
}

function count(atoms: Map<string, number>, key: string, more: number): void {
  atoms.set(key, (atoms.get(key) ?? 0) + more);
}
