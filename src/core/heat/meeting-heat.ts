import type { BenchInput } from '../bench/bench-section.ts';
import type { Contents } from '../bench/contents.ts';
import type { Moment } from '../bench/moments.ts';
import { isStrongAcid, isStrongBase, natureOf } from '../bench/nature.ts';
import { acidPartsOf } from '../matter/acidity.ts';
import type { Facts } from '../matter/facts.ts';
import { computed, type Figure, entered } from '../quantity/figure.ts';
import { heatOfHydrolysis, hydrolysisHeat } from '../matter/hydrolysis-heat.ts';
import { hydrolysedPart } from '../matter/hydrolysis-water.ts';
import { type Moving, neutralisationHeat, ownPH } from '../quench/neutral-heat.ts';
import { isHydrolysed, reactsWithWater } from '../quench/neutralise.ts';
import type { Reference } from '../reference.ts';
import { type Maybe, unknown } from '../words/why.ts';

/** Heat of the acids and bases that a charge brings together, beside what the equation uses up. */
export interface Meeting {
  readonly heat: Maybe<'kJ'>;
  /** Materials that are there and whose pKa is not known: not counted. */
  readonly uncounted: readonly string[];
}

/** Less than this, kJ, is rounding. */
const NOTHING_AT_ALL = 1e-6;

/**
 * Heat that acids and bases give off when the charge of one moment joins them, one batch: from the pH that what is there
 * has by itself to the pH of all of it. What the equation uses up, now or later, gives its heat with the reaction and is
 * left out; acids and bases that the equation makes now count as free.
 * @param later mol of reaction that take place now or after. @returns null where nothing is neutralised.
 */
export function meetingHeat(moment: Moment, later: number, of: BenchInput): Meeting | null {
  const left = leftOver(moment, later, of);
  const added = [...left.added, ...formedNow(moment, of)];
  const blocked = notWorkedOut(moment, left.there, added, of);
  if (blocked !== undefined) return blocked;
  const { reference } = of;
  const [before, after] = [hydrolysedOf(left.there, of), hydrolysedOf([...left.there, ...left.added], of)];
  const was = asAcids(left.there, before, of);
  // What water turns into acid now comes as if it were charged.
  const turned = left.there.filter(({ facts }) => isHydrolysed(facts, reference));
  const comes = [...asAcids(added, after, of), ...asAcids(turned, after - before, of)];
  // One acid or base alone in water is diluted, not neutralised.
  if ([...was, ...comes].filter(({ facts }) => actsAs(facts, reference)).length < 2) return null;
  const heat = neutralisationHeat(was, comes, ownPH([...was, ...comes], reference), reference);
  // Water alone shifts weak acids and bases a little: dilution, not a meeting.
  const acts = comes.some(({ facts }) => actsAs(facts, reference));
  if (!acts || (heat.ok && Math.abs(heat.figure.value) < NOTHING_AT_ALL)) return null;
  const blind = [...left.there, ...added].filter(({ facts }) => 'code' in acidPartsOf(facts, reference));
  return { heat, uncounted: [...new Set(blind.map(({ facts }) => facts.name))] };
}

/** What is acid or base, what water hydrolyses by the part that it has hydrolysed. */
function asAcids(all: readonly Moving[], part: number, { reference }: BenchInput): readonly Moving[] {
  return all.flatMap((one): readonly Moving[] => {
    if ('code' in acidPartsOf(one.facts, reference)) return [];
    if (!isHydrolysed(one.facts, reference) || part === 1) return [one];
    if (part * one.moles.value < NOTHING_AT_ALL) return [];
    return [{ facts: one.facts, moles: partOf(one.moles, part) }];
  });
}

/** The part of what water hydrolyses that the water there suffices for. */
function hydrolysedOf(all: readonly Moving[], { reference }: BenchInput): number {
  return hydrolysedPart(all, (facts) => natureOf(facts, reference).water, reference);
}

function partOf(moles: Figure<'mol'>, part: number): Figure<'mol'> {
  return computed(moles.label, moles.value * part, 'mol', 'as far as the water goes', [moles]);
}

/**
 * Where the heat cannot be worked out: something that water turns into acid meets water, or what it turned into meets a
 * base; or a strong acid or base has no known pKa. Undefined where nothing stands against it.
 */
