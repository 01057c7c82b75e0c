import type { CompatibilityGroupRow, CompatibilityRow, PeroxideClassRow, PeroxideFormerRow } from './bench/caution-rows.ts';
import type { Mark } from './quantity/figure.ts';
import type { BalanceTexts } from './run/balance-text.ts';

/** The built-in tables as rows, read from resources/tables by main and handed to the core as a value. */
export interface ReferenceRows {
  readonly elements: readonly ElementRow[];
  readonly isotopes: readonly IsotopeRow[];
  readonly materials: readonly MaterialRow[];
  readonly synonyms: readonly { readonly cas: string; readonly synonym: string }[];
  readonly densities: readonly DensityTable[];
  readonly sameInSolution: readonly SameInSolutionRow[];
  readonly hazards: readonly HazardRow[];
  readonly explosives: readonly ExplosiveRow[];
  readonly hazardLimits: readonly HazardLimitRow[];
  readonly statements: readonly StatementRow[];
  readonly labelElements: readonly LabelElementRow[];
  readonly labelSizes: readonly LabelSize[];
  readonly usualStrengths: readonly UsualStrengthRow[];
  /** CAS numbers of what is added to take up colour or water, or to filter by: in grams, never in moles. */
  readonly aids: readonly string[];
  readonly reactivity: readonly { readonly cas: string; readonly group: string; readonly source: string }[];
  readonly compatibility: readonly CompatibilityRow[];
  readonly compatibilityGroups: readonly CompatibilityGroupRow[];
  readonly peroxideFormers: readonly PeroxideFormerRow[];
  readonly peroxideClasses: readonly PeroxideClassRow[];
  readonly acidity: readonly AcidityRow[];
  readonly hydrolysis: readonly HydrolysisRow[];
  readonly ionisationHeats: readonly IonisationHeatRow[];
  readonly hydrolysisHeats: readonly HydrolysisHeatRow[];
  readonly heats: readonly HeatRow[];
  readonly laliberte: readonly LaliberteRow[];
  readonly water: WaterRow;
  readonly ethanolWater: EthanolWaterRow;
  readonly measureTolerances: readonly MeasureToleranceRow[];
  readonly specificHeats: readonly SpecificHeatRow[];
  readonly typicalHeats: readonly TypicalHeatRow[];
  readonly azeotropes: readonly AzeotropeRow[];
  readonly balanceTexts: BalanceTexts;
  readonly solubility: readonly SolubilityRow[];
}

/** Solubility of one solute in one solvent. */
export interface SolubilityRow {
  readonly solute: string;
  /** Of the anhydrous substance, for what is found by its formula; null where it is found by its CAS number. */
  readonly formula: string | null;
  readonly cas: string;
  readonly solvent: string;
  readonly per: '100 mL solvent' | '100 g solvent';
  readonly points: readonly (readonly [celsius: number, grams: number])[];
  /** The source marks a change of the solid in this range, °C. */
  readonly changeNear: readonly [from: number, to: number] | null;
  readonly source: string;
  readonly mark: Mark | null;
}

/** What a measure is; a volumetric flask contains its volume and does not deliver it. */
export const MEASURE_KINDS = [
  'cylinder',
  'graduated pipette',
  'transfer pipette',
  'burette',
  'piston pipette',
  'syringe',
  'volumetric flask',
] as const;
export type MeasureKind = (typeof MEASURE_KINDS)[number];

/** Largest error a standard allows: fixed + perMillilitre × volume delivered, from a part of the nominal volume on. */
export interface MeasureToleranceRow {
  readonly kind: MeasureKind;
  readonly standard: string;
  /** "A", "B", or "" where the standard has no classes. */
  readonly grade: string;
  /** mL. */
  readonly nominal: number;
  /** Holds from this part of the nominal volume on. */
  readonly fromPart: number;
  /** mL. */
  readonly fixed: number;
  readonly perMillilitre: number;
  readonly source: string;
  readonly mark: Mark | null;
}

