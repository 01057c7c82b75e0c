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
  ng: entry('mass', 'g', 1e-9),
  µg: entry('mass', 'g', 1e-6),
  mg: entry('mass', 'g', 1e-3),
  g: entry('mass', 'g', 1),
  kg: entry('mass', 'g', 1e3),
  t: entry('mass', 'g', 1e6),
  nL: entry('volume', 'mL', 1e-6),
  µL: entry('volume', 'mL', 1e-3),
  mL: entry('volume', 'mL', 1),
  L: entry('volume', 'mL', 1e3),
  'm³': entry('volume', 'mL', 1e6),
  nmol: entry('amount', 'mol', 1e-9),
  µmol: entry('amount', 'mol', 1e-6),
  mmol: entry('amount', 'mol', 1e-3),
  mol: entry('amount', 'mol', 1),
  kmol: entry('amount', 'mol', 1e3),
  '% w/w': entry('strength', '% w/w', 1),
  '% w/v': entry('strength', '% w/v', 1),
  '% v/v': entry('strength', '% v/v', 1),
  'mol/L': entry('strength', 'mol/L', 1),
  'mmol/L': entry('strength', 'mol/L', 1e-3),
  'µmol/L': entry('strength', 'mol/L', 1e-6),
  'mol/kg': entry('strength', 'mol/kg', 1),
  'g/L': entry('strength', 'g/L', 1),
  'eq/L': entry('strength', 'eq/L', 1),
};

/** Other ways people type the same units. */
const UNIT_SPELLINGS: Readonly<Record<string, string>> = {
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
  gm: 'g',
  gms: 'g',
  microgram: 'µg',
  micrograms: 'µg',
  milligram: 'mg',
  milligrams: 'mg',
  kilogram: 'kg',
  kilograms: 'kg',
  tonne: 't',
  tonnes: 't',
  microlitre: 'µL',
  microlitres: 'µL',
  microliter: 'µL',
  microliters: 'µL',
  millilitre: 'mL',
  millilitres: 'mL',
  milliliter: 'mL',
  milliliters: 'mL',
  cc: 'mL',
  cm3: 'mL',
  'cm³': 'mL',
  litre: 'L',
  litres: 'L',
  liter: 'L',
  liters: 'L',
  m3: 'm³',
  mole: 'mol',
  moles: 'mol',
  millimole: 'mmol',
  millimoles: 'mmol',
  micromole: 'µmol',
  micromoles: 'µmol',
  '%w/w': '% w/w',
  '%w/v': '% w/v',
  '%v/v': '% v/v',
  '% w/w': '% w/w',
  '% w/v': '% w/v',
  '% v/v': '% v/v',
  '% m/m': '% w/w',
  '%m/m': '% w/w',
  '% m/v': '% w/v',
  '%m/v': '% w/v',
  'w/w %': '% w/w',
  'w/v %': '% w/v',
  'v/v %': '% v/v',
  'wt %': '% w/w',
  'wt. %': '% w/w',
  'wt.%': '% w/w',
  'wt%': '% w/w',
  'wt-%': '% w/w',
  '% wt': '% w/w',
  '%wt': '% w/w',
  '% wt/wt': '% w/w',
  '% by weight': '% w/w',
  '% by mass': '% w/w',
  '% by volume': '% v/v',
  '% vol': '% v/v',
  'vol %': '% v/v',
  'vol. %': '% v/v',
  'vol.%': '% v/v',
  'vol%': '% v/v',
  '% vol.': '% v/v',
  'vol.-%': '% v/v',
  'vol-%': '% v/v',
  '% vol/vol': '% v/v',
  'percent by volume': '% v/v',
  'volume percent': '% v/v',
  '% wt/vol': '% w/v',
  'gew.-%': '% w/w',
  'gew-%': '% w/w',
  'ma.-%': '% w/w',
  'mass-%': '% w/w',
  'mass %': '% w/w',
  'percent by weight': '% w/w',
  'percent by mass': '% w/w',
  'weight percent': '% w/w',
  'weight %': '% w/w',
  'mass percent': '% w/w',
  molar: 'mol/L',
  millimolar: 'mmol/L',
  'mol/litre': 'mol/L',
  'mol/liter': 'mol/L',
  'g/100 ml': '% w/v',
  'g/100ml': '% w/v',
  'g/dl': '% w/v',
  M: 'mol/L',
  mM: 'mmol/L',
  µM: 'µmol/L',
  μM: 'µmol/L',
  uM: 'µmol/L',
  'mol/l': 'mol/L',
  'mmol/l': 'mmol/L',
  'µmol/l': 'µmol/L',
  'mol/dm3': 'mol/L',
  'mol/dm³': 'mol/L',
  'mol dm-3': 'mol/L',
  'mol l-1': 'mol/L',
  'mol·l-1': 'mol/L',
  'mol l⁻¹': 'mol/L',
  'mol·l⁻¹': 'mol/L',
  'mol·dm-3': 'mol/L',
  'mol·dm⁻³': 'mol/L',
  'mol dm⁻³': 'mol/L',
  m: 'mol/kg',
  'g/l': 'g/L',
  'mg/ml': 'g/L',
};

/** Units that ask back instead of being guessed. */
export const UNCLEAR_UNITS: Readonly<Record<string, string>> = {
  '%': 'a percentage needs its basis: % w/w, % w/v or % v/v',
  N: 'normality needs the number of equivalents per mole: write eq/L and give it, or give mol/L',
};

const BRACKETED = /%\s*\(\s*((?:[wvm]|wt|vol)\/(?:[wvm]|wt|vol))\s*\)|\(\s*([wvm]\/[wvm])\s*\)\s*%/gi;

/** The symbol of a unit as people write it, `% (w/w)` and `mM` too; what is none is given back as it was written. */
export function unitSymbol(written: string): string {
  const text = written
    .trim()
    .replaceAll(/\s+/g, ' ')
    .replaceAll(BRACKETED, (_, behind?: string, before?: string) => `% ${behind ?? before ?? ''}`);
  const known = (spelling: string): string | undefined =>
    Object.hasOwn(UNIT_SPELLINGS, spelling) ? UNIT_SPELLINGS[spelling] : undefined;
  return Object.hasOwn(UNITS, text) ? text : (known(text) ?? known(text.toLowerCase()) ?? text);
}
