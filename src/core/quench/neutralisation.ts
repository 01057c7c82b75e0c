import type { BenchInput } from '../bench/bench-section.ts';
import { type Contents, NOTHING } from '../bench/contents.ts';
import type { Moment } from '../bench/moments.ts';
import type { Facts } from '../matter/facts.ts';
import { type Amount, amountOf } from '../plan/amounts.ts';
import type { ChargePlan } from '../plan/result.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import { endPHOf } from '../route/end-ph.ts';
import type { Charge } from '../route/route.ts';
import { type Maybe, unknown } from '../words/why.ts';
import {
  acidEquivalents,
  cannotReach,
  isCarbonate,
  isHydrolysed,
  neutralisingMoles,
  poisonOf,
  protonsGiven,
} from './neutralise.ts';

/** The pH that is reckoned with where a charge of a base or acid names none. Common practice, no source. */
export const USUAL_END = 7;

/** A charge that neutralises what is in the vessel, one batch. */
export interface Neutralisation {
  readonly charge: ChargePlan;
  readonly facts: Facts;
  readonly endPH: number;
  /** False where the charge does not say to which pH. */
  readonly said: boolean;
  readonly agent: 'base' | 'acid';
  readonly before: Contents;
  /** What it has to neutralise: above 0 acid, below 0 base. */
  readonly there: Maybe<'mol'>;
  /** Of the charge, without excess. */
  readonly needed: Maybe<'mol'>;
  /** The same at the strength on hand, with the excess that the rule names. */
  readonly asked: Amount | null;
  /** What goes in by the plan, one batch; what is asked for where the plan has none. */
  readonly goesIn: Amount | null;
  readonly excessPercent: number;
  /** Planned for one batch, mol; null where not known. */
  readonly planned: Figure<'mol'> | null;
  /** Largest amount, as a multiple of the planned one. */
  readonly atMost: number;
}

/** The charges of a step that neutralise: the rule itself, and any base that meets acid or acid that meets base. */
export function neutralisationsOf(of: BenchInput, moments: readonly Moment[]): readonly Neutralisation[] {
  return of.plan.operations.flatMap((operation, index): readonly Neutralisation[] => {
    if (operation.kind !== 'charge') return [];
    const charge = of.step.operations.find((one): one is Charge => one.do === 'charge' && one.id === operation.id);
    const facts = of.facts.get(operation.material);
    const found = charge && facts && neutralisation(of, charge, operation, facts, moments[index]?.before ?? NOTHING);
    return found ? [found] : [];
  });
}

function neutralisation(of: BenchInput, charge: Charge, plan: ChargePlan, facts: Facts, before: Contents): Neutralisation | null {
  const { reference } = of;
  const plain = charge.rule.kind === 'until' ? charge.rule.estimate : charge.rule;
  const rule = plain.kind === 'to neutralise' ? plain : null;
  const stated = statedEnd(charge, facts, reference);
  const endPH = stated ?? USUAL_END;
  const gives = protonsGiven(facts, endPH, reference);
  if (!rule && (!gives.ok || cannotReach(facts, gives.figure.value, endPH, reference))) return null;
  const there = acidEquivalents(before, endPH, reference);
  if (!rule && !isQuench(of, charge, before, there.ok)) return null;
  // What would free a poison is no quench of anything; asked for by its rule, it is refused with the reason.
  if (!rule && poisonOf(facts, reference) !== null) return null;
  // A carbonate is a base also at a pH that it cannot reach.
  const base = !gives.ok || gives.figure.value < 0 || isCarbonate(facts, reference);
  if (!rule && (before.length === 0 || (there.ok && (base ? there.figure.value <= 0 : there.figure.value >= 0)))) return null;
  if (!rule && there.ok && gives.ok && isTrace(there.figure.value, plan, gives.figure.value, of)) return null;
  const needed = neutralisingMoles(before, facts, { endPH }, reference);
  const withExcess = neutralisingMoles(before, facts, { endPH, excessPercent: rule?.excessPercent }, reference);
  const amount = (figure: Figure<'mol'>): Amount => amountOf(facts, plan.form, { by: 'mol', figure }, reference);
  const asked = withExcess.ok ? amount(withExcess.figure) : null;
  const planned = plan.moles && perBatch(plan.moles, of.plan.batches.count);
  return {
    charge: plan,
    facts,
    endPH,
    said: stated !== null,
    agent: base ? 'base' : 'acid',
    before,
    there,
    needed,
    asked,
    goesIn: rule || !planned ? asked : amount(planned),
    excessPercent: rule?.excessPercent ?? 0,
    planned,
    atMost: plan.atMost ?? 1,
  };
}

/** The pH that a charge names; null where it names none, or one that this base or acid cannot reach without a rule to say so. */
function statedEnd({ rule }: Charge, facts: Facts, reference: Reference): number | null {
  const end = endPHOf(rule);
  if (end === null || rule.kind === 'to neutralise') return end;
  const gives = protonsGiven(facts, end, reference);
  return rule.kind === 'until' && gives.ok && cannotReach(facts, gives.figure.value, end, reference) ? null : end;
}

/**
 * Whether a base or acid without a rule of its own neutralises. During the reaction only what is an acid or base itself
 * counts: a base that the equation uses is no quench, and a halide that is to react is not hydrolysed.
 */
function isQuench({ step, reference }: BenchInput, charge: Charge, before: Contents, known: boolean): boolean {
  if (charge.stage !== 'reaction') return true;
  if (!known || step.equation.uses.some((term) => term.material === charge.material)) return false;
  return !before.some((one) => one.moles?.value !== 0 && isHydrolysed(one.facts, reference));
}

/** Whether less is planned than what is there asks for. */
export function fallsShort({ planned, needed }: Neutralisation): boolean {
  return planned !== null && needed.ok && planned.value < needed.figure.value;
}

/** What neutralises of what goes in: as much as is asked for, or all there is of it. */
export function neutralising(one: Neutralisation): Amount | null {
  return fallsShort(one) ? one.goesIn : one.asked;
}

/** Less than this part of what goes in is no quench: a very weak base meets an acid in passing. */
const TRACE = 1e-3;

function isTrace(there: number, { moles }: ChargePlan, gives: number, { plan }: BenchInput): boolean {
  return moles !== null && Math.abs(there) < (TRACE * Math.abs(gives) * moles.value) / plan.batches.count;
}

function perBatch(moles: Figure<'mol'>, batches: number): Figure<'mol'> {
  return computed(`${moles.label}, one batch`, moles.value / batches, 'mol', 'whole step ÷ batches', [moles]);
}

/** A part of an amount that may not be known, or why not. */
export function partOf<U extends 'g' | 'mL'>(amount: Amount | null, unit: U, missing: Maybe<'mol'>): Maybe<U> {
  if (!amount) return missing.ok ? unknown('no amount', { material: '' }) : missing;
  return (unit === 'g' ? amount.grams : amount.millilitres) as Maybe<U>;
}