/** How many protons a substance can hold at most, and how firmly. */
export interface AcidityRow {
  readonly cas: string;
  readonly name: string;
  /** For materials without a CAS number; null where the formula does not tell. */
  readonly formula: string | null;
  /** From the form with all its protons on; none where it is neither acid nor base. 25 °C, dilute in water. */
  readonly pKa: readonly number[];
  /** How many of those protons it has as it is charged. */
  readonly protons: number;
  /** Dissolves in water at the strengths of a bench. */
  readonly dissolves: boolean;
  readonly source: string;
  readonly mark: Mark | null;
}

/** What a substance turns into, or frees, when it meets water, an acid or a base. */
export interface HydrolysisRow {
  readonly cas: string;
  readonly name: string;
  readonly formula: string | null;
  readonly meets: 'water' | 'acid' | 'base';
  readonly makesCas: string;
  readonly makes: string;
  /** mol per mol. */
  readonly molPerMol: number;
  /** Leaves as a gas, or may. */
  readonly gas: boolean;
  readonly source: string;
  readonly mark: Mark | null;
}

/** Heat of a material with water, all that it turns into staying in the water but what the equation calls a gas. */
export interface HydrolysisHeatRow {
  readonly cas: string;
  /** Given off, kJ per mol of the material. */
  readonly heat: number;
  /** What it was computed for, with phases. */
  readonly equation: string;
  readonly source: string;
}

/** Heat taken up when the proton of one step is given up in dilute water at 25 °C, kJ/mol. */
export interface IonisationHeatRow {
  readonly cas: string;
  /** 1 for the first proton of the form with all of them on. */
  readonly step: number;
  readonly heat: number;
  readonly source: string;
  readonly mark: Mark | null;
}

export interface ElementRow {
  readonly number: number;
  readonly symbol: string;
  readonly name: string;
  /** g/mol; null where the element has no standard weight. */
  readonly weight: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly uncertainty: number | null;
}

export interface IsotopeRow {
  readonly symbol: string;
  readonly massNumber: number;
  readonly mass: number;
}

export interface MaterialRow {
  readonly name: string;
  readonly cas: string;
  readonly formula: string;
  readonly smiles: string | null;
  readonly state: 'solid' | 'liquid' | 'gas' | null;
  readonly density: number | null;
  readonly densityCelsius: number | null;
  readonly densitySource: string | null;
  readonly solidDensity: number | null;
  readonly boilingPoint: number | null;
  readonly meltingPoint: number | null;
  /** Cubic expansion of the liquid near 20–25 °C, per kelvin. */
  readonly expansion: number | null;
  /** "solution" where the trade sells it dissolved; it then never takes the pure substance's density. */
  readonly suppliedAs: string | null;
  readonly source: string;
}

/** Densities of one solute in one solvent at one temperature, as columns: strictly growing % w/w and g/mL. */
export interface DensityTable {
  readonly cas: string;
  readonly solvent: string;
  readonly celsius: number;
  readonly percents: readonly number[];
  readonly densities: readonly number[];
  /** For each point its place in `sources`. */
  readonly sourceOf: readonly number[];
  readonly sources: readonly DensitySource[];
}

export interface DensitySource {
  readonly source: string;
  readonly mark: Mark | null;
}

/** A solid that dissolves to the same solution as another: a hydrate, a mirror image, one of two forms of a sugar. */
export interface SameInSolutionRow {
  readonly cas: string;
  readonly countsAs: string;
  /** mol of water that a mole brings along. */
  readonly water: number;
}

export interface HazardRow {
  readonly cas: string;
  readonly statements: readonly string[];
  readonly pictograms: readonly string[];
  readonly signal: string | null;
  readonly fromPercent: number | null;
  readonly toPercent: number | null;
  readonly source: string;
}

/** An entry of what is classed as explosive, with the names it is known by; `cas` may be the name of a group. */
export interface ExplosiveRow extends HazardRow {
  readonly names: readonly string[];
}

export interface HazardLimitRow {
  readonly cas: string;
  readonly statement: string;
  readonly fromPercent: number | null;
  readonly fromInclusive: boolean;
  readonly toPercent: number | null;
  readonly toInclusive: boolean;
}

