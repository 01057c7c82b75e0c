import type { BenchInput } from '../bench/bench-section.ts';
import type { Facts } from '../matter/facts.ts';
import { type Form, NEAT } from '../matter/form.ts';
import type { ChargePlan } from '../plan/result.ts';
import { computed, type Figure, entered } from '../quantity/figure.ts';
import type { Charge } from '../route/route.ts';
import { type Maybe, known, unknown } from '../words/why.ts';

/** One material that a charge brings into one batch: the charge itself, or the solvent that comes along with it. */
export interface Charged {
  /** The charge it belongs to, as the route has it and as it is planned. */
  readonly charge: Charge;
  readonly facts: Facts;
  readonly form: Form;
  readonly grams: Maybe<'g'>;
  /** Of the active material. */
  readonly moles: Figure<'mol'> | null;
  readonly liquid: boolean;
}

/** What one charge brings into one batch; nothing where the plan does not have it. */
export function chargedBy(charge: Charge, { plan, facts }: BenchInput): readonly Charged[] {
  const planned = plan.operations.find((one): one is ChargePlan => one.kind === 'charge' && one.id === charge.id);
  const own = facts.get(charge.material);
  if (!planned || !own) return [];
  const count = plan.batches.count;
  const missing = planned.moles || planned.millilitres ? 'mass not known' : 'no amount';
  const grams = planned.grams ? known(ofOneBatch(planned.grams, count)) : unknown(missing, { material: own.name });
  const liquid = planned.form.kind === 'solution' || own.state === 'liquid';
  const moles = planned.moles && ofOneBatch(planned.moles, count);
  const first: Charged = { charge, facts: own, form: planned.form, grams, moles, liquid };
  const along = planned.carried && facts.get(planned.carried.material);
  if (!planned.carried || !along) return [first];
  const density = along.liquidDensity;
  const volume = ofOneBatch(planned.carried.millilitres, count);
  const mass: Maybe<'g'> = density
    ? known(computed(`mass of ${along.name}`, volume.value * density.value, 'g', 'millilitres × density', [volume, density]))
    : unknown('no density', { material: along.name });
  return [first, { charge, facts: along, form: NEAT, grams: mass, moles: null, liquid: true }];
}

/** A figure of the whole step, for one of its equal batches. */
export function ofOneBatch<U extends Figure['unit']>(figure: Figure<U>, count: number): Figure<U> {
  if (count === 1) return figure;
  return computed(`${figure.label}, one batch`, figure.value / count, figure.unit, 'of the step ÷ batches', [
    figure,
    entered('batches', count, '', 'the plan'),
  ]);
}
