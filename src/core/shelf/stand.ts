import { natureOf } from '../bench/nature.ts';
import { solventOf } from '../matter/form.ts';
import { sameSolvent } from '../matter/named.ts';
import type { Reference } from '../reference.ts';
import type { Settings } from '../plan/settings.ts';
import type { Demand } from './demand.ts';
import { type Service, serviceOf } from './serve.ts';
import type { Bottle } from './shelf.ts';
import { assayPercent, byExpiry, type PassedOver, whyNotUsable } from './usable.ts';

/** A bottle that would serve, or could be thinned, but for a reason. */
export interface PassedBottle {
  readonly bottle: Bottle;
  readonly why: PassedOver;
  /** How it stands to what is asked for; `no` where its strength is not known. */
  readonly service: Service;
}

/** How the bottles of a material stand to a line of the fetch list, each list first to expire first. */
export interface Stand {
  readonly serving: readonly Bottle[];
  /** Stronger, where a make-up may be proposed. */
  readonly stronger: readonly Bottle[];
  readonly passedOver: readonly PassedBottle[];
  /** Solutions of it in another solvent than asked for, usable but for that. */
  readonly otherSolvent: readonly Bottle[];
  /** Entered in a form that cannot serve (a solution where the neat material is asked for, or too weak a one), usable but for that. */
  readonly otherForm: readonly Bottle[];
}

/** What else than the demands decides it. */
export interface StandInput {
  readonly asOf: string;
  readonly heldBack: ReadonlySet<string>;
  readonly settings: Settings;
  readonly reference: Reference;
}

/**
 * Sorts the bottles of a material by what they are to demands of one form. What is too impure is that even when it is
 * also past its date: no test would make it serve. What could only be thinned, and may not be, is left out.
 */
export function standOf(demands: readonly Demand[], bottles: readonly Bottle[], input: StandInput): Stand {
  const first = demands[0] as Demand;
  const leastAssay = demands.reduce((most, demand) => Math.max(most, demand.leastAssayPercent), 0);
  const thins = thinnable(first, input.reference);
  const serving: Bottle[] = [];
  const stronger: Bottle[] = [];
  const passedOver: PassedBottle[] = [];
  const otherSolvent: Bottle[] = [];
  const otherForm: Bottle[] = [];
  for (const bottle of bottles.toSorted(byExpiry)) {
    const unknown = bottle.form.kind === 'unknown' && first.form.kind !== 'neat';
    const service = serviceOf(bottle, first.form, first.facts, input.settings.strengthMatchPercent, input.reference);
    const not = whyNotUsable(bottle, input.asOf, input.heldBack);
    if (service === 'no' && not === null)
      (inOtherSolvent(bottle, first, input.reference) ? otherSolvent : otherForm).push(bottle);
    if (!unknown && (service === 'no' || (service === 'stronger' && !thins))) continue;
    const impure = bottle.form.kind === 'neat' && assayPercent(bottle) < leastAssay;
    const why = impure && not !== 'unknown strength' ? 'assay too low' : not;
    if (why) passedOver.push({ bottle, why, service });
    else if (service === 'serves') serving.push(bottle);
    else stronger.push(bottle);
  }
  return { serving, stronger, passedOver, otherSolvent, otherForm };
}

function inOtherSolvent({ form }: Bottle, { form: asked }: Demand, reference: Reference): boolean {
  return form.kind === 'solution' && asked.kind === 'solution' && !sameSolvent(form, asked, reference);
}

/** Whether a make-up may be proposed: in water only, and never of what water reacts with. */
function thinnable(demand: Demand, reference: Reference): boolean {
  if (demand.form.kind !== 'solution' || solventOf(demand.form) !== 'water') return false;
  return !natureOf(demand.facts, reference).groups.includes('water-reactive');
}