function notWorkedOut(
  { before, mixed }: Moment,
  there: readonly Moving[],
  added: readonly Moving[],
  of: BenchInput,
): Meeting | null | undefined {
  const { reference } = of;
  const reactive = [...there, ...added].find(
    ({ facts }) => reactsWithWater(facts, reference) && !hydrolysisHeat(facts, reference).ok,
  );
  if (reactive && isWet(mixed, of)) {
    const met = isWet(before, of) && there.includes(reactive);
    if (met && !added.some(({ facts }) => actsAs(facts, reference))) return null;
    return { heat: unknown('no heat of hydrolysis', { material: reactive.facts.name }), uncounted: [] };
  }
  const blind = ({ facts }: Moving): boolean => 'code' in acidPartsOf(facts, reference) && isStrong(facts, reference);
  const acts = ({ facts }: Pick<Moving, 'facts'>): boolean => actsAs(facts, reference) || isStrong(facts, reference);
  const nameless = there.some(acts) ? added.find(blind) : undefined;
  const strange = nameless ?? (added.some(acts) ? there.find(blind) : undefined);
  const unmeasured = mixed.find((one) => one.moles === null && acts(one));
  if (unmeasured && [...there, ...added].some(acts)) {
    return { heat: unknown('amount in the vessel', { material: unmeasured.facts.name }), uncounted: [] };
  }
  return strange && { heat: unknown('no pKa', { material: strange.facts.name }), uncounted: [] };
}

function isWet(contents: Contents, { reference }: BenchInput): boolean {
  return contents.some((one) => natureOf(one.facts, reference).water && one.grams !== 0);
}

/**
 * Heat of what water hydrolyses at one moment, one batch, beside what the equation uses and as far as the water goes; null where there is nothing of the kind, or where its heat is not known, which the meeting of acid and base says.
 * @param later mol of reaction that take place now or after.
 */
export function hydrolysisNow(moment: Moment, later: number, of: BenchInput): Maybe<'kJ'> | null {
  if (!isWet(moment.mixed, of)) return null;
  const { there, added } = leftOver(moment, later, of);
  const [before, after] = [hydrolysedOf(there, of), hydrolysedOf([...there, ...added], of)];
  const now = [
    ...there.map(({ facts, moles }) => ({ facts, moles: partOf(moles, after - before) })),
    ...added.map(({ facts, moles }) => ({ facts, moles: partOf(moles, after) })),
  ];
  const heat = heatOfHydrolysis(
    now.filter(({ facts, moles }) => moles.value > 0 && reactsWithWater(facts, of.reference)),
    of.reference,
  );
  return heat?.ok ? heat : null;
}

function actsAs(facts: Facts, reference: Reference): boolean {
  const parts = acidPartsOf(facts, reference);
  return !('code' in parts) && parts.some((one) => one.acidity.pKa.length > 0);
}

function isStrong(facts: Facts, reference: Reference): boolean {
  const nature = natureOf(facts, reference);
  return isStrongAcid(nature) || isStrongBase(nature);
}

/** What is there and what is added, less what the equation uses up: of the charge first, of the vessel for the rest. */
function leftOver(
  { before, mixed }: Moment,
  later: number,
  { step }: BenchInput,
): { readonly there: readonly Moving[]; readonly added: readonly Moving[] } {
  const there: Moving[] = [];
  const added: Moving[] = [];
  for (const material of new Set(mixed.map((one) => one.material))) {
    const [was, is] = [sumOf(before, material), sumOf(mixed, material)];
    if (!is) continue;
    const coefficient = step.equation.uses.find((term) => term.material === material)?.coefficient ?? 0;
    const brought = is.moles.value - (was?.moles.value ?? 0);
    const used = later * coefficient;
    if (brought > 0) added.push({ facts: is.facts, moles: less(is.moles, Math.max(0, brought - used)) });
    if (was) there.push({ facts: is.facts, moles: less(was.moles, Math.max(0, was.moles.value - Math.max(0, used - brought))) });
  }
  const some = (all: readonly Moving[]): readonly Moving[] => all.filter(({ moles }) => moles.value > 0);
  return { there: some(there), added: some(added) };
}

function less(moles: Figure<'mol'>, value: number): Figure<'mol'> {
  if (value === moles.value) return moles;
  return computed(moles.label, value, 'mol', 'less what the equation uses', [moles]);
}

function sumOf(contents: Contents, material: string): { readonly facts: Facts; readonly moles: Figure<'mol'> } | null {
  const figures = contents.filter((one) => one.material === material);
  const [first] = figures;
  const moles = figures.flatMap((one) => one.moles ?? []);
  if (!first || moles.length === 0) return null;
  const value = moles.reduce((sum, one) => sum + one.value, 0);
  return { facts: first.facts, moles: computed(`${first.facts.name}, moles`, value, 'mol', 'what is there', moles) };
}

/** Acids and bases that the equation makes at this moment and that stay. */
function formedNow({ extent }: Moment, { step, facts }: BenchInput): readonly Moving[] {
  if (!(extent > 0)) return [];
  const turns = entered('of the equation', extent, 'mol', 'full conversion');
  return step.equation.makes.flatMap(({ material, coefficient, gas }): readonly Moving[] => {
    const own = facts.get(material);
    if (!own || gas) return [];
    const moles = computed(`${own.name} formed`, extent * coefficient, 'mol', 'by the equation, full conversion', [turns]);
    return [{ facts: own, moles }];
  });
}