/** The text of a hazard or precautionary statement, and the lists it stands in. */
export interface StatementRow {
  readonly code: string;
  readonly text: string;
  readonly list: 'CLP and UN' | 'CLP' | 'UN';
}

/** What a hazard statement asks for on a label. */
export interface LabelElementRow {
  /** Without the letters behind the number: "H360". */
  readonly code: string;
  readonly pictograms: readonly string[];
  /** "either": its category decides between the two words. */
  readonly signal: 'Danger' | 'Warning' | 'either' | '';
}

/** Labels on a page; lengths in mm, from the upper left corner of the page. A single label is its own page. */
export interface LabelSize {
  readonly name: string;
  readonly page: 'A4' | 'Letter' | 'single';
  readonly width: number;
  readonly height: number;
  readonly columns: number;
  readonly rows: number;
  readonly left: number;
  readonly top: number;
  /** From one label's corner to the next one's. */
  readonly across: number;
  readonly down: number;
}

/** A strength in which the trade sells a material. */
export interface UsualStrengthRow {
  readonly cas: string;
  /** As bottles say it, e.g. "fuming". */
  readonly label: string;
  /** A strength with its basis, as it is typed. */
  readonly strength: string;
  readonly solvent: string;
  /** What suppliers state, e.g. "68–71 %". */
  readonly range: string;
  /** g/mL on usual labels, only where no density table reaches this strength. */
  readonly labelDensity: number | null;
  readonly note: string | null;
  readonly source: string;
  readonly mark: Mark | null;
}

/** Integral heat of solution in water at 25 °C of one mole of a solute, from the pure solute and liquid water. */
export interface HeatRow {
  readonly cas: string;
  /** The pure solute that stands at 0 kJ/mol. */
  readonly pure: 'solid' | 'liquid' | 'gas';
  /** mol of water per mol of solute; null at infinite dilution. */
  readonly water: number | null;
  /** kJ per mol of solute; negative where heat is given off. */
  readonly heat: number;
  readonly source: string;
  readonly mark: Mark | null;
}

/** Heat capacity of a pure liquid or solid at 25 °C. */
export interface SpecificHeatRow {
  readonly cas: string;
  readonly phase: 'solid' | 'liquid';
  /** J/(g·K). */
  readonly value: number;
  readonly source: string;
}

/** What reactions of a class usually give off, kJ per mol of what `per` says. */
export interface TypicalHeatRow {
  readonly name: string;
  readonly per: string;
  readonly likely: number;
  readonly least: number;
  readonly most: number;
  /** What the figure leaves out; empty where nothing stands out. */
  readonly caution: string;
  readonly source: string;
  readonly mark: Mark | null;
}

/** Two liquids that boil together lower than either alone, °C at 1 atm. */
export interface AzeotropeRow {
  readonly cas: readonly [string, string];
  readonly celsius: number;
  readonly source: string;
  readonly mark: Mark | null;
}

/** Coefficients of the density and heat capacity model for one solute in water, with the range they were fitted on. */
export interface LaliberteRow {
  readonly cas: string;
  readonly density: FittedRange & { readonly coefficients: readonly [number, number, number, number, number] };
  readonly heat: (FittedRange & { readonly coefficients: readonly [number, number, number, number, number, number] }) | null;
}

export interface FittedRange {
  readonly fromCelsius: number;
  readonly toCelsius: number;
  /** Largest mass fraction it is used to, g/g. */
  readonly toFraction: number;
}

/** Density of water as a quotient of polynomials in °C (kg/m³), and points of its heat capacity (°C, J/(kg·K)). */
export interface WaterRow {
  readonly cas: string;
  readonly source: string;
  readonly numerator: readonly number[];
  readonly denominator: number;
  readonly heatCapacity: readonly (readonly [celsius: number, heat: number])[];
}

/** Coefficients of the alcoholometric formula. */
export interface EthanolWaterRow {
  readonly cas: string;
  readonly source: string;
  readonly a: readonly number[];
  readonly b: readonly number[];
  readonly c: readonly (readonly number[])[];
}
