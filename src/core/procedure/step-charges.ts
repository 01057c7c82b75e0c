import type { Charge, ChargeRule, PlainRule, Step } from '../route/route.ts';

/** The charges of a step, in order. */
export function chargesOf(step: Step): readonly Charge[] {
  return step.operations.flatMap((operation) => (operation.do === 'charge' ? [operation] : []));
}

/** The rule that fixes the amount: the estimate of an "until". */
export function plain(rule: ChargeRule): PlainRule {
  return rule.kind === 'until' ? rule.estimate : rule;
}

/** A rule with this ratio in it: the estimate of an "until", else the rule itself. */
export function inside(rule: ChargeRule, made: PlainRule): ChargeRule {
  return rule.kind === 'until' ? { ...rule, estimate: made } : made;
}

/** The step with another rule for one charge. */
export function withRule(step: Step, operation: string, rule: ChargeRule): Step {
  return {
    ...step,
    operations: step.operations.map((one) => (one.do === 'charge' && one.id === operation ? { ...one, rule } : one)),
  };
}
