import { isExplosive } from '../bench/explosive.ts';
import { amountOf, type Governed } from '../plan/amounts.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import { type Maybe, known, unknown, type Why } from '../words/why.ts';
import type { Facts } from './facts.ts';
import { NEAT, solventOf } from './form.ts';
import { sameSolvent } from './named.ts';
import { blend } from './mixing.ts';
import type { Saturated } from './saturated.ts';
import { amountToMake, withSurplus } from './saturated-solution.ts';
import { massFraction } from './solution.ts';
import { type SolutionHeat, solutionHeat, unknownHeat } from './solution-heat.ts';
import {
  asAnhydrous,
  dissolvedIn,
  type Presented,
  type SolutionForm,
  soluteIn,
  solutePerMillilitre,
  soluteShare,
  volumeOf,
} from './solution-parts.ts';

/** A solution that is wanted, and what it is to be made from. */
export interface SolutionAsk {
  /** What the strength counts: the substance itself, or the hydrate or anhydrous form of what is weighed. */
  readonly solute: Facts;
  readonly form: SolutionForm;
  /** Of the solution, in g or mL, or of the solute in it, in mol. */
  readonly amount: Governed;
  readonly source: Presented;
  /** Where `form` is a saturated solution's, what the tables say of it: more of the solid goes in than dissolves. */
  readonly saturated?: Saturated | null;
  /** A weaker solution in the place of the solvent; null for the solvent itself. */
  readonly weaker: Presented | null;
  /** Temperature of everything before, °C. */
  readonly celsius: number;
}

/** How much of one part goes in. */
export interface Portion {
  readonly grams: Maybe<'g'>;
  readonly millilitres: Maybe<'mL'>;
}

export interface SolutionPlan {
  readonly ask: SolutionAsk;
  /** Why it cannot be made like this; null where it can. */
  readonly problem: Why | null;
  readonly solute: Maybe<'g'>;
  readonly moles: Maybe<'mol'>;
  readonly fraction: Maybe<'g/g'>;
  readonly grams: Maybe<'g'>;
  readonly millilitres: Maybe<'mL'>;
  readonly density: Maybe<'g/mL'>;
  readonly source: Portion;
  /** The solvent, or the weaker solution. */
  readonly rest: Portion;
  /** No density of the solution is known, so the solvent cannot be weighed: it is filled up to the volume. */
  readonly toTheMark: boolean;
  readonly heat: SolutionHeat;
}

/**
 * Works out a solution by mass: how much of the source and of the solvent (or of a weaker solution), and how warm it
 * gets. A volume comes from the density of the result; where there is none, the source is still known from strengths
 * per volume, and the solvent is what fills up to the mark.
 * @param given amounts in g, mL or mol; its source and weaker form of the same substance, or of a hydrate of it.
 * @returns every part by itself, so that what cannot be known leaves the rest; never throws for a wrong strength.
 */
export function makeSolution(given: SolutionAsk, reference: Reference): SolutionPlan {
  const { saturated } = given;
  const ask = saturated ? { ...given, amount: amountToMake(given.solute, saturated, given.amount, reference) } : given;
  const counted = { ...ask, ...asAnhydrous(ask.solute, ask.form, reference) };
  const whole = wholeOf(counted, reference);
  const problem = problemOf(counted, whole, reference);
  const parts = problem ? nothing(problem) : partsOf(counted, whole, reference);
  const toTheMark = !problem && !whole.grams.ok && ask.weaker === null && ask.amount.by === 'mL';
  const fraction = massFraction(ask.solute, ask.form, reference);
  const plan = { ask: counted, problem, ...whole, fraction, ...parts, toTheMark };
  const heat = problem ? unknownHeat(problem) : solutionHeat(plan, reference);
  // In the words of the person: what the strength counts is what it holds.
  return {
    ...plan,
    ask,
    solute: heldAs(ask.solute, whole),
    heat,
    ...(saturated ? { source: filled(counted, plan, reference) } : {}),
  };
}

