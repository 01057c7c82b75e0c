import type { Mark } from '../core/quantity/figure.ts';
import { grouped } from '../core/grouped.ts';
import {
  type AcidityRow,
  type DensityTable,
  type EthanolWaterRow,
  type ExplosiveRow,
  type HazardRow,
  type HeatRow,
  type HydrolysisRow,
  type LabelElementRow,
  type LabelSize,
  type LaliberteRow,
  type MaterialRow,
  MEASURE_KINDS,
  type MeasureToleranceRow,
  type ReferenceRows,
  type SolubilityRow,
  type SpecificHeatRow,
  type TypicalHeatRow,
  type WaterRow,
} from '../core/reference-rows.ts';

import type { BalanceTexts } from '../core/run/balance-text.ts';
import { json, list, number, type Row, rows, text, truth } from './table-files.ts';

/** Reads the built-in tables from resources/tables. Throws with the file and line where one is malformed. */
export function readReferenceRows(): ReferenceRows {
  return {
    elements: rows('elements').map((row) => ({
      number: Number(row.number),
      symbol: text(row, 'symbol'),
      name: text(row, 'name'),
      weight: number(row, 'weight'),
      low: number(row, 'low'),
      high: number(row, 'high'),
      uncertainty: number(row, 'uncertainty'),
    })),
    isotopes: rows('isotopes').map((row) => ({
      symbol: text(row, 'symbol'),
      massNumber: Number(row.mass_number),
      mass: Number(row.mass),
    })),
    materials: rows('materials').map(material),
    synonyms: rows('synonyms').map((row) => ({ cas: text(row, 'cas'), synonym: text(row, 'synonym') })),
    densities: densityTables(),
    sameInSolution: rows('same-in-solution').map((row) => ({
      cas: text(row, 'cas'),
      countsAs: text(row, 'counts_as'),
      water: Number(text(row, 'mol_water')),
    })),
    hazards: rows('hazards').map(hazard),
    explosives: rows('explosives').map(explosive),
    hazardLimits: rows('hazard-limits').map((row) => ({
      cas: text(row, 'cas'),
      statement: text(row, 'statement'),
      fromPercent: number(row, 'from_percent'),
      fromInclusive: truth(row, 'from_inclusive'),
      toPercent: number(row, 'to_percent'),
      toInclusive: truth(row, 'to_inclusive'),
    })),
    statements: rows('statements').map((row) => ({
      code: text(row, 'code'),
      text: text(row, 'text'),
      list: listOf(text(row, 'list')),
    })),
    labelElements: rows('label-elements').map(labelElement),
    labelSizes: rows('label-sizes').map(labelSize),
    usualStrengths: rows('commercial-strengths').map((row) => ({
      cas: text(row, 'cas'),
      label: text(row, 'label'),
      strength: text(row, 'strength'),
      solvent: text(row, 'solvent'),
      range: text(row, 'range'),
      labelDensity: number(row, 'label_density_g_per_mL'),
      note: text(row, 'note') || null,
      source: text(row, 'source'),
      mark: (row.mark || null) as Mark | null,
    })),
    acidity: rows('acidity').map(acidity),
    hydrolysis: rows('hydrolysis').map(hydrolysis),
    ionisationHeats: rows('ionisation-heats').map((row) => ({
      cas: text(row, 'cas'),
      step: Number(text(row, 'step')),
      heat: Number(text(row, 'kJ_per_mol')),
      source: text(row, 'source'),
      mark: (row.mark || null) as Mark | null,
    })),
    hydrolysisHeats: rows('hydrolysis-heats').map((row) => ({
      cas: text(row, 'cas'),
      heat: Number(text(row, 'kJ_per_mol')),
      equation: text(row, 'equation'),
      source: text(row, 'source'),
    })),
    aids: rows('aids').map((row) => text(row, 'cas')),
    reactivity: rows('reactivity').map((row) => ({
      cas: text(row, 'cas'),
      group: text(row, 'group'),
      source: text(row, 'source'),
    })),
    compatibility: rows('compatibility').map((row) => ({
      one: Number(text(row, 'one')),
      other: Number(text(row, 'other')),
      gives: list(row, 'gives'),
      mark: (row.mark || null) as Mark | null,
    })),
    compatibilityGroups: rows('compatibility-groups').map((row) => ({
      number: Number(text(row, 'number')),
      name: text(row, 'name'),
      words: text(row, 'words'),
      ours: text(row, 'ours').split(';').filter(Boolean),
    })),
    peroxideFormers: rows('peroxide-formers').map((row) => ({
      cas: text(row, 'cas'),
      class: text(row, 'class'),
      source: text(row, 'source'),
      mark: (row.mark || null) as Mark | null,
    })),
    peroxideClasses: rows('peroxide-classes').map((row) => ({
      class: text(row, 'class'),
      months: Number(text(row, 'months')),
      words: text(row, 'words'),
      source: text(row, 'source'),
    })),
    heats: rows('heats-of-solution').map(heat),
    laliberte: rows('laliberte').map(laliberte),
    water: waterRow(),
    ethanolWater: ethanolWaterRow(),
    measureTolerances: rows('measure-tolerances').map(measureTolerance),
    specificHeats: rows('specific-heats').map(specificHeat),
    typicalHeats: rows('typical-heats').map(typicalHeat),
    azeotropes: rows('azeotropes').map((row) => ({
      cas: [text(row, 'cas'), text(row, 'other_cas')] as const,
      celsius: Number(text(row, 'celsius')),
      source: text(row, 'source'),
      mark: (row.mark || null) as Mark | null,
    })),
    balanceTexts: balanceTexts(),
    solubility: rows('solubility').map(solubility),
  };
}

