import type { BenchInput } from '../bench/bench-section.ts';
import { type Content, type Contents, NOTHING } from '../bench/contents.ts';
import { type Moment, momentsOf } from '../bench/moments.ts';
import { natureOf } from '../bench/nature.ts';
import { acidityOf, hydrolysisOf } from '../matter/acidity.ts';
import { hydrolysedPart } from '../matter/hydrolysis-water.ts';
import { type Facts, factsOf } from '../matter/facts.ts';
import { parseFormula } from '../matter/formula.ts';
import { computed, type Figure, sourced } from '../quantity/figure.ts';
import type { HydrolysisRow } from '../reference-rows.ts';
import { endPHOf } from '../route/end-ph.ts';
import { type Maybe, known, unknown } from '../words/why.ts';
import { acidEquivalents, BICARBONATE_PH, protonsGiven } from './neutralise.ts';

/** A gas that is freed at an operation, one batch: by the equation or by what meets, and the most there could be. */
export interface FreedAt {
  readonly operation: string;
  readonly gas: Facts;
  /** What it comes from; null for the equation. */
  readonly from: string | null;
  readonly meets: 'equation' | HydrolysisRow['meets'];
  readonly stoichiometric: Maybe<'mol'>;
  readonly largest: Maybe<'mol'>;
}

/** The pH that tells acid from base here. */
const NEUTRAL = 7;

/** Gases that the equation frees, and those that water, acid or base free from what is in the vessel. */
export function freedGases(of: BenchInput): readonly FreedAt[] {
  const gone: Gone = new Map();
  const unreacted = momentsOf({ ...of, step: { ...of.step, equation: { uses: [], makes: [] } } });
  return momentsOf(of).flatMap((moment, at) => [
    ...byEquation(moment, of),
    ...byMeeting(moment, unreacted[at]?.mixed ?? NOTHING, gone, of),
  ]);
}

/** Part of a material that acid or base has decomposed so far, 0 to 1, by material and gas. */
type Gone = Map<string, number>;

function byEquation(moment: Moment, of: BenchInput): readonly FreedAt[] {
  return [...moment.freed].flatMap(([material, moles]) => {
    const gas = of.facts.get(material);
    if (!gas) return [];
    const largest = mostByEquation(material, gas, moment, moles, of);
    return [{ operation: moment.operation, gas, from: null, meets: 'equation' as const, stoichiometric: known(moles), largest }];
  });
}

/**
 * The most of a gas of the equation: as if all that is there of a reactant that holds the gas's own elements (not
 * hydrogen and oxygen) turned into it in the equation's proportion, whatever else is short.
 */
function mostByEquation(material: string, gas: Facts, moment: Moment, least: Figure<'mol'>, of: BenchInput): Maybe<'mol'> {
  const { equation } = of.step;
  const coefficient = equation.makes.find((term) => term.material === material)?.coefficient ?? 1;
  const elements = ownElements(gas, of);
  if (elements.length === 0) return known(least);
  let most = least;
  for (const term of equation.uses) {
    const facts = of.facts.get(term.material);
    if (!facts || !ownElements(facts, of).some((symbol) => elements.includes(symbol)) || organicCarbon(facts, elements, of))
      continue;
    for (const { moles } of moment.mixed.filter((one) => one.material === term.material)) {
      if (!moles) return unknown('amount in the vessel', { material: facts.name });
      const value = (moles.value * coefficient) / term.coefficient;
      if (value > most.value) most = computed(`${gas.name} at most`, value, 'mol', 'from all of this reactant', [moles]);
    }
  }
  return known(most);
}

/** Carbon of an organic reactant is not counted as carbon dioxide: it would be a fire, not this step. */
function organicCarbon(facts: Facts, elements: readonly string[], of: BenchInput): boolean {
  return (
    elements.length === 1 &&
    elements[0] === 'C' &&
    natureOf(facts, of.reference).organic &&
    facts.smiles?.includes('[Na+]') !== true &&
    hydrolysisOf(facts, of.reference).length === 0
  );
}

function ownElements(facts: Facts, { reference }: BenchInput): readonly string[] {
  const formula = facts.formula === null ? null : parseFormula(facts.formula, reference);
  return formula?.ok ? [...formula.atoms.keys()].filter((symbol) => symbol !== 'H' && symbol !== 'O') : [];
}

