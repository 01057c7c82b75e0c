import { lastReactant } from '../../heat/last-reactant.ts';
import type { Facts } from '../../matter/facts.ts';
import { isCarbonate } from '../../quench/neutralise.ts';
import type { Reference } from '../../reference.ts';
import { rememberLast } from '../../remember.ts';
import type { Charge, Stage, Step } from '../../route/route.ts';

/** Stages in which gas comes off for certain, as far as the plan looks: they are half full at most. */
export type GasStages = ReadonlySet<Stage>;

/**
 * Stages of a step that free gas: that of the last reactant where the equation makes a gas, and those in which a carbonate
 * neutralises, or is neutralised. What else may free gas is said by the section of the vessel.
 */
export const gasStages = rememberLast((step: Step, facts: ReadonlyMap<string, Facts>, reference: Reference): GasStages => {
  const stages = new Set<Stage>();
  const last = step.equation.makes.some((term) => term.gas) ? lastReactant(step) : null;
  if (last) stages.add(last.stage);
  const charges = step.operations.filter((one): one is Charge => one.do === 'charge');
  if (!charges.some(neutralises)) return stages;
  let carbonateThere = false;
  for (const charge of charges) {
    const own = facts.get(charge.material);
    const carbonate = own !== undefined && isCarbonate(own, reference);
    if (neutralises(charge) && (carbonate || carbonateThere)) stages.add(charge.stage);
    carbonateThere ||= carbonate;
  }
  return stages;
});

function neutralises({ rule }: Charge): boolean {
  return (rule.kind === 'until' ? rule.estimate : rule).kind === 'to neutralise';
}