function labelElement(row: Row): LabelElementRow {
  const signal = row.signal;
  if (signal !== 'Danger' && signal !== 'Warning' && signal !== 'either' && signal !== '')
    throw new Error(`label-elements: ${signal} is no signal word`);
  return { code: text(row, 'code'), pictograms: list(row, 'pictograms'), signal };
}

function labelSize(row: Row): LabelSize {
  const page = row.page;
  if (page !== 'A4' && page !== 'Letter' && page !== 'single') throw new Error(`label-sizes: ${page} is no page`);
  const value = (column: string): number => Number(text(row, column));
  return {
    name: text(row, 'name'),
    page,
    width: value('width_mm'),
    height: value('height_mm'),
    columns: value('columns'),
    rows: value('rows'),
    left: value('left_mm'),
    top: value('top_mm'),
    across: value('across_mm'),
    down: value('down_mm'),
  };
}

function specificHeat(row: Row): SpecificHeatRow {
  const phase = row.phase;
  if (phase !== 'solid' && phase !== 'liquid') throw new Error(`specific-heats: ${phase} is neither solid nor liquid`);
  return { cas: text(row, 'cas'), phase, value: Number(text(row, 'J_per_g_K')), source: text(row, 'source') };
}

const HANDBOOK = 'CRC Handbook of Chemistry and Physics, 98th ed., aqueous solubility of inorganic compounds';

function solubility(row: Row): SolubilityRow {
  const per = row.per;
  if (per !== '100 mL solvent' && per !== '100 g solvent') throw new Error(`solubility: ${per} is no basis`);
  const [from, to] = list(row, 'change_near').map(Number);
  return {
    solute: text(row, 'solute'),
    formula: row.formula || null,
    cas: text(row, 'cas'),
    solvent: text(row, 'solvent'),
    per,
    points: list(row, 'celsius_grams').map((pair) => {
      const [celsius, grams] = pair.split(':').map(Number);
      return [celsius ?? Number.NaN, grams ?? Number.NaN];
    }),
    changeNear: from === undefined || to === undefined ? null : [from, to],
    source: row.source === 'CRC' ? HANDBOOK : text(row, 'source'),
    mark: (row.mark || null) as Mark | null,
  };
}

