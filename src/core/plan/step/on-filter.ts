import { rememberLast } from '../../remember.ts';
import type { Charge, PlainRule, Removal, Stage, Step } from '../../route/route.ts';

/** Ids of the charges that are poured on a filter: they run off through it and do not enter the vessel. */
export type OnFilter = ReadonlySet<string>;

/**
 * Charges of a step that wash a solid on its filter: after a filtration that keeps the solid, in the same stage, by a
 * rule of washings, without a hold (that would be a slurry, or a recrystallisation), until the next removal that keeps
 * the solid too. In doubt a charge counts in the vessel: what is added over a time, to an end point by its equivalents,
 * a reactant that comes in for the first time, and solutions that follow one another (dissolved and thrown out again).
 */
export const onFilter = rememberLast((step: Step): OnFilter => {
  const washes = new Set<string>();
  const charged = new Set<string>();
  /** The stage in which the solid lies on a filter. */
  let cake: Stage | null = null;
  let waiting: Charge[] = [];
  const settle = (): void => {
    if (areWashes(waiting)) for (const { id } of waiting) washes.add(id);
    waiting = [];
  };
  for (const operation of step.operations) {
    if (cake !== null && operation.stage !== cake) {
      settle();
      cake = null;
    }
    if (operation.do === 'charge') {
      const first = !charged.has(operation.material) && step.equation.uses.some((one) => one.material === operation.material);
      charged.add(operation.material);
      if (cake !== null && (first || !isWash(operation))) [cake, waiting] = [null, []];
      if (cake !== null) waiting.push(operation);
    } else if (operation.do === 'hold') {
      if (waiting.length > 0) [cake, waiting] = [null, []];
    } else if (operation.how !== 'vent') {
      const keeps = keepsSolid(operation, step);
      if (keeps || operation.how === 'dry') settle();
      waiting = [];
      cake = (operation.how === 'filter' || (operation.how === 'wash away' && cake !== null)) && keeps ? operation.stage : null;
    }
  }
  settle();
  return washes;
});

/** Whether what stays behind is a solid: the liquid is taken, and no solid, product or basis is. */
function keepsSolid({ takes }: Removal, { product, basis }: Step): boolean {
  const solid = new Set(['solids', product, basis]);
  return takes.length > 0 && takes.every(({ what }) => !solid.has(what));
}

const WASHES_BY: ReadonlySet<PlainRule['kind']> = new Set(['volumes', 'molar volume', 'mass ratio', 'per batch']);

function isWash({ rule, form, overMinutes, knownAddition }: Charge): boolean {
  if (overMinutes !== undefined || knownAddition) return false;
  if (rule.kind !== 'until') return WASHES_BY.has(rule.kind);
  // A solution that goes in until a pH is reached dissolves a solid, or throws it out.
  return WASHES_BY.has(rule.estimate.kind) && form?.kind !== 'solution';
}

function areWashes(charges: readonly Charge[]): boolean {
  return charges.length < 2 || charges.every(({ form }) => form?.kind !== 'solution');
}
