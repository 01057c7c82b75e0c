import { type Figure, entered, sourced } from '../quantity/figure.ts';
import { formulaKey, type Reference } from '../reference.ts';
import { type HydrolysisRow } from '../reference-rows.ts';
import { remember } from '../remember.ts';
import { unknown, type Why } from '../words/why.ts';
import { type Facts, factsOf } from './facts.ts';
import { parseFormula } from './formula.ts';
import { isNeutralByStructure } from './neutral-structure.ts';
import { anhydrousOf } from './solution-parts.ts';

/** An acid, a base or both: how firmly each proton sits. */
export interface Acidity {
  /** From the form with all its protons on. Dilute in water at 25 °C. */
  readonly pKa: readonly Figure<''>[];
  /** How many of those protons it has as it is charged. */
  readonly protons: number;
  readonly dissolves: boolean;
}

const NEITHER: Acidity = { pKa: [], protons: 0, dissolves: false };
const DIGITS = 3;

/**
 * A material as an acid or a base: as the file says, else by the built-in table (CAS number, else formula); null where
 * nobody says. What holds only carbon, hydrogen and halogens is neither, by its formula; what holds only a few plain groups,
 * by its structure.
 * Source: resources/tables/acidity.csv, where each row names its own.
 */
export const acidityOf: (facts: Facts, reference: Reference) => Acidity | null = remember((facts, reference) => {
  if (facts.ownAcidity) {
    const { pKa, protons } = facts.ownAcidity;
    const figures = pKa.map((value, at) => entered(`pKa ${at + 1} of ${facts.name}`, value, '', 'as given with the material'));
    return { pKa: figures, protons, dissolves: false };
  }
  const row = rowOf(facts, reference, (key) => reference.acidity.get(key));
  if (!row) return onlyCarbonAndHydrogen(facts, reference) || isNeutralByStructure(facts, reference) ? NEITHER : null;
  const { pKa, protons, dissolves, source, mark } = row;
  const figures = pKa.map((value, at) => sourced(`pKa ${at + 1} of ${row.name}`, value, '', source, DIGITS, mark ?? undefined));
  return { pKa: figures, protons, dissolves };
});

/** By CAS number, also of the substance without its water of crystallisation; by formula where there is no number. */
function rowOf<T>(facts: Facts, reference: Reference, get: (key: string) => T | undefined): T | undefined {
  if (facts.cas !== null) {
    const own = get(facts.cas);
    if (own !== undefined) return own;
  }
  const bare = anhydrousOf(facts, reference);
  if (bare.cas !== null && bare.cas !== facts.cas) return get(bare.cas);
  if (facts.cas !== null || facts.formula === null) return undefined;
  return get(formulaKey(facts.formula)) ?? (bare.formula === null ? undefined : get(formulaKey(bare.formula)));
}

function onlyCarbonAndHydrogen(facts: Facts, reference: Reference): boolean {
  const formula = facts.formula === null ? null : parseFormula(facts.formula, reference);
  if (!formula?.ok || formula.charge !== 0 || !formula.atoms.has('C')) return false;
  return [...formula.atoms.keys()].every((symbol) => ['C', 'H', 'F', 'Cl', 'Br', 'I'].includes(symbol));
}

/** What a material turns into or frees with water, an acid or a base; empty where the table has nothing: not a proof. */
export function hydrolysisOf(facts: Facts, reference: Reference): readonly HydrolysisRow[] {
  return rowOf(facts, reference, (key) => reference.hydrolysis.get(key)) ?? [];
}

/** One acid or base that a mole of a material brings into water. */
export interface AcidPart {
  readonly name: string;
  readonly cas: string | null;
  readonly acidity: Acidity;
  /** mol per mol of the material. */
  readonly perMole: number;
}

/**
 * The acids and bases a material brings into water: itself, or what it is hydrolysed to (acid halides, anhydrides,
 * hydrides); why not, where no pKa is known. Carbon dioxide that is freed leaves and is not counted.
 */
export const acidPartsOf: (facts: Facts, reference: Reference) => readonly AcidPart[] | Why = remember((facts, reference) => {
  const own = acidityOf(facts, reference);
  const row = hydrolysisOf(facts, reference).filter((one) => one.meets === 'water');
  if (own && (facts.ownAcidity || own.pKa.length > 0 || row.length === 0)) {
    return [{ name: facts.name, cas: ownCas(facts, reference), acidity: own, perMole: 1 }];
  }
  if (row.length === 0) return unknown('no pKa', { material: facts.name }).why;
  const parts: AcidPart[] = [];
  for (const one of row) {
    if (one.gas && one.makesCas === CARBON_DIOXIDE) continue;
    const made = factsOf({ name: one.makes, cas: one.makesCas }, reference);
    const acidity = acidityOf(made, reference);
    if (acidity) parts.push({ name: one.makes, cas: one.makesCas, acidity, perMole: one.molPerMol });
    else if (!one.gas) return unknown('no pKa', { material: one.makes }).why;
  }
  return parts;
});

const CARBON_DIOXIDE = '124-38-9';

function ownCas(facts: Facts, reference: Reference): string | null {
  const row = rowOf(facts, reference, (key) => reference.acidity.get(key));
  if (!row) return facts.cas;
  return row.cas.startsWith('formula ')
    ? (reference.rows.acidity.find((one) => one.formula === facts.formula)?.cas ?? null)
    : row.cas;
}

/**
 * Protons that one molecule holds on the average at a pH: 0 … n for n pKa, from the shares of its forms,
 * wₖ = Π 10^(pKa − pH) over the k firmest protons. Dilute, 25 °C.
 */
export function boundProtons(pKa: readonly number[], pH: number): number {
  return formShares(pKa, pH).reduce((sum, share, count) => sum + share * count, 0);
}

/** Average share of each form at a pH, from none of its protons on to all of them. */
export function formShares(pKa: readonly number[], pH: number): readonly number[] {
  let log = 0;
  const logs = [0, ...[...pKa].reverse().map((one) => (log += (one - pH) * Math.LN10))];
  const best = Math.max(...logs);
  const weights = logs.map((one) => Math.exp(one - best));
  const all = weights.reduce((sum, one) => sum + one, 0);
  return weights.map((one) => one / all);
}