/** The solid of a saturated solution with what stays undissolved. */
function filled({ solute, source }: SolutionAsk, plan: Whole & Parts, reference: Reference): Portion {
  const share = soluteShare(solute, source, reference);
  const { grams, millilitres } = plan.source;
  if (!grams.ok || !plan.solute.ok || !share.ok) return { grams, millilitres };
  return { grams: known(withSurplus(grams.figure, plan.solute.figure.value / share.figure.value)), millilitres };
}

interface Whole {
  readonly solute: Maybe<'g'>;
  readonly moles: Maybe<'mol'>;
  readonly grams: Maybe<'g'>;
  readonly millilitres: Maybe<'mL'>;
  readonly density: Maybe<'g/mL'>;
}

/** The solution as a whole: what it weighs, fills and holds. */
function wholeOf({ solute, form, amount }: SolutionAsk, reference: Reference): Whole {
  const { grams, millilitres, density } = amountOf(solute, form, amount, reference);
  const held = soluteIn(solute, form, amount, reference);
  return { solute: held, moles: molesOf(solute, held), grams, millilitres, density };
}

/** The solute as the strength counts it, g. */
function heldAs(solute: Facts, { moles, solute: held }: Whole): Maybe<'g'> {
  if (!moles.ok || !solute.molarMass) return held;
  const { figure } = moles;
  return known(
    computed(`${solute.name} in it`, figure.value * solute.molarMass.value, 'g', 'moles × molar mass', [
      figure,
      solute.molarMass,
    ]),
  );
}

function molesOf(solute: Facts, held: Maybe<'g'>): Maybe<'mol'> {
  if (!held.ok) return held;
  const mass = solute.molarMass;
  if (!mass) return unknown('no molar mass', { material: solute.name });
  return known(
    computed(`${solute.name}, moles`, held.figure.value / mass.value, 'mol', 'mass ÷ molar mass', [held.figure, mass]),
  );
}

/** A hair of room, so that a bottle of exactly the wanted strength counts as that and not as stronger or weaker. */
const ROUNDING = 1e-9;

function problemOf(ask: SolutionAsk, whole: Whole, reference: Reference): Why | null {
  const { solute, form, source, weaker } = ask;
  const explosive = weaker ? [source, weaker] : [source];
  if (isExplosive(solute, form, reference) || explosive.some((one) => isExplosive(one.facts, one.form, reference)))
    return why('explosive not made up', { material: solute.name });
  if (source.form.kind === 'neat' && source.facts.state === 'gas') return why('gas not weighed', { material: source.facts.name });
  for (const one of weaker ? [source, weaker] : [source]) {
    if (one.form.kind === 'solution' && !sameSolvent(one.form, form, reference))
      return why('another solvent', { material: one.facts.name, solvent: solventOf(one.form), wanted: solventOf(form) });
  }
  if (!whole.solute.ok) return whole.solute.why;
  const wanted = strengthIn(solute, { facts: solute, form }, reference);
  const has = strengthIn(solute, source, reference);
  if (!has.share.ok && !has.perMillilitre.ok) return has.share.why;
  const against = compare(has, wanted);
  if (against === -1) return why('source too weak', { material: source.facts.name });
  if (against === 0) return why('already this strength', { material: source.facts.name });
  if (!weaker) return whole.grams.ok || ask.amount.by === 'mL' ? null : whole.grams.why;
  const second = strengthIn(solute, weaker, reference);
  for (const share of [second.share, has.share, wanted.share, whole.grams]) if (!share.ok) return share.why;
  const left = compare(second, wanted);
  if (left === 0) return why('already this strength', { material: weaker.facts.name });
  return left === -1 ? null : why('second too strong', { material: weaker.facts.name });
}

interface Strengths {
  readonly share: Maybe<'g/g'>;
  readonly perMillilitre: Maybe<'g/mL'>;
}

function strengthIn(solute: Facts, one: Presented, reference: Reference): Strengths {
  return { share: soluteShare(solute, one, reference), perMillilitre: solutePerMillilitre(solute, one, reference) };
}

/** −1, 0 or 1: weaker, the same, stronger; by mass where both are known so, else by volume. Null where it cannot be told. */
function compare(one: Strengths, other: Strengths): -1 | 0 | 1 | null {
  for (const [a, b] of [
    [one.share, other.share],
    [one.perMillilitre, other.perMillilitre],
  ] as const) {
    if (!a.ok || !b.ok) continue;
    const difference = a.figure.value - b.figure.value;
    if (Math.abs(difference) <= ROUNDING * b.figure.value) return 0;
    return difference < 0 ? -1 : 1;
  }
  return null;
}