function typicalHeat(row: Row): TypicalHeatRow {
  return {
    name: text(row, 'name'),
    per: text(row, 'per'),
    likely: Number(text(row, 'likely_kJ_per_mol')),
    least: Number(text(row, 'least_kJ_per_mol')),
    most: Number(text(row, 'most_kJ_per_mol')),
    caution: text(row, 'caution'),
    source: text(row, 'source'),
    mark: (row.mark || null) as Mark | null,
  };
}

function measureTolerance(row: Row): MeasureToleranceRow {
  const kind = MEASURE_KINDS.find((one) => one === row.kind);
  if (!kind) throw new Error(`measure-tolerances: ${row.kind} is no kind of measure`);
  return {
    kind,
    standard: text(row, 'standard'),
    grade: text(row, 'class'),
    nominal: Number(text(row, 'nominal_mL')),
    fromPart: Number(text(row, 'from_part')),
    fixed: Number(text(row, 'fixed_mL')),
    perMillilitre: Number(text(row, 'per_mL')),
    source: text(row, 'source'),
    mark: (row.mark || null) as Mark | null,
  };
}

/** Rows of one solute, solvent and temperature as columns: a tenth of the size when they go to the window. */
function densityTables(): readonly DensityTable[] {
  const names = new Map(rows('density-sources').map((row) => [text(row, 'code'), text(row, 'name')]));
  const tables = grouped(rows('densities'), (row) => [row.cas, row.solvent, row.celsius].join());
  return [...tables.values()].map((own) => densityTable(own, names));
}

function densityTable(own: readonly Row[], names: ReadonlyMap<string, string>): DensityTable {
  const [first] = own;
  if (!first) throw new Error('a density table needs rows');
  const tags = own.map((row) => `${text(row, 'source')}|${text(row, 'mark')}`);
  const kinds = [...new Set(tags)];
  return {
    cas: text(first, 'cas'),
    solvent: text(first, 'solvent'),
    celsius: Number(text(first, 'celsius')),
    percents: own.map((row) => Number(text(row, 'mass_percent'))),
    densities: own.map((row) => Number(text(row, 'density_g_per_mL'))),
    sourceOf: tags.map((tag) => kinds.indexOf(tag)),
    sources: kinds.map((kind) => {
      const [code = '', mark] = kind.split('|');
      const source = names.get(code);
      if (source === undefined) throw new Error(`densities: ${code} is not in density-sources`);
      return { source, mark: (mark || null) as Mark | null };
    }),
  };
}

function laliberte(row: Row): LaliberteRow {
  const value = (column: string): number => Number(text(row, column));
  return {
    cas: text(row, 'cas'),
    density: {
      fromCelsius: value('density_from_C'),
      toCelsius: value('density_to_C'),
      toFraction: number(row, 'density_held_to_fraction') ?? value('density_to_fraction'),
      coefficients: [value('c0'), value('c1'), value('c2'), value('c3'), value('c4')],
    },
    heat:
      row.a1 === ''
        ? null
        : {
            fromCelsius: value('heat_from_C'),
            toCelsius: value('heat_to_C'),
            toFraction: value('heat_to_fraction'),
            coefficients: [value('a1'), value('a2'), value('a3'), value('a4'), value('a5'), value('a6')],
          },
  };
}

function waterRow(): WaterRow {
  const read = json('water') as {
    cas: string;
    source: string;
    numerator: number[];
    denominator: number;
    heatCapacity: { points: [number, number][] };
  };
  return {
    cas: read.cas,
    source: read.source,
    numerator: read.numerator,
    denominator: read.denominator,
    heatCapacity: read.heatCapacity.points,
  };
}

