import type { PlanResult } from '../plan/result.ts';

/** What a plan counts on of a bottle, in the bottle's unit; told, never enforced. */
export interface Claim {
  readonly plan: number;
  readonly name: string;
  readonly amount: number;
  readonly unit: 'g' | 'mL';
}

/** A plan as worked out on today's shelf. */
export interface PlannedPlan {
  readonly id: number;
  readonly name: string;
  readonly result: PlanResult;
}

/** Which plans count on each bottle: what they take as it stands, and what their make-ups take. By bottle label. */
export function claimsOf(plans: readonly PlannedPlan[]): ReadonlyMap<string, readonly Claim[]> {
  const claims = new Map<string, Claim[]>();
  for (const { id, name, result } of plans) {
    const taken = new Map<string, { amount: number; unit: 'g' | 'mL' }>();
    const shares = [
      ...result.fetch.flatMap((line) => line.bottles),
      ...result.makeUps.flatMap((makeUp) => makeUp.parts.map((part) => part.from)),
    ];
    for (const { bottle, amount, unit } of shares) {
      taken.set(bottle, { unit, amount: (taken.get(bottle)?.amount ?? 0) + amount });
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