function why(code: string, values: Why['values']): Why {
  return { code, values };
}

interface Parts {
  readonly source: Portion;
  readonly rest: Portion;
}

function nothing(problem: Why): Parts {
  const none = { grams: { ok: false, why: problem }, millilitres: { ok: false, why: problem } } as const;
  return { source: none, rest: none };
}

function partsOf(ask: SolutionAsk, whole: Whole, reference: Reference): Parts {
  const { solute, source, weaker } = ask;
  const share = soluteShare(solute, source, reference);
  if (weaker) return blended(ask, weaker, whole, share, reference);
  if (!whole.solute.ok) return nothing(whole.solute.why);
  const held = whole.solute.figure;
  const grams: Maybe<'g'> = share.ok
    ? known(
        computed(`${source.facts.name} to take`, held.value / share.figure.value, 'g', 'solute needed ÷ mass fraction', [
          held,
          share.figure,
        ]),
      )
    : share;
  return {
    source: { grams, millilitres: sourceVolume(ask, held, grams, reference) },
    rest: solventPortion(ask, whole.grams, grams, reference),
  };
}

function sourceVolume(ask: SolutionAsk, held: Figure<'g'>, grams: Maybe<'g'>, reference: Reference): Maybe<'mL'> {
  if (ask.source.form.kind === 'neat') {
    if (ask.source.facts.state === 'solid') return unknown('weighed, not measured', { material: ask.source.facts.name });
    return grams.ok ? volumeOf(grams.figure, ask.source, reference) : grams;
  }
  const per = solutePerMillilitre(ask.solute, ask.source, reference);
  if (!per.ok) return per;
  const label = `${ask.source.facts.name} to take, volume`;
  return known(computed(label, held.value / per.figure.value, 'mL', 'solute needed ÷ grams per millilitre', [held, per.figure]));
}

function solventPortion(ask: SolutionAsk, whole: Maybe<'g'>, source: Maybe<'g'>, reference: Reference): Portion {
  if (!whole.ok || !source.ok) {
    const none = whole.ok ? source : whole;
    return { grams: none as Maybe<'g'>, millilitres: none as Maybe<'mL'> };
  }
  const name = solventOf(ask.form);
  const value = whole.figure.value - source.figure.value;
  const grams = computed(`${name} to add`, value, 'g', 'mass of the solution − mass taken', [whole.figure, source.figure]);
  const solvent = { facts: dissolvedIn(ask.form, reference), form: NEAT };
  return { grams: known(grams), millilitres: volumeOf(grams, solvent, reference) };
}

/** Two strengths to a third, by mass. */
function blended(ask: SolutionAsk, weaker: Presented, whole: Whole, share: Maybe<'g/g'>, reference: Reference): Parts {
  const second = soluteShare(ask.solute, weaker, reference);
  const wanted = massFraction(ask.solute, ask.form, reference);
  for (const one of [second, share, wanted, whole.grams]) if (!one.ok) return nothing(one.why);
  if (!second.ok || !share.ok || !wanted.ok || !whole.grams.ok) return nothing(why('no amount', { material: ask.solute.name }));
  const to = Math.min(Math.max(wanted.figure.value, second.figure.value), share.figure.value);
  const parts = blend(whole.grams.figure.value, { strong: share.figure.value, weak: second.figure.value, to });
  const of = [whole.grams.figure, wanted.figure, share.figure, second.figure];
  const portion = (label: string, value: number, how: string, from: Presented): Portion => {
    const grams = computed(label, value, 'g', how, of);
    return { grams: known(grams), millilitres: volumeOf(grams, from, reference) };
  };
  return {
    source: portion(
      `${ask.source.facts.name}, the stronger`,
      parts.strong,
      'whole × (wanted − weaker) ÷ (stronger − weaker)',
      ask.source,
    ),
    rest: portion(`${weaker.facts.name}, the weaker`, parts.weak, 'whole × (stronger − wanted) ÷ (stronger − weaker)', weaker),
  };
}
