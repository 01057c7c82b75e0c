import type { PlanResult } from '../plan/result.ts';
import type { OfBottle } from './at-bench.ts';

/** What a plan counts on of a bottle, in the bottle's unit; told, never enforced. */
export interface Claim {
  readonly plan: number;
  readonly name: string;
  /** All that is still to be taken. */
  readonly amount: number;
  readonly unit: 'g' | 'mL';
  /** Of it, what a batch that is being weighed is still to take. */
  readonly atBench: number;
}

/** A plan as worked out on today's shelf, without the batches that are being weighed. */
export interface PlannedPlan {
  readonly id: number;
  readonly name: string;
  readonly result: PlanResult;
  /** What the batches that are being weighed are still to take. */
  readonly atBench?: readonly OfBottle[];
}

/**
 * Which plans count on each bottle: what they take as it stands, what their make-ups take, and what batches being weighed
 * are still to take. By bottle label.
 */
export function claimsOf(plans: readonly PlannedPlan[]): ReadonlyMap<string, readonly Claim[]> {
  const claims = new Map<string, Claim[]>();
  for (const { id, name, result, atBench = [] } of plans) {
    const taken = new Map<string, { amount: number; unit: 'g' | 'mL'; atBench: number }>();
    const shares: readonly (OfBottle & { readonly bench?: boolean })[] = [
      ...result.fetch.flatMap((line) => line.bottles),
      ...result.makeUps.flatMap((makeUp) => makeUp.parts.map((part) => part.from)),
      ...atBench.map((one) => ({ ...one, bench: true })),
    ];
    for (const { bottle, amount, unit, bench = false } of shares) {
      const before = taken.get(bottle) ?? { amount: 0, atBench: 0 };
      taken.set(bottle, { unit, amount: before.amount + amount, atBench: before.atBench + (bench ? amount : 0) });
    }
    for (const [bottle, one] of taken) claims.set(bottle, [...(claims.get(bottle) ?? []), { plan: id, name, ...one }]);
  }
  return claims;
}

/** What plans need of a material, by CAS number or name: who could use up a bottle of it. */
export function plansNeeding(
  plans: readonly PlannedPlan[],
  same: (plan: PlannedPlan, material: string) => boolean,
): readonly { readonly plan: PlannedPlan; readonly lines: PlanResult['fetch'] }[] {
  return plans.flatMap((plan) => {
    const lines = plan.result.fetch.filter((line) => same(plan, line.material) && line.need.value > 0);
    return lines.length === 0 ? [] : [{ plan, lines }];
  });
}
