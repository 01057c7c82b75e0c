import type { Content, Contents } from '../bench/contents.ts';
import { natureOf } from '../bench/nature.ts';
import { type AcidPart, acidPartsOf, formShares } from '../matter/acidity.ts';
import { isCarboxylic } from '../matter/carboxylic.ts';
import type { Facts } from '../matter/facts.ts';
import { heatToTheEnd } from '../matter/heat-of-dilution.ts';
import { hydrolysisHeat } from '../matter/hydrolysis-heat.ts';
import { anhydrousOf } from '../matter/solution-parts.ts';
import { computed, type Figure, sourced } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import { type Maybe, known, unknown } from '../words/why.ts';
import { BICARBONATE_PH, equivalentsOf, isCarbonate, isHydrolysed, protonsGiven } from './neutralise.ts';

/** Below this change of protons a step's heat does not count. */
const NO_CHANGE = 1e-3;
/** Below this one whose heat is not known is left out, as the section says: some 1 kJ per mole of it. */
const LITTLE = 0.02;
const DIGITS = 3;

/** Moles of a material whose protons move. */
export interface Moving {
  readonly facts: Facts;
  readonly moles: Figure<'mol'>;
}

/**
 * Heat given off when what is added brings what is in the vessel to a pH, kJ, in dilute water at 25 °C: from the forms that
 * its acids and bases have at the pH they make among themselves, and what is added as it is charged, to their forms at the
 * end, with the heat of ionisation of each step. Carbon dioxide counts as staying dissolved: what leaves takes heat
 * along, so this is the larger figure. What water hydrolyses counts as hydrolysed; the heat of that is not in it.
 * @returns why not, where a heat of ionisation is not known. Source: resources/tables/ionisation-heats.csv.
 */
export function neutralisationHeat(
  there: readonly Moving[],
  added: readonly Moving[],
  endPH: number,
  reference: Reference,
): Maybe<'kJ'> {
  const start = ownPH(there, reference);
  const of: Figure[] = [];
  let heat = 0;
  for (const moving of [...there, ...added]) {
    const { facts, moles } = moving;
    if (moles.value === 0) continue;
    const parts = acidPartsOf(facts, reference);
    if ('code' in parts) return { ok: false, why: parts };
    const hydrolysis = isHydrolysed(facts, reference) ? hydrolysisHeat(facts, reference) : null;
    if (hydrolysis?.ok === false) return hydrolysis;
    const carbonate = isCarbonate(facts, reference);
    for (const part of parts) {
      const from = added.includes(moving) ? asCharged(part) : sharesAt(part, start, carbonate);
      const each = partHeat(part, from, sharesAt(part, endPH, carbonate), reference, isCarboxylic(part, facts, reference));
      if (each === null) return unknown('no heat of ionisation', { material: part.name });
      if (each.figures.length === 0) continue;
      heat += moles.value * part.perMole * each.given;
      of.push(moles, ...each.figures);
    }
  }
  return known(computed('heat of neutralisation', heat, 'kJ', 'moles × heats of the protons given and taken up', of));
}

/** Past these no acid gives and no base takes more: above the pKa of hydroxides (15.7) and of the strongest bases. */
const LOWEST = -1;
const HIGHEST = 60;

/** Litres a mole of water takes, for what it holds of free acid. */
const LITRES_OF_WATER = 0.018;

/**
 * The pH at which what is there neither lacks nor has protons over, the water taking up what is free, as if ideal; the end
 * of the scale where strong base, or strong acid without water, is left. What has no known pKa is left out.
 */