function ethanolWaterRow(): EthanolWaterRow {
  const read = json('ethanol-water') as { cas: string; source: string; A: number[]; B: number[]; C: number[][] };
  return { cas: read.cas, source: read.source, a: read.A, b: read.B, c: read.C };
}

function listOf(list: string): 'CLP and UN' | 'CLP' | 'UN' {
  if (list !== 'CLP and UN' && list !== 'CLP' && list !== 'UN') throw new Error(`statements: ${list} is no list`);
  return list;
}

function heat(row: Row): HeatRow {
  const pure = row.pure;
  if (pure !== 'solid' && pure !== 'liquid' && pure !== 'gas') throw new Error(`heats-of-solution: ${pure} is no state`);
  return {
    cas: text(row, 'cas'),
    pure,
    water: row.mol_water_per_mol === 'infinite' ? null : Number(text(row, 'mol_water_per_mol')),
    heat: Number(text(row, 'kJ_per_mol')),
    source: text(row, 'source'),
    mark: (row.mark || null) as Mark | null,
  };
}

function acidity(row: Row): AcidityRow {
  return {
    cas: text(row, 'cas'),
    name: text(row, 'name'),
    formula: row.formula || null,
    pKa: list(row, 'pka').map(Number),
    protons: Number(text(row, 'protons')),
    dissolves: row.dissolves === 'yes',
    source: text(row, 'source'),
    mark: (row.mark || null) as Mark | null,
  };
}

function hydrolysis(row: Row): HydrolysisRow {
  const meets = row.meets;
  if (meets !== 'water' && meets !== 'acid' && meets !== 'base') throw new Error(`hydrolysis: nothing meets ${meets}`);
  return {
    cas: text(row, 'cas'),
    name: text(row, 'name'),
    formula: row.formula || null,
    meets,
    makesCas: text(row, 'makes_cas'),
    makes: text(row, 'makes'),
    molPerMol: Number(text(row, 'mol_per_mol')),
    gas: row.gas === 'yes',
    source: text(row, 'source'),
    mark: (row.mark || null) as Mark | null,
  };
}

function material(row: Row): MaterialRow {
  const state = row.state;
  return {
    name: text(row, 'name'),
    cas: text(row, 'cas'),
    formula: text(row, 'formula'),
    smiles: row.smiles || null,
    state: state === 'solid' || state === 'liquid' || state === 'gas' ? state : null,
    density: number(row, 'density_g_per_mL'),
    densityCelsius: number(row, 'density_celsius'),
    densitySource: row.density_source || null,
    solidDensity: number(row, 'solid_density_g_per_mL'),
    boilingPoint: number(row, 'bp_C'),
    meltingPoint: number(row, 'mp_C'),
    expansion: number(row, 'expansion_per_K'),
    suppliedAs: row.supplied_as || null,
    source: text(row, 'source'),
  };
}

function balanceTexts(): BalanceTexts {
  const { forms, stable, unstable, kinds, overload } = json('balance-text') as BalanceTexts;
  return { forms, stable, unstable, kinds, overload };
}

function hazard(row: Row): HazardRow {
  return {
    ...classed(row),
    statements: [...list(row, 'statements'), ...list(row, 'euh')],
    source: `CLP Annex VI, ${text(row, 'atp')}${row.matched_via === 'from memory' ? ' (from memory)' : ''}`,
  };
}

function explosive(row: Row): ExplosiveRow {
  return {
    ...classed(row),
    names: text(row, 'names').split(/;\s*/).filter(Boolean),
    statements: list(row, 'statements'),
    source: `${text(row, 'entry')}${row.source === 'from memory' ? ' (from memory)' : ''}`,
  };
}

function classed(row: Row): Omit<HazardRow, 'statements' | 'source'> {
  return {
    cas: text(row, 'cas'),
    pictograms: list(row, 'pictograms'),
    signal: row.signal || null,
    fromPercent: number(row, 'from_percent'),
    toPercent: number(row, 'to_percent'),
  };
}
