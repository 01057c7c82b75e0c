/**
 * Abbreviations people write where a formula is expected, and what to write instead. Several of them read as
 * elements (TBS as tritium, boron, sulfur), so they are looked for before elements are.
 */
export const ABBREVIATIONS: Readonly<Record<string, string>> = {
  TBDPS: 'C16H19Si',
  TBDMS: 'C6H15Si',
  DIBAL: 'C8H19Al',
  TIPS: 'C9H21Si',
  Fmoc: 'C15H11O2',
  DMSO: 'C2H6OS',
  TBAF: 'C16H36NF',
  DMAP: 'C7H10N2',
  EtOH: 'C2H6O',
  MeOH: 'CH4O',
  TBS: 'C6H15Si',
  TMS: 'C3H9Si',
  TES: 'C6H15Si',
  Boc: 'C5H9O2',
  Cbz: 'C8H7O2',
  THF: 'C4H8O',
  THP: 'C5H9O',
  DCM: 'CH2Cl2',
  DMF: 'C3H7NO',
  DBU: 'C9H16N2',
  TFA: 'C2HF3O2',
  Ph: 'C6H5',
  Me: 'CH3',
  Et: 'C2H5',
  Bu: 'C4H9',
  Bn: 'C7H7',
  Bz: 'C7H5O',
  Ts: 'C7H7SO2',
  Tf: 'CF3SO2',
  Ms: 'CH3SO2',
  Ac: 'C2H3O',
  Cy: 'C6H11',
};

const LONGEST_FIRST = Object.keys(ABBREVIATIONS).sort((a, b) => b.length - a.length);

/** The abbreviation that stands at this place of the text, if one does. */
export function abbreviationAt(text: string, at: number): { readonly short: string; readonly formula: string } | null {
  for (const short of LONGEST_FIRST) {
    const next = text[at + short.length] ?? '';
    if (text.startsWith(short, at) && !/[a-z]/.test(next)) return { short, formula: ABBREVIATIONS[short] ?? '' };
  }
  return null;
}
