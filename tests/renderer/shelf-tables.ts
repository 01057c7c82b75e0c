import { indexReference } from '../../src/core/reference.ts';
import { type MaterialRow, type ReferenceRows } from '../../src/core/reference-rows.ts';

const material = (name: string, cas: string, formula: string, more: Partial<MaterialRow> = {}): MaterialRow => ({
  name,
  cas,
  formula,
  smiles: null,
  state: 'liquid',
  density: null,
  densityCelsius: null,
  densitySource: null,
  solidDensity: null,
  boilingPoint: null,
  meltingPoint: null,
  expansion: null,
  suppliedAs: null,
  source: 'fixture',
  ...more,
});

const element = (number: number, symbol: string, weight: number) => ({
  number,
  symbol,
  name: symbol,
  weight,
  low: weight,
  high: weight,
  uncertainty: 0.001,
});

const rows: ReferenceRows = {
  elements: [element(1, 'H', 1.008), element(6, 'C', 12.011), element(7, 'N', 14.007), element(8, 'O', 15.999)],
  isotopes: [],
  compatibility: [],
  compatibilityGroups: [],
  peroxideFormers: [],
  peroxideClasses: [],
  acidity: [],
  solubility: [],
  hydrolysis: [],
  ionisationHeats: [],
  hydrolysisHeats: [],
  materials: [
    material('acetic acid', '64-19-7', 'C2H4O2', { density: 1.0495, densityCelsius: 20, densitySource: 'a handbook' }),
    material('benzaldehyde', '100-52-7', 'C7H6O', { density: 1.0441, densityCelsius: 20, densitySource: 'a handbook' }),
    material('benzil', '134-81-6', 'C14H10O2', { state: 'solid' }),
    material('ethanol', '64-17-5', 'C2H6O', { density: 0.7893, densityCelsius: 20, densitySource: 'a handbook' }),
    material('nitric acid', '7697-37-2', 'HNO3', { density: 1.5129, densityCelsius: 20, suppliedAs: 'solution' }),
    material('nitrobenzene', '98-95-3', 'C6H5NO2'),
  ],
  synonyms: [{ cas: '64-17-5', synonym: 'spirit of wine' }],
  densities: [],
  sameInSolution: [],
  hazards: [],
  explosives: [],
  hazardLimits: [],
  statements: [],
  usualStrengths: [],
  aids: [],
  reactivity: [],
  heats: [],
  laliberte: [],
  water: { cas: '7732-18-5', source: 'fixture', numerator: [1000], denominator: 0, heatCapacity: [] },
  measureTolerances: [],
  specificHeats: [],
  typicalHeats: [],
  azeotropes: [],
  labelElements: [],
  labelSizes: [],
  balanceTexts: { forms: [], stable: [], unstable: [], kinds: { net: [], tare: [], gross: [] }, overload: [] },
  ethanolWater: { cas: '64-17-5', source: 'fixture', a: [1000], b: [], c: [] },
};

/** A few materials of the built-in tables, enough for a shelf. */
export const TABLES = indexReference(rows);