export function ownPH(there: readonly Moving[], reference: Reference): number {
  const water = there.reduce((sum, { facts, moles }) => (natureOf(facts, reference).water ? sum + moles.value : sum), 0);
  const over = (pH: number): number =>
    there.reduce(
      (sum, { facts, moles }) => {
        const given = moles.value === 0 ? null : protonsGiven(facts, pH, reference);
        return given?.ok ? sum + moles.value * given.figure.value : sum;
      },
      -water * LITRES_OF_WATER * 10 ** -pH,
    );
  let [low, high] = [LOWEST, HIGHEST];
  if (over(low) >= 0) return low;
  if (over(high) <= 0) return high;
  while (high - low > 1e-6) {
    const middle = (low + high) / 2;
    if (over(middle) > 0) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}

function asCharged({ acidity }: AcidPart): readonly number[] {
  return Array.from({ length: acidity.pKa.length + 1 }, (_, count) => (count === acidity.protons ? 1 : 0));
}

function sharesAt({ acidity }: AcidPart, pH: number, carbonate: boolean): readonly number[] {
  const pKa = acidity.pKa.map((one) => one.value);
  return carbonate && pH <= BICARBONATE_PH ? [...pKa.map(() => 0), 1] : formShares(pKa, pH);
}

/** kJ a mole of a part gives off between two states; null where a step's heat is not known. */
function partHeat(
  part: AcidPart,
  from: readonly number[],
  to: readonly number[],
  reference: Reference,
  carboxylic: boolean,
): { readonly given: number; readonly figures: readonly Figure[] } | null {
  if (from.every((share, count) => Math.abs(share - (to[count] ?? 0)) < NO_CHANGE)) return { given: 0, figures: [] };
  const rows = part.cas === null ? [] : (reference.ionisationHeats.get(part.cas) ?? []);
  const little = from.every((share, count) => Math.abs(share - (to[count] ?? 0)) < LITTLE);
  if (rows.length !== part.acidity.pKa.length && carboxylic) return { given: 0, figures: [likeCarboxylicAcids(part)] };
  if (rows.length !== part.acidity.pKa.length) return little || endsAsCharged(part, to) ? { given: 0, figures: [] } : null;
  const figures = rows.map((row) =>
    sourced(`heat of ionisation ${row.step} of ${part.name}`, row.heat, 'kJ/mol', row.source, DIGITS, row.mark ?? undefined),
  );
  // Bound from the firmest proton on: each gives off the heat its step takes up.
  const bound = [0];
  for (const row of rows.toReversed()) bound.push((bound.at(-1) ?? 0) - row.heat);
  const heatOf = (shares: readonly number[]): number =>
    shares.reduce((sum, share, count) => sum + share * (bound[count] ?? 0), 0);
  return { given: heatOf(from) - heatOf(to), figures };
}

/** The carboxylic acids of the table (acetic, formic, citric) take up between −4 and 5 kJ/mol; 55.8 is the water's. */
function likeCarboxylicAcids({ name }: AcidPart): Figure<'kJ/mol'> {
  const source = 'taken as 0 ± 5 for each proton, like the carboxylic acids of the table';
  return sourced(`heat of ionisation of ${name}`, 0, 'kJ/mol', source, 1, 'estimate');
}

/**
 * A weak base that strong acid made hold a proton, and that ends as it was charged: without its heat the proton counts
 * as free acid, whose neutralisation gives off more.
 */
function endsAsCharged({ acidity }: AcidPart, to: readonly number[]): boolean {
  return Math.abs((to[acidity.protons] ?? 0) - 1) < NO_CHANGE;
}

/** From here on no free strong acid is left whose dilution would give heat. */
const NO_FREE_ACID = 2;
const NO_FREE_BASE = 12;

/**
 * Heat given off when the acids and bases in the water, and the one that is added, are diluted without end, kJ: the
 * heats of neutralisation hold for such solutions. Each is taken as alone in the water there is.
 * @param waterMoles water that the agent brings. @returns why not, where a heat of solution is not known.
 */
export function dilutionHeat(
  contents: Contents,
  agent: Moving & { readonly waterMoles: number },
  pH: number,
  reference: Reference,
): Maybe<'kJ'> {
  const water = contents.reduce(
    (sum, one) => sum + (natureOf(one.facts, reference).water && one.phase === 'aqueous' ? (one.moles?.value ?? 0) : 0),
    0,
  );
  const parts = [
    ...(isFree(contents, reference) ? contents : [])
      // What water hydrolyses: its heat holds for its acids in much water.
      .filter((one) => movesProtons(one, pH, reference) && !isHydrolysed(one.facts, reference))
      .map((one) => ({ facts: one.facts, moles: one.moles, water })),
    { facts: agent.facts, moles: agent.moles, water: agent.waterMoles },
  ];
  const pHThere = ownPH(
    contents.flatMap(({ facts, moles }) => (moles ? [{ facts, moles }] : [])),
    reference,
  );
  const of: Figure[] = [];
  let heat = 0;
  for (const one of parts) {
    if (!one.moles || one.moles.value === 0) continue;
    const solute = one.water > 0 ? anhydrousOf(one.facts, reference) : one.facts;
    const { start, end } = heatToTheEnd(solute, one.water / one.moles.value, reference);
    if (!(start.ok && end.ok) && (dissolvesLikeCarboxylicAcids(one.facts, reference) || isHydrogenSulfate(one.facts))) continue;
    if (!start.ok) return start;
    if (!end.ok) return end;
    const later = givenWithNeutralisation(one.facts, one.facts === agent.facts ? null : pHThere, reference);
    heat += one.moles.value * (start.figure.value - end.figure.value - later);
    of.push(one.moles, start.figure, end.figure);
  }
  return known(computed('heat of dilution', heat, 'kJ', 'moles × (heat of solution before − at infinite dilution)', of));
}

/** Carboxylic acids: solids take heat up as they dissolve, liquids give little, so that the rise comes out high. */
function dissolvesLikeCarboxylicAcids(facts: Facts, reference: Reference): boolean {
  const parts = acidPartsOf(facts, reference);
  return !('code' in parts) && parts.every((part) => isCarboxylic(part, facts, reference));
}

/** Hydrogen sulfates of sodium, potassium, ammonium: dissolved before; the proton that thinning takes off counts with the neutralisation. */
function isHydrogenSulfate({ formula }: Facts): boolean {
  return formula !== null && /^(?:NaHSO4|KHSO4|NH4HSO4|H5NO4S|NH5SO4|HNaO4S|HKO4S)$/.test(formula);
}

/** Protons that leave by dilution alone sit no firmer than this. */
const LEAVES_BY_DILUTION = 3;

/**
 * kJ per mole that dilution without end gives by taking off protons whose heat the neutralisation counts: the second of
 * sulfuric acid. @param pH of the solution they sit in; null for a substance as it is charged.
 */
function givenWithNeutralisation(facts: Facts, pH: number | null, reference: Reference): number {
  const parts = acidPartsOf(facts, reference);
  if ('code' in parts) return 0;
  return parts.reduce((sum, part) => {
    const rows = part.cas === null ? [] : (reference.ionisationHeats.get(part.cas) ?? []);
    const { pKa } = part.acidity;
    if (rows.length !== pKa.length) return sum;
    const shares = pH === null ? asCharged(part) : sharesAt(part, pH, false);
    const held = (step: number): number =>
      shares.reduce((all, share, count) => (count >= pKa.length - step ? all + share : all), 0);
    const given = rows.map((row, step) => ((pKa[step]?.value ?? 0) < LEAVES_BY_DILUTION ? -row.heat * held(step) : 0));
    return sum + part.perMole * given.reduce((all, one) => all + one, 0);
  }, 0);
}

/** Whether strong acid or base is left in the vessel; else what is there has been diluted and neutralised before. */
function isFree(contents: Contents, reference: Reference): boolean {
  const there = contents.flatMap(({ facts, moles }) => (moles ? [{ facts, moles }] : []));
  const pH = ownPH(there, reference);
  return pH < NO_FREE_ACID || pH > NO_FREE_BASE;
}

function movesProtons(one: Content, pH: number, reference: Reference): boolean {
  const own = equivalentsOf(one, pH, reference);
  return own.ok && Math.abs(own.figure.value) > NO_CHANGE * (one.moles?.value ?? 0);
}

/** Liquid water at 25 °C, J/(g·K): CRC Handbook. For everything else a low round figure: the rise comes out high. */
const WATER = 4.18;
const REST = 1;

/** Heat capacity of a mixture by mass, J/(g·K): its water, and a low round figure for the rest, marked an estimate. */
export function roughCapacity(waterGrams: number, grams: number): Figure<'J/(g·K)'> {
  const water = sourced('heat capacity of water', WATER, 'J/(g·K)', 'CRC Handbook, 25 °C', DIGITS);
  const rest = sourced('heat capacity of the rest', REST, 'J/(g·K)', 'a low round figure', DIGITS, 'estimate');
  const value = (waterGrams * WATER + (grams - waterGrams) * REST) / grams;
  return computed('heat capacity of the mixture', value, 'J/(g·K)', 'its water and the rest by mass', [water, rest]);
}
