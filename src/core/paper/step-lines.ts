import type { ChargePlan, FetchLine, PlanResult } from '../plan/result.ts';
import { computed } from '../quantity/figure.ts';
import { nameOf } from './context.ts';

/**
 * What earlier steps hand over, as lines of the fetch list: the dish has to be fetched like any bottle. Stock of the
 * same material has lines of its own and is taken off.
 */
export function stepLines(result: PlanResult): readonly FetchLine[] {
  const listed = new Set(result.fetch.filter((line) => line.status === 'from a step').map((line) => line.material));
  return result.steps.flatMap((step) => {
    if (!step.active) return [];
    return step.operations.flatMap((charge) => {
      if (charge.kind !== 'charge' || charge.supply.kind !== 'step' || listed.has(charge.material)) return [];
      // Of its own dish nothing is there to fetch: what it must have in hand is a line of the plan's own.
      if (charge.supply.step === step.id) return [];
      const line = lineOf(charge, step.id, result);
      return line ? [line] : [];
    });
  });
}

function lineOf(charge: ChargePlan, step: string, result: PlanResult): FetchLine | null {
  if (charge.supply.kind !== 'step') return null;
  const exact = charge.total.by === 'volume' ? charge.millilitres : (charge.grams ?? charge.millilitres);
  if (!exact) return null;
  // As the sheets take it: the rounded batch, as often as there are batches.
  const whole = charge.total.unit === exact.unit && charge.total.exact ? { ...exact, value: charge.total.target } : exact;
  const stock = charge.supply.bottles
    .filter((bottle) => bottle.unit === whole.unit)
    .reduce((sum, bottle) => sum + bottle.amount, 0);
  const name = nameOf(result, charge.material);
  const need = computed<'g' | 'mL'>(
    `${name} from an earlier step`,
    Math.max(0, whole.value - stock),
    whole.unit,
    'need − stock',
    [whole],
  );
  if (need.value <= whole.value * 1e-9) return null;
  return {
    id: `step ${step}/${charge.id}`,
    material: charge.material,
    name,
    form: charge.form,
    formWords: charge.formWords,
    unit: whole.unit,
    need,
    peak: need,
    onHand: need,
    short: null,
    status: 'from a step',
    place: '',
    bottles: [],
    passedOver: [],
    others: [],
    makeUp: null,
    uses: [{ step, operation: charge.id, amount: need.value }],
  };
}
