import { hydrolysisOf } from '../matter/acidity.ts';
import type { Facts } from '../matter/facts.ts';
import type { Reference } from '../reference.ts';
import type { Charge, Step } from '../route/route.ts';
import { chartGroupsOf, WATER_REACTIVE } from './chart.ts';
import { isStrongAcid, isStrongBase, natureOf } from './nature.ts';

export interface StartContext {
  readonly step: Step;
  /** By the route's key of a material. */
  readonly facts: ReadonlyMap<string, Facts>;
  readonly reference: Reference;
}

/**
 * The charge at which the equation is taken to begin: that which brings its last reactant in for the first time. Where the
 * basis is all that the equation uses, what makes it react goes in after it (an acid that takes a group off): the last
 * charge that follows it at once, before anything is held, taken out or another stage begins. Where the last is water that
 * nothing there reacts with by itself, it waits in the same way for a strong acid or base. Null where none is charged.
 */
export function reactionStart(context: StartContext): Charge | null {
  const { step } = context;
  const waiting = new Set(step.equation.uses.map((term) => term.material));
  const brought: Charge[] = [];
  for (const operation of step.operations) {
    if (operation.do === 'charge' && waiting.delete(operation.material)) brought.push(operation);
  }
  const last = brought.at(-1);
  if (!last) return null;
  if (brought.length === 1) return atOnce(step, last).at(-1) ?? last;
  if (!waterWaits(last, brought.slice(0, -1), context)) return last;
  return atOnce(step, last).findLast((one) => isStrong(one, context)) ?? last;
}

/** The charges of the same stage that follow one before anything else is done. */
function atOnce({ operations }: Step, charge: Charge): readonly Charge[] {
  const rest = operations.slice(operations.indexOf(charge) + 1);
  const end = rest.findIndex((one) => one.do !== 'charge' || one.stage !== charge.stage);
  return (end < 0 ? rest : rest.slice(0, end)).filter((one): one is Charge => one.do === 'charge');
}

function waterWaits(last: Charge, others: readonly Charge[], { facts, reference }: StartContext): boolean {
  const water = facts.get(last.material);
  if (!water || !natureOf(water, reference).water) return false;
  return others.every(({ material }) => {
    const one = facts.get(material);
    if (!one || chartGroupsOf(one, reference).includes(WATER_REACTIVE)) return false;
    return !hydrolysisOf(one, reference).some(({ meets }) => meets === 'water');
  });
}

function isStrong({ material }: Charge, { facts, reference }: StartContext): boolean {
  const one = facts.get(material);
  const nature = one && natureOf(one, reference);
  return nature !== undefined && (isStrongAcid(nature) || isStrongBase(nature));
}

/** Whether an operation comes before the equation begins. @param operation its id. */
export function isBeforeStart(operation: string, context: StartContext): boolean {
  const start = reactionStart(context);
  const at = (id: string): number => context.step.operations.findIndex((one) => one.id === id);
  return start !== null && at(operation) < at(start.id);
}