/** @param unreacted what would be there had the equation used none of it: the most that can still free gas. */
function byMeeting(moment: Moment, unreacted: Contents, gone: Gone, of: BenchInput): readonly FreedAt[] {
  const charge = of.plan.operations.find((one) => one.kind === 'charge' && one.id === moment.operation);
  if (charge?.kind !== 'charge') return [];
  return moment.mixed.flatMap((one) =>
    hydrolysisOf(one.facts, of.reference)
      .filter((row) => row.gas && meetsNow(one, row, charge.material, moment, of))
      .map((row) => freed(one, row, { moment, most: mostOf(one, unreacted) }, gone, of))
      // Base that acid takes up first frees nothing; what it could free is said as a caution.
      .filter(({ meets, stoichiometric }) => meets !== 'base' || !stoichiometric.ok || stoichiometric.figure.value > 0),
  );
}

/** Whether the charge brings the material or its partner, and the other is there. */
function meetsNow(one: Content, row: HydrolysisRow, charged: string, moment: Moment, of: BenchInput): boolean {
  if (one.moles?.value === 0) return false;
  const others = moment.mixed.filter((other) => other.material !== one.material);
  const partners = others.filter((other) => isPartner(other, row.meets, of));
  if (partners.length === 0) return false;
  const before = moment.before.filter((other) => other.material !== one.material && isPartner(other, row.meets, of));
  if (row.meets === 'water' && charged !== one.material && hydrolysedIn(moment.before, of) === 1) return false;
  const brought = charged === one.material || partners.some((other) => other.material === charged);
  return brought || before.length === 0;
}

function isPartner(other: Content, meets: HydrolysisRow['meets'], { reference }: BenchInput): boolean {
  if (other.moles?.value === 0) return false;
  if (meets === 'water') return natureOf(other.facts, reference).water;
  const own = acidEquivalents([other], NEUTRAL, reference);
  if (own.ok) return meets === 'acid' ? own.figure.value > 1e-9 : own.figure.value < -1e-9;
  return natureOf(other.facts, reference).groups.some((group) => (meets === 'acid' ? /acid/ : /strong base/).test(group));
}

function mostOf(one: Content, unreacted: Contents): Figure<'mol'> | null {
  const whole = unreacted.find(({ material, phase }) => material === one.material && phase === one.phase)?.moles;
  return whole && one.moles && whole.value > one.moles.value ? whole : one.moles;
}

interface Meeting {
  readonly moment: Moment;
  /** Moles there of what it comes from, had none reacted. */
  readonly most: Figure<'mol'> | null;
}

function freed(one: Content, row: HydrolysisRow, { moment, most: whole }: Meeting, gone: Gone, of: BenchInput): FreedAt {
  const { reference } = of;
  const gas = factsOf({ name: row.makes, cas: row.makesCas }, reference);
  const base = { operation: moment.operation, gas, from: one.facts.name, meets: row.meets };
  if (!one.moles || !whole) {
    // Why a charge itself has no amount is said with it.
    const own = of.plan.operations.some(
      (each) => each.kind === 'charge' && each.id === moment.operation && each.material === one.material,
    );
    const why = own ? unknown('reason before') : unknown('amount in the vessel', { material: one.facts.name });
    return { ...base, stoichiometric: why, largest: why };
  }
  const per = sourced(`${gas.name} per mole`, row.molPerMol, '', row.source, 3, row.mark ?? undefined);
  const from = (moles: Figure<'mol'>, how: string): Figure<'mol'> =>
    computed(`${gas.name} freed`, moles.value * row.molPerMol, 'mol', how, [moles, per]);
  const most = timesAtMost(one, whole, moment, of);
  const largest = known(from(most, 'from all that is there'));
  const reacting =
    row.meets === 'water'
      ? hydrolysedNow(one, moment, of)
      : notYetGone(one, row, gone, reactingMoles(one, one.moles, row, moment, of));
  return {
    ...base,
    stoichiometric: reacting.ok ? known(from(reacting.figure, 'as far as what it meets goes')) : reacting,
    largest,
  };
}

