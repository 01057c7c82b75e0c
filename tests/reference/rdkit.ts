import initRDKit from '@rdkit/rdkit';
import { reference } from './tables.ts';

interface Molecule {
  get_json(): string;
  get_descriptors(): string;
  get_molblock(): string;
  get_v3Kmolblock(): string;
  delete(): void;
}

interface RDKit {
  get_mol(text: string): Molecule | null;
  disable_logging?(): void;
}

/** A structure as an unrelated code base reads it: RDKit, with a strict view of valences. */
export interface Outside {
  /** By element symbol or labelled isotope, as our own structures. */
  readonly atoms: ReadonlyMap<string, number>;
  readonly charge: number;
  /** g/mol, with weights older than ours. */
  readonly mass: number;
  readonly molfile: string;
  readonly molfileV3000: string;
}

const symbols = new Map(reference.rows.elements.map((row) => [row.number, row.symbol]));

interface JsonAtom {
  readonly z?: number;
  readonly isotope?: number;
  readonly impHs?: number;
  readonly chg?: number;
}

/** Loads RDKit; the function it gives reads a SMILES or a molfile, null where RDKit refuses it. */
export async function outsideReader(): Promise<(text: string) => Outside | null> {
  const rdkit = await (initRDKit as unknown as () => Promise<RDKit>)();
  rdkit.disable_logging?.();
  return (text) => {
    const molecule = rdkit.get_mol(text);
    if (!molecule) return null;
    try {
      return {
        ...countsOf(molecule.get_json()),
        mass: (JSON.parse(molecule.get_descriptors()) as { amw: number }).amw,
        molfile: molecule.get_molblock(),
        molfileV3000: molecule.get_v3Kmolblock(),
      };
    } finally {
      molecule.delete();
    }
  };
}

function countsOf(json: string): Pick<Outside, 'atoms' | 'charge'> {
  const read = JSON.parse(json) as {
    defaults: { atom: Required<JsonAtom> };
    molecules: readonly { readonly atoms: readonly JsonAtom[] }[];
  };
  const atoms = new Map<string, number>();
  const add = (key: string, more: number): unknown => more > 0 && atoms.set(key, (atoms.get(key) ?? 0) + more);
  let charge = 0;
  for (const written of read.molecules.flatMap((one) => one.atoms)) {
    const atom = { ...read.defaults.atom, ...written };
    const symbol = symbols.get(atom.z) ?? '?';
    add(atom.isotope > 0 ? `${symbol}-${atom.isotope}` : symbol, 1);
    add('H', atom.impHs);
    charge += atom.chg;
  }
  return { atoms, charge };
}
