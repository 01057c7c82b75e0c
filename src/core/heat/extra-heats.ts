import type { BenchInput } from '../bench/bench-section.ts';
import { isStrongAcid, isStrongBase, natureOf } from '../bench/nature.ts';
import type { Facts } from '../matter/facts.ts';
import { parseFormula } from '../matter/formula.ts';
import { type Dissolved, heatOfMixing } from '../matter/heat-of-dilution.ts';
import { solventFacts } from '../matter/named.ts';
import { anhydrousOf } from '../matter/solution-parts.ts';
import { computed, type Figure, entered, sourced } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import type { Charge } from '../route/route.ts';
import { type Maybe, known, unknown } from '../words/why.ts';
import { type Charged, chargedBy } from './charged.ts';

/** Heat that a charge gives beside the reaction: thinning with water what is dissolved, or acid meeting base. */
export interface ExtraHeat {
  readonly charge: Charge;
  readonly kind: 'dilution' | 'neutralisation';
  /** One batch, kJ; negative where heat is taken up. */
  readonly heat: Maybe<'kJ'>;
}

const WATER = '7732-18-5';
/** g/mol; from the standard atomic weights of hydrogen and oxygen. */
const WATER_MASS = 18.015;
const SULFURIC = '7664-93-9';
/** Rows of the table of typical heats that acid and base are counted with. */
const ROWS = {
  strong: 'neutralisation of a strong acid by a strong base',
  sulfuric: 'neutralisation of sulfuric acid, both protons',
} as const;
const DIGITS = 2;
/** Solutes that never give or take so much in water, kJ/mol, are not followed. */
const LEAST_HEAT = 5;

/** What is in the water of the vessel. */
interface Bath {
  water: number;
  readonly solutes: Map<string, { readonly facts: Facts; readonly parts: Dissolved[] }>;
  acid: number;
  base: number;
  /** kJ per mol of the proton that gives most. */
  perProton: Figure<'kJ/mol'> | null;
}

/**
 * Heats of dilution and of neutralisation of one batch, charge by charge, to the first removal of anything but a gas: what is
 * left after it is not followed. What the equation uses up counts with the reaction. Only strong acids meeting strong bases
 * are counted, with the most their class gives.
 */
export function extraHeats(of: BenchInput): readonly ExtraHeat[] {
  const bath: Bath = { water: 0, solutes: new Map(), acid: 0, base: 0, perProton: null };
  const found: ExtraHeat[] = [];
  for (const operation of of.step.operations) {
    if (operation.do === 'removal' && operation.how !== 'vent') break;
    if (operation.do !== 'charge') continue;
    for (const one of chargedBy(operation, of)) {
      const thinned = dilution(one, bath, of.reference);
      if (thinned) found.push({ charge: operation, kind: 'dilution', heat: thinned });
      const met = neutralisation(one, bath, of);
      if (met) found.push({ charge: operation, kind: 'neutralisation', heat: met });
    }
  }
  return found;
}

/** The heat when a charge joins the bath; null where nothing is thinned by it. Leaves the bath with the charge in it. */
function dilution(one: Charged, bath: Bath, reference: Reference): Maybe<'kJ'> | null {
  const [solute, water] = waterAndSolute(one, reference);
  const empty = bath.water === 0 && bath.solutes.size === 0;
  const before = mixedSoFar(bath, reference);
  bath.water += water;
  if (solute) {
    const key = anhydrousOf(solute.facts, reference).cas ?? '';
    const held = bath.solutes.get(key) ?? { facts: solute.facts, parts: [] };
    bath.solutes.set(key, { ...held, parts: [...held.parts, solute] });
  }
  // Its own water alone thins nothing, and without water or solute nothing changes.
  if (empty || bath.water === 0 || bath.solutes.size === 0 || (water === 0 && !solute)) return null;
  const after = mixedSoFar(bath, reference);
  if (!after.ok) return after;
  if (!before.ok) return before;
  const value = after.figure.value - before.figure.value;
  return known(computed('heat of dilution', value, 'kJ', 'heat of solution after − before', [after.figure, before.figure]));
}

/**
 * Heat given off since the parts stood in their bottles, kJ. Several solutes in one water: each as if it had all of the
 * water for itself, which is the most they can give together.
 */
function mixedSoFar(bath: Bath, reference: Reference): Maybe<'kJ'> {
  const heats: Figure<'kJ'>[] = [];
  for (const { facts, parts } of bath.solutes.values()) {
    const own = parts.reduce((sum, part) => sum + part.waterMoles, 0);
    const one = heatOfMixing(facts, parts, Math.max(bath.water, own), reference);
    if (!one.ok) return one;
    heats.push(one.figure);
  }
  const total = heats.reduce((sum, figure) => sum + figure.value, 0);
  if (heats.length < 2) return known(computed('heat of solution so far', total, 'kJ', 'Σ over the solutes', heats));
  const shared = sourced('solutes in one water', heats.length, '', 'each counted with all of the water', DIGITS, 'estimate');
  return known(computed('heat of solution so far', total, 'kJ', 'Σ over the solutes', [...heats, shared]));
}

