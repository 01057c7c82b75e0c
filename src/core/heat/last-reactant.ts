import type { Charge, Step } from '../route/route.ts';

/** The charge with which the last material of the equation comes in: from there on the reaction gives its heat. */
export function lastReactant({ equation, operations }: Step): Charge | null {
  const waiting = new Set(equation.uses.map((term) => term.material));
  let last: Charge | null = null;
  for (const operation of operations) {
    if (operation.do === 'charge' && waiting.delete(operation.material)) last = operation;
  }
  return last;
}

/** Whether a charge goes in slowly: over some minutes, in portions, or until something shows. */
export function isSlow({ overMinutes, portions, rule }: Charge): boolean {
  return overMinutes !== undefined || (portions ?? 1) > 1 || rule.kind === 'until';
}

/**
 * The highest temperature the procedure allows while the reaction runs, °C: the top of the windows of the charge that
 * starts it, of what is held after it and of what else is charged, until its stage ends or something is taken away.
 * Null where the procedure names none; no temperature is assumed.
 */
export function hottestWhileReacting(step: Step, feed: Charge): number | null {
  const from = step.operations.findIndex((one) => one.id === feed.id);
  const tops: number[] = [];
  for (const operation of step.operations.slice(from)) {
    if (operation.stage !== feed.stage || operation.do === 'removal') break;
    if (operation.temperature) tops.push(operation.temperature.to);
  }
  return tops.length === 0 ? null : Math.max(...tops);
}
