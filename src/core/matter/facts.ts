import { type Figure, type Mark, sourced } from '../quantity/figure.ts';
import { atomsApart } from './atoms-apart.ts';
import type { Reference } from '../reference.ts';
import type { MaterialRow } from '../reference-rows.ts';
import { remember } from '../remember.ts';
import { explosiveKey } from './explosive-name.ts';
import type { FormulaProblem } from './formula.ts';
import type { Material } from './material.ts';
import { molarMass } from './molar-mass.ts';

/** A material with everything known of it: what the file says first, the built-in table after. */
export interface Facts {
  readonly name: string;
  readonly formula: string | null;
  readonly formulaProblem: FormulaProblem | null;
  readonly cas: string | null;
  readonly smiles: string | null;
  readonly state: 'solid' | 'liquid' | 'gas' | null;
  readonly utility: boolean;
  readonly molarMass: Figure<'g/mol'> | null;
  /** Density of the neat liquid as it is handled; null for solids and for what the trade sells dissolved. */
  readonly liquidDensity: Figure<'g/mL'> | null;
  /** The temperature it holds for, °C. */
  readonly liquidCelsius: number;
  readonly solidDensity: Figure<'g/mL'> | null;
  readonly boilingPoint: number | null;
  /** Cubic expansion of the neat liquid near 20–25 °C, per kelvin. */
  readonly expansion: number | null;
  readonly usuallyDissolved: boolean;
  /** Added to take up colour or water, or to filter by: no equation counts it, unless a step's own does. */
  readonly aid: boolean;
  /** Where the table of explosives lists it by its name or another of its names; null where it does not. */
  readonly explosiveKey: string | null;
  /** Hazard statements the file itself gives. */
  readonly ownHazards: readonly string[] | null;
  /** Acidity the file itself gives. */
  readonly ownAcidity: Material['acidity'] | null;
}

const FILE = 'as given with the material';
const TABLE_DIGITS = 4;

const WATER = { cas: '7732-18-5', formula: 'H2O' };

/** Joins a material with the built-in table (by CAS number; water by its formula). Never fails: what is not known is null. */
export const factsOf: (material: Material, reference: Reference) => Facts = remember((material, reference) => {
  const cas = material.cas ?? (material.formula === WATER.formula ? WATER.cas : null);
  const row = cas === null ? undefined : reference.material.get(cas);
  const formula = material.formula ?? row?.formula ?? null;
  const mass = formula === null ? null : molarMass(formula, reference);
  return {
    name: material.name,
    formula,
    formulaProblem: mass && !mass.ok ? mass : null,
    cas,
    smiles: material.smiles ?? row?.smiles ?? null,
    state: material.state ?? row?.state ?? null,
    utility: material.utility ?? false,
    molarMass: mass?.ok ? mass.figure : null,
    liquidDensity: liquidDensity(material, row),
    liquidCelsius: (material.density ? material.density.celsius : row?.densityCelsius) ?? 20,
    solidDensity: solidDensity(material, row),
    boilingPoint: row?.boilingPoint ?? null,
    expansion: row?.expansion ?? null,
    aid: cas !== null && reference.aids.has(cas),
    usuallyDissolved: row?.suppliedAs === 'solution',
    explosiveKey: explosiveKey([material.name, ...(material.synonyms ?? [])], reference),
    ownHazards: material.hazards ?? null,
    ownAcidity: material.acidity ?? null,
  };
});

function liquidDensity(material: Material, row: MaterialRow | undefined): Figure<'g/mL'> | null {
  const label = `density of ${material.name}`;
  if (material.density) {
    const { gramsPerMillilitre, celsius, source } = material.density;
    return sourced(label, gramsPerMillilitre, 'g/mL', `${source ?? FILE}, ${celsius ?? 20} °C`, TABLE_DIGITS);
  }
  if (!row || row.density === null || row.suppliedAs === 'solution') return null;
  const from = `built-in table, ${row.densityCelsius ?? 20} °C: ${row.densitySource ?? row.source}`;
  return sourced(label, row.density, 'g/mL', from, TABLE_DIGITS, markIn(from));
}

function solidDensity(material: Material, row: MaterialRow | undefined): Figure<'g/mL'> | null {
  const label = `solid density of ${material.name}`;
  if (material.solidDensity) return sourced(label, material.solidDensity, 'g/mL', FILE, TABLE_DIGITS);
  return row && row.solidDensity !== null ? sourced(label, row.solidDensity, 'g/mL', 'built-in table', TABLE_DIGITS) : null;
}

function markIn(source: string): Mark | undefined {
  return source.includes('from memory') ? 'from memory' : undefined;
}

/**
 * The same substance: by CAS number where both have one, else by name, spaces and case aside; never where their formulas
 * are of different atoms (Co is not CO, and a hydrate is not what it is called after).
 */
export function sameMaterial(one: Material, other: Material): boolean {
  if (one.cas && other.cas) return one.cas === other.cas;
  return foldName(one.name) === foldName(other.name) && !atomsApart(one.formula, other.formula);
}

/** A name for comparing: case and spaces aside. */
export function foldName(name: string): string {
  return name.trim().toLowerCase().replaceAll(/\s+/g, ' ');
}
