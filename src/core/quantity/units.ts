/** What can be typed behind a number: the unit's dimension and its factor to the internal unit. */
export type Dimension = 'mass' | 'volume' | 'amount' | 'strength';

export interface UnitEntry {
  readonly dimension: Dimension;
  /** Internal unit: g, mL, mol; a strength keeps its own basis. */
  readonly base: string;
  readonly factor: number;
}

const entry = (dimension: Dimension, base: string, factor: number): UnitEntry => ({ dimension, base, factor });

/** By the symbol as it is shown. Case matters: mM is not MM. */
export const UNITS: Readonly<Record<string, UnitEntry>> = {
  µg: entry('mass', 'g', 1e-6),
  mg: entry('mass', 'g', 1e-3),
  g: entry('mass', 'g', 1),
  kg: entry('mass', 'g', 1e3),
  t: entry('mass', 'g', 1e6),
  µL: entry('volume', 'mL', 1e-3),
  mL: entry('volume', 'mL', 1),
  L: entry('volume', 'mL', 1e3),
  µmol: entry('amount', 'mol', 1e-6),
  mmol: entry('amount', 'mol', 1e-3),
  mol: entry('amount', 'mol', 1),
  kmol: entry('amount', 'mol', 1e3),
  '% w/w': entry('strength', '% w/w', 1),
  '% w/v': entry('strength', '% w/v', 1),
  '% v/v': entry('strength', '% v/v', 1),
  'mol/L': entry('strength', 'mol/L', 1),
  'mol/kg': entry('strength', 'mol/kg', 1),
  'g/L': entry('strength', 'g/L', 1),
  'eq/L': entry('strength', 'eq/L', 1),
};

/** Other ways people type the same units. */
export const UNIT_SPELLINGS: Readonly<Record<string, string>> = {
  ug: 'µg',
  μg: 'µg',
  ul: 'µL',
  uL: 'µL',
  μL: 'µL',
  µl: 'µL',
  ml: 'mL',
  l: 'L',
  umol: 'µmol',
  μmol: 'µmol',
  gram: 'g',
  grams: 'g',
  '%w/w': '% w/w',
  '%w/v': '% w/v',
  '%v/v': '% v/v',
  'wt %': '% w/w',
  'wt%': '% w/w',
  'vol %': '% v/v',
  'vol%': '% v/v',
  M: 'mol/L',
  'mol/l': 'mol/L',
  'mol L-1': 'mol/L',
  m: 'mol/kg',
  'g/l': 'g/L',
};

/** Units that ask back instead of being guessed. */
export const UNCLEAR_UNITS: Readonly<Record<string, string>> = {
  '%': 'a percentage needs its basis: % w/w, % w/v or % v/v',
  N: 'normality needs the number of equivalents per mole: write eq/L and give it, or give mol/L',
};