/** What has given its gas before does not give it again. */
function notYetGone(one: Content, row: HydrolysisRow, gone: Gone, reacting: Maybe<'mol'>): Maybe<'mol'> {
  if (!reacting.ok || !one.moles || one.moles.value === 0) return reacting;
  const key = `${one.material} ${row.makesCas}`;
  const before = gone.get(key) ?? 0;
  const { figure } = reacting;
  gone.set(key, Math.max(before, figure.value / one.moles.value));
  if (before === 0) return reacting;
  const value = Math.max(0, figure.value - before * one.moles.value);
  return known(computed(figure.label, value, 'mol', 'less what has given its gas before', [figure]));
}

/** All that may be there: what goes in until an end point counts with its largest amount. */
function timesAtMost(one: Content, moles: Figure<'mol'>, moment: Moment, of: BenchInput): Figure<'mol'> {
  const charge = of.plan.operations.find((each) => each.kind === 'charge' && each.id === moment.operation);
  if (charge?.kind !== 'charge' || charge.material !== one.material || charge.atMost === null || !charge.moles) return moles;
  const more = (charge.moles.value / of.plan.batches.count) * (charge.atMost - 1);
  return computed(moles.label, moles.value + more, 'mol', 'with the largest amount that may go in', [moles, charge.moles]);
}

/** Moles of a content that the water there hydrolyses now, and had not before. */
function hydrolysedNow(one: Content, { before, mixed }: Moment, of: BenchInput): Maybe<'mol'> {
  const was = before.reduce((sum, each) => sum + (each.material === one.material ? (each.moles?.value ?? 0) : 0), 0);
  const is = one.moles;
  if (!is) return unknown('amount in the vessel', { material: one.facts.name });
  const value = Math.max(0, is.value * hydrolysedIn(mixed, of) - was * hydrolysedIn(before, of));
  return known(computed(`${one.facts.name} that reacts`, value, 'mol', 'as far as the water goes', [is]));
}

function hydrolysedIn(contents: Contents, { reference }: BenchInput): number {
  return hydrolysedPart(contents, (facts) => natureOf(facts, reference).water, reference);
}

/** The pH to which acid counts: where the charge goes on beyond neutral, its own, as far as carbon dioxide leaves. */
function acidTo(operation: string, { step }: BenchInput): number {
  const charge = step.operations.find((one) => one.do === 'charge' && one.id === operation);
  const end = (charge?.do === 'charge' ? endPHOf(charge.rule) : null) ?? NEUTRAL;
  return Math.min(BICARBONATE_PH, Math.max(NEUTRAL, end));
}

/** Moles of a content that its partners suffice for, by their equivalents. */
function reactingMoles(one: Content, moles: Figure<'mol'>, row: HydrolysisRow, moment: Moment, of: BenchInput): Maybe<'mol'> {
  const pH = row.meets === 'acid' ? acidTo(moment.operation, of) : NEUTRAL;
  const others = moment.mixed.filter((other) => other.material !== one.material);
  const there = acidEquivalents(others, pH, of.reference);
  if (!there.ok) return there;
  // Its own acid takes up base before its ammonia is freed.
  const own = row.meets === 'base' ? protonsGiven(one.facts, NEUTRAL, of.reference) : null;
  const first = own?.ok ? Math.max(0, own.figure.value) * moles.value : 0;
  const have = row.meets === 'acid' ? there.figure.value : -there.figure.value - first;
  const each = protonsFor(one.facts, row, of);
  const value = Math.min(moles.value, Math.max(0, have) / each);
  return known(
    computed(`${one.facts.name} that reacts`, value, 'mol', 'what is there, or what its partner suffices for', [
      moles,
      there.figure,
    ]),
  );
}

/** Protons a mole needs until its gas is freed; two for each hydrogen molecule a metal or hydride gives. */
function protonsFor(facts: Facts, row: HydrolysisRow, { reference }: BenchInput): number {
  if (row.meets === 'base') return row.molPerMol;
  const acidity = acidityOf(facts, reference);
  const open = acidity ? acidity.pKa.length - acidity.protons : 0;
  if (open > 0) return open;
  return row.makesCas === HYDROGEN ? 2 * row.molPerMol : 1;
}

const HYDROGEN = '1333-74-0';
