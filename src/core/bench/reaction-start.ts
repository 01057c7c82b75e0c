import type { Charge, Step } from '../route/route.ts';

/**
 * The charge at which the equation is taken to begin: that which brings its last reactant in for the first time. Where the
 * basis is all that the equation uses, what makes it react goes in after it (an acid that takes a group off): the last
 * charge that follows it at once, before anything is held, taken out or another stage begins. Null where none is charged.
 */
export function reactionStart({ equation, operations }: Step): Charge | null {
  const waiting = new Set(equation.uses.map((term) => term.material));
  const brought: Charge[] = [];
  for (const operation of operations) {
    if (operation.do === 'charge' && waiting.delete(operation.material)) brought.push(operation);
  }
  const last = brought.at(-1);
  if (!last || brought.length > 1) return last ?? null;
  let start = last;
  for (const operation of operations.slice(operations.indexOf(last) + 1)) {
    if (operation.do !== 'charge' || operation.stage !== last.stage) break;
    start = operation;
  }
  return start;
}

/** Whether an operation comes before the equation begins. @param operation its id. */
export function isBeforeStart(operation: string, step: Step): boolean {
  const start = reactionStart(step);
  const at = (id: string): number => step.operations.findIndex((one) => one.id === id);
  return start !== null && at(operation) < at(start.id);
}
