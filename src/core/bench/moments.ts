import { computed, type Figure } from '../quantity/figure.ts';
import type { ChargePlan } from '../plan/result.ts';
import type { BenchInput } from './bench-section.ts';
import { type Contents, type ContentsContext, NOTHING, react, withCharge, withoutRemoved, withSolvent } from './contents.ts';

/** The vessel of one batch around one operation. */
export interface Moment {
  /** Id of the operation. */
  readonly operation: string;
  readonly before: Contents;
  /** With the charge in it, before anything reacts; as `before` for holds and removals. */
  readonly mixed: Contents;
  readonly after: Contents;
  /** mol of reaction by the equation that took place here. */
  readonly extent: number;
  /** Gases of the equation that left here, by key, one batch. */
  readonly freed: ReadonlyMap<string, Figure<'mol'>>;
  /** What a removal took. */
  readonly taken: Contents;
}

/**
 * What is in the vessel before and after each operation of one batch: the charges of the plan, the equation at full
 * conversion once its last reactant is in, removals by what they take. Pure; what is not known stays null.
 */
export function momentsOf(of: Pick<BenchInput, 'plan' | 'step' | 'facts' | 'reference'>): readonly Moment[] {
  const context: ContentsContext = { step: of.step, facts: of.facts, reference: of.reference };
  const { count } = of.plan.batches;
  const basisGrams = of.plan.batches.basisGrams.value;
  const moments: Moment[] = [];
  let now: Contents = NOTHING;
  for (const operation of of.plan.operations) {
    const before = now;
    const still = { extent: 0, freed: new Map<string, Figure<'mol'>>(), taken: NOTHING };
    if (operation.kind === 'charge') {
      const mixed = charged(before, operation, count, context);
      const { contents, extent, freed } = react(mixed, context, operation.id);
      now = contents;
      moments.push({ operation: operation.id, before, mixed, after: now, extent, freed, taken: NOTHING });
    } else if (operation.kind === 'removal') {
      const removed = withoutRemoved(before, operation.removal, basisGrams, context);
      now = removed.contents;
      moments.push({ ...still, operation: operation.removal.id, before, mixed: before, after: now, taken: removed.taken });
    } else moments.push({ ...still, operation: operation.hold.id, before, mixed: before, after: before });
  }
  return moments;
}

function charged(contents: Contents, charge: ChargePlan, batches: number, context: ContentsContext): Contents {
  const facts = context.facts.get(charge.material);
  if (!facts) return contents;
  const { form, carried } = charge;
  const moles = charge.moles && perBatch(charge.moles, batches);
  const grams = charge.grams === null ? null : charge.grams.value / batches;
  const millilitres = charge.millilitres === null ? roomOf(facts.solidDensity, grams) : charge.millilitres.value / batches;
  const there = carried ? withSolvent(contents, carried.material, carried.millilitres.value / batches, context) : contents;
  return withCharge(there, { material: charge.material, facts, form, moles, grams, millilitres }, context);
}

function roomOf(density: Figure | null, grams: number | null): number | null {
  return density && grams !== null ? grams / density.value : null;
}

function perBatch(moles: Figure<'mol'>, batches: number): Figure<'mol'> {
  if (batches === 1) return moles;
  return computed(`${moles.label}, one batch`, moles.value / batches, 'mol', 'whole step ÷ batches', [moles]);
}
