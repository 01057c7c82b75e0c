/** What is said of a structure that cannot be taken. */
export const structureWords = {
  expected: 'a structure is expected here: a SMILES such as CCO, or a molfile',
  tooLong: (most: number) => `a structure needs to be at most ${most.toLocaleString('en')} characters long`,
  tooManyAtoms: (most: number, got: number) => `a structure needs to have at most ${most} atoms (got ${got})`,
  tooLargeToDraw: (most: number) => `It is not drawn: it has more than ${most} atoms.`,
  drawing: 'drawing…',
  notDrawn: 'It could not be drawn.',

  // SMILES.
  unexpected: (sign: string) => `"${sign}" cannot stand here`,
  space: 'a SMILES has no spaces: give the structure alone, without a name',
  notPlain: (sign: string) => `"${sign}" is not a sign of a SMILES: only plain letters, digits and punctuation are`,
  anyAtom: '"*" stands for any atom: write which one it is',
  reaction: 'this is a reaction: give one structure',
  bareHydrogen: 'hydrogen is written in brackets: [H]',
  bracket: 'these brackets need to hold one atom, such as [Na+] or [13CH4]',
  bracketOpen: 'this bracket is never closed',
  branchFirst: 'a branch needs an atom before it',
  branchEmpty: 'this branch is empty',
  branchOpen: 'this branch is never closed',
  branchNotOpen: 'no branch is open that could be closed here',
  bondFirst: 'a bond needs an atom before it',
  bondOpen: 'this bond leads nowhere',
  ringFirst: 'a ring number needs an atom before it',
  ringOpen: (number: number) => `ring ${number} is opened here and never closed`,
  ringSelf: 'a ring cannot close on the atom it begins with',
  ringBond: (number: number) => `ring ${number} begins and ends with different bonds`,
  joinedTwice: 'these two atoms are joined already',
  dotAlone: 'a dot needs an atom on both sides',
  dotInside: 'a dot cannot stand inside a branch',
  notAromatic: 'a small letter stands for an aromatic atom, and this one is in no aromatic ring',
  noAlternatingBonds: 'no alternating bonds can be drawn here: a hydrogen is missing ([nH]) or an atom is wrong',
  unreadableSmiles: 'this SMILES cannot be read',

  // Molfile.
  noCounts: 'this is no molfile: the line that counts atoms and bonds (… V2000) is missing',
  cutOff: 'this molfile is cut off: “M  END” is missing',
  severalMolecules: 'this file holds several structures: give one',
  noElement: (symbol: string, number: number) => `atom ${number} is "${symbol}", which is no element`,
  atomsMissing: (counted: number, read: number) =>
    `the molfile counts ${counted} ${counted === 1 ? 'atom' : 'atoms'}, but ${read} could be read`,
  query: 'this is a search pattern: give a structure with real atoms and bonds',
  unreadableMolfile: 'this molfile cannot be read',
  notAsSmiles: 'this molfile cannot be kept as a SMILES: type the SMILES',

  // Atoms.
  noAtoms: 'this structure holds no atoms',
  valence: (element: string, bonds: number, charge: number) =>
    `${element}${charge === 0 ? '' : ` with a charge of ${charge > 0 ? `+${charge}` : `−${-charge}`}`} cannot have ${bonds} ${bonds === 1 ? 'bond' : 'bonds'}`,
  isotope: (mass: number, element: string) => `there is no ${element} with mass number ${mass}`,

  // Structure and formula.
  disagree: (structure: string, formula: string) => `the structure has ${structure}, the formula says ${formula}`,
  oneLine: 'a SMILES is expected here, on one line; a molfile belongs into the field of a new bottle',
  formulaOrStructure: (text: string, formula: string, structure: string) =>
    `is ${text} the formula ${formula}, or the structure of ${structure}? Write the formula that is meant`,
} as const;
