import type { CompatibilityGroupRow, CompatibilityRow, PeroxideClassRow, PeroxideFormerRow } from './bench/caution-rows.ts';
import { grouped } from './grouped.ts';

import type {
  AcidityRow,
  AzeotropeRow,
  DensityTable,
  ElementRow,
  HazardLimitRow,
  HazardRow,
  HeatRow,
  HydrolysisHeatRow,
  HydrolysisRow,
  IonisationHeatRow,
  IsotopeRow,
  LabelElementRow,
  LaliberteRow,
  MaterialRow,
  ReferenceRows,
  SameInSolutionRow,
  SpecificHeatRow,
  StatementRow,
  TypicalHeatRow,
  UsualStrengthRow,
} from './reference-rows.ts';

/** The tables with their look-ups built once. */
export interface Reference {
  readonly rows: ReferenceRows;
  readonly element: ReadonlyMap<string, ElementRow>;
  /** By symbol and mass number, e.g. "C-13". */
  readonly isotope: ReadonlyMap<string, IsotopeRow>;
  readonly material: ReadonlyMap<string, MaterialRow>;
  /** By CAS number of the solute and name of the solvent (densityKey), one for each temperature. */
  readonly densities: ReadonlyMap<string, readonly DensityTable[]>;
  readonly sameInSolution: ReadonlyMap<string, SameInSolutionRow>;
  readonly hazards: ReadonlyMap<string, readonly HazardRow[]>;
  readonly hazardLimits: ReadonlyMap<string, readonly HazardLimitRow[]>;
  readonly statement: ReadonlyMap<string, string>;
  readonly statementRow: ReadonlyMap<string, StatementRow>;
  readonly labelElement: ReadonlyMap<string, LabelElementRow>;
  readonly usualStrengths: ReadonlyMap<string, readonly UsualStrengthRow[]>;
  readonly aids: ReadonlySet<string>;
  readonly reactivity: ReadonlyMap<string, readonly string[]>;
  /** By the numbers of two groups (compatibilityKey). */
  readonly compatibility: ReadonlyMap<string, CompatibilityRow>;
  readonly compatibilityGroup: ReadonlyMap<number, CompatibilityGroupRow>;
  /** Numbers of the chart's groups, by a group of the reactivity table. */
  readonly chartGroups: ReadonlyMap<string, number>;
  readonly peroxideFormer: ReadonlyMap<string, PeroxideFormerRow>;
  readonly peroxideClass: ReadonlyMap<string, PeroxideClassRow>;
  /** By CAS number, in order of growing water. */
  readonly heats: ReadonlyMap<string, readonly HeatRow[]>;
  readonly laliberte: ReadonlyMap<string, LaliberteRow>;
  /** By CAS number, and by formula where the row has one (formulaKey). */
  readonly acidity: ReadonlyMap<string, AcidityRow>;
  readonly hydrolysis: ReadonlyMap<string, readonly HydrolysisRow[]>;
  /** By CAS number, in the table's order. */
  readonly ionisationHeats: ReadonlyMap<string, readonly IonisationHeatRow[]>;
  readonly hydrolysisHeat: ReadonlyMap<string, HydrolysisHeatRow>;
  readonly specificHeat: ReadonlyMap<string, SpecificHeatRow>;
  readonly typicalHeat: ReadonlyMap<string, TypicalHeatRow>;
  /** By both CAS numbers, the one that sorts first in front: azeotropeKey. */
  readonly azeotrope: ReadonlyMap<string, AzeotropeRow>;
}

/** Name of a formula in look-ups that also go by CAS number. */
export function formulaKey(formula: string): string {
  return `formula ${formula}`;
}

/** Name of a pair of liquids in Reference.azeotrope, whichever comes first. */
export function azeotropeKey(one: string, other: string): string {
  return [one, other].sort().join(' with ');
}

/** Name of a solute's density tables in Reference.densities. */
export function densityKey(cas: string, solvent: string): string {
  return `${cas} in ${solvent}`;
}

/** Name of a pair of the compatibility chart's groups, the lower number first. */
export function compatibilityKey(one: number, other: number): string {
  return one < other ? `${one} with ${other}` : `${other} with ${one}`;
}

/** Builds the look-ups of the tables. Rows keep their order; later rows never replace earlier ones. */
export function indexReference(rows: ReferenceRows): Reference {
  return {
    rows,
    element: byKey(rows.elements, (row) => row.symbol),
    isotope: byKey(rows.isotopes, (row) => `${row.symbol}-${row.massNumber}`),
    material: byKey(rows.materials, (row) => row.cas),
    densities: grouped(rows.densities, (table) => densityKey(table.cas, table.solvent)),
    sameInSolution: byKey(rows.sameInSolution, (row) => row.cas),
    hazards: grouped([...rows.hazards, ...rows.explosives], (row) => row.cas),
    hazardLimits: grouped(rows.hazardLimits, (row) => row.cas),
    statement: new Map(rows.statements.map((row) => [row.code, row.text])),
    statementRow: byKey(rows.statements, (row) => row.code),
    labelElement: byKey(rows.labelElements, (row) => row.code),
    usualStrengths: grouped(rows.usualStrengths, (row) => row.cas),
    aids: new Set(rows.aids),
    reactivity: new Map(
      [...grouped(rows.reactivity, (row) => row.cas)].map(([cas, found]) => [cas, found.map((row) => row.group)]),
    ),
    compatibility: byKey(rows.compatibility, (row) => compatibilityKey(row.one, row.other)),
    compatibilityGroup: new Map(rows.compatibilityGroups.map((row) => [row.number, row])),
    chartGroups: new Map(rows.compatibilityGroups.flatMap((row) => row.ours.map((group) => [group, row.number] as const))),
    peroxideFormer: byKey(rows.peroxideFormers, (row) => row.cas),
    peroxideClass: byKey(rows.peroxideClasses, (row) => row.class),
    laliberte: byKey(rows.laliberte, (row) => row.cas),
    acidity: byKey([...rows.acidity, ...alsoByFormula(rows.acidity)], (row) => row.cas),
    hydrolysis: grouped([...rows.hydrolysis, ...alsoByFormula(rows.hydrolysis)], (row) => row.cas),
    ionisationHeats: grouped(rows.ionisationHeats, (row) => row.cas),
    hydrolysisHeat: byKey(rows.hydrolysisHeats, (row) => row.cas),
    specificHeat: byKey(rows.specificHeats, (row) => row.cas),
    typicalHeat: byKey(rows.typicalHeats, (row) => row.name),
    azeotrope: byKey(rows.azeotropes, (row) => azeotropeKey(...row.cas)),
    heats: grouped(
      [...rows.heats].sort((a, b) => (a.water ?? Number.MAX_VALUE) - (b.water ?? Number.MAX_VALUE)),
      (row) => row.cas,
    ),
  };
}

function alsoByFormula<T extends { readonly cas: string; readonly formula: string | null }>(rows: readonly T[]): readonly T[] {
  return rows.flatMap((row) => (row.formula === null ? [] : [{ ...row, cas: formulaKey(row.formula) }]));
}

function byKey<T>(rows: readonly T[], key: (row: T) => string): Map<string, T> {
  const map = new Map<string, T>();
  for (const row of rows) if (!map.has(key(row))) map.set(key(row), row);
  return map;
}
