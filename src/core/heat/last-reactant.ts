import type { BenchInput } from '../bench/bench-section.ts';
import { topOf } from '../bench/window-top.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import type { Charge, Step } from '../route/route.ts';
import { known, type Maybe, unknown } from '../words/why.ts';

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
 * No temperature is assumed: why not, where the procedure names none, or boils what has no known boiling point.
 */
export function hottestWhileReacting(of: BenchInput, feed: Charge): Maybe<'°C'> {
  const { operations } = of.step;
  const from = operations.findIndex((one) => one.id === feed.id);
  const tops: Figure<'°C'>[] = [];
  for (const operation of operations.slice(from)) {
    if (operation.stage !== feed.stage || operation.do === 'removal') break;
    if (!operation.temperature) continue;
    const top = topOf(operation.temperature, operation.id, of);
    if (!top.ok) return top;
    tops.push(top.figure);
  }
  const [hottest] = tops.toSorted((one, other) => other.value - one.value);
  if (!hottest) return unknown('no temperature window');
  return known(computed('highest temperature the procedure allows', hottest.value, '°C', 'the windows of the step', [hottest]));
}