/** True where water makes so much of a solute's heat that it is followed. */
function isHot(cas: string, reference: Reference): boolean {
  return (reference.heats.get(cas) ?? []).some((row) => Math.abs(row.heat) >= LEAST_HEAT);
}

/** What a charge brings into the water: a solute that the table of heats has, and mol of water. */
function waterAndSolute(one: Charged, reference: Reference): readonly [Dissolved | null, number] {
  if (!one.grams.ok) return [null, 0];
  const grams = one.grams.figure.value;
  if (one.facts.cas === WATER) return [null, grams / WATER_MASS];
  const own = anhydrousOf(one.facts, reference);
  const inWater = one.form.kind === 'solution' && solventFacts(one.form, reference)?.cas === WATER;
  const mass = own.molarMass && one.moles ? own.molarMass.value * one.moles.value : grams;
  const water = inWater ? Math.max(0, grams - mass) / WATER_MASS : 0;
  if (!one.moles || own.cas === null || !isHot(own.cas, reference)) return [null, water];
  if (one.form.kind === 'solution' && !inWater) return [null, 0];
  if (one.moles.value === 0) return [null, water];
  return [{ moles: one.moles, waterMoles: water, facts: inWater ? own : one.facts }, water];
}

/** The heat when a charge meets acid or base that is in the vessel; null where it is neither. */
function neutralisation(one: Charged, bath: Bath, of: BenchInput): Maybe<'kJ'> | null {
  const nature = natureOf(one.facts, of.reference);
  const [acid, base] = [isStrongAcid(nature), isStrongBase(nature)];
  if (!acid && !base) return null;
  const there = acid ? bath.base : bath.acid;
  if (!one.moles) return there > 0 ? unknown('moles not known', { material: one.facts.name }) : null;
  const each = protonsOf(one.facts, of.reference);
  if (each === null) return there > 0 ? unknown('protons not known', { material: one.facts.name }) : null;
  if (acid) bath.perProton = worse(bath.perProton, perProton(one.facts, of.reference));
  const brought = each * Math.max(0, one.moles.value - usedUp(one.charge.material, of));
  const met = Math.min(there, brought);
  bath.acid += acid ? brought - met : -met;
  bath.base += base ? brought - met : -met;
  if (met <= 0) return null;
  const per = bath.perProton ?? perProton(one.facts, of.reference);
  if (!per) return unknown('no such typical heat', { name: ROWS.strong });
  const protons = entered('protons taken up, at most', met, 'mol', 'strong acid and strong base charged');
  return known(computed('heat of neutralisation', met * per.value, 'kJ', 'moles × heat per mole', [protons, per, one.moles]));
}

/** Moles that the equation uses up in one batch: they give their heat with the reaction. */
function usedUp(material: string, { plan, step }: BenchInput): number {
  const of = (key: string): number => step.equation.uses.find((term) => term.material === key)?.coefficient ?? 0;
  const basis = of(step.basis);
  return basis > 0 ? (of(material) / basis) * plan.batches.basisMoles.value : 0;
}

function worse(one: Figure<'kJ/mol'> | null, other: Figure<'kJ/mol'> | null): Figure<'kJ/mol'> | null {
  return one && other ? (one.value >= other.value ? one : other) : (one ?? other);
}

function perProton(facts: Facts, reference: Reference): Figure<'kJ/mol'> | null {
  const sulfuric = facts.cas === SULFURIC;
  const row = reference.typicalHeat.get(sulfuric ? ROWS.sulfuric : ROWS.strong);
  if (!row) return null;
  const value = sulfuric ? row.most / 2 : row.most;
  return sourced(`heat of ${row.name}, at most`, value, 'kJ/mol', row.source, DIGITS, row.mark ?? undefined);
}

/** Protons a mole of a strong acid gives or a strong base takes: 1 for an organic one, else one for each hydrogen. */
function protonsOf(facts: Facts, reference: Reference): number | null {
  const own = anhydrousOf(facts, reference);
  const formula = own.formula === null ? null : parseFormula(own.formula, reference);
  if (!formula?.ok) return null;
  if (formula.atoms.has('C')) return 1;
  const acidOrHydroxide = formula.atoms.get('H') ?? 0;
  return acidOrHydroxide > 0 && acidOrHydroxide <= 3 ? acidOrHydroxide : null;
}
