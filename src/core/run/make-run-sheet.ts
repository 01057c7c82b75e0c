import { factsOf } from '../matter/facts.ts';
import { type PaperContext, stepOf } from '../paper/context.ts';
import { sessionOf } from '../paper/session.ts';
import { weighingSheet } from '../paper/weighing-sheet.ts';
import type { PlanInput } from '../plan/input.ts';
import type { BottleShare, ChargePlan, OperationPlan } from '../plan/result.ts';
import type { Step } from '../route/route.ts';
import type { RunCharge, RunSheet, RunTemperature } from './run-sheet.ts';

/**
 * What a run of one batch starts with: its weighing sheet as it would be printed now, and the numbers behind it.
 * @param batch 1 … the number of batches of the step.
 * @throws RangeError where the plan has no such step or batch.
 */
export function makeRunSheet(input: PlanInput, context: PaperContext, stepId: string, batch: number): RunSheet {
  const { result } = context;
  const step = stepOf(result, stepId);
  const own = input.route.steps.find((one) => one.id === stepId);
  const holds = input.route.materials[step.product.material];
  if (!own || !holds) throw new RangeError(`the step needs to be in the route (got ${stepId})`);
  const session = sessionOf(result, [{ step: stepId, batch }]);
  return {
    backweigh: 'run',
    version: 1,
    plan: result.name,
    route: result.route,
    step: stepId,
    batch,
    asOf: result.asOf,
    secondCheck: context.secondCheck,
    sheet: weighingSheet(stepId, batch, context),
    charges: step.operations.flatMap((charge) =>
      charge.kind === 'charge'
        ? [
            numbersOf(
              charge,
              result.materials[charge.material]?.name ?? charge.material,
              session.taken(charge, step, batch).bottles,
            ),
          ]
        : [],
    ),
    temperatures: step.operations.flatMap(temperatureOf),
    basis: {
      material: step.basis.material,
      name: result.materials[step.basis.material]?.name ?? step.basis.material,
      moles: step.batches.basisMoles.value,
      grams: step.batches.basisGrams.value,
    },
    product: {
      material: step.product.material,
      holds,
      molarMass: factsOf(holds, input.reference).molarMass?.value ?? null,
      ratio: ratioOf(own),
      grams: step.batches.productGrams.value,
      yieldPercent: step.yield.value,
      ...(own.yieldCountedIn !== undefined || own.carriedWith ? { carried: true } : {}),
    },
  };
}

function temperatureOf(operation: OperationPlan): RunTemperature[] {
  if (operation.kind === 'removal') return [];
  const { temperature, limit } = operation.kind === 'charge' ? operation : operation.hold;
  if (!temperature && !limit) return [];
  const id = operation.kind === 'charge' ? operation.id : operation.hold.id;
  const side = limit?.side ?? 'above';
  return [{ operation: id, window: temperature ?? null, limit: limit ? { ...limit, side } : null }];
}

function numbersOf(charge: ChargePlan, name: string, bottles: readonly BottleShare[]): RunCharge {
  const take = charge.perBatch;
  const known = take.by !== 'unknown' && take.exact !== null && Number.isFinite(take.target);
  const ranged = known && !charge.isBasis && charge.atMost === null;
  const supplied = take.unit === 'g' ? charge.grams : charge.millilitres;
  return {
    id: charge.id,
    material: charge.material,
    name,
    isBasis: charge.isBasis,
    by: take.by,
    unit: take.unit,
    decimals: take.decimals,
    exact: known ? (take.exact?.value ?? null) : null,
    target: known ? take.target : null,
    low: ranged ? shown(take.low, take.decimals) : null,
    high: ranged ? shown(take.high, take.decimals) : mostOf(charge, known),
    portions: Math.max(1, charge.portions),
    scales: charge.perGramBasis !== null,
    gramsPerMillilitre: charge.density?.value ?? densityOf(charge),
    molesPerUnit: charge.moles && supplied && supplied.value > 0 ? positive(charge.moles.value / supplied.value) : null,
    bottles: bottles.map(({ bottle, lot, place, amount, unit }) => ({ bottle, lot, place, amount, unit })),
  };
}

/** The largest amount of an "until". */
function mostOf(charge: ChargePlan, known: boolean): number | null {
  if (!known || charge.atMost === null) return null;
  return shown(charge.perBatch.target * charge.atMost, charge.perBatch.decimals);
}

function densityOf({ grams, millilitres }: ChargePlan): number | null {
  return grams && millilitres && millilitres.value > 0 ? positive(grams.value / millilitres.value) : null;
}

const shown = (value: number | null, decimals: number): number | null =>
  value === null ? null : Number(value.toFixed(Math.min(decimals, 12)));

const positive = (value: number): number | null => (value > 0 && Number.isFinite(value) ? value : null);

function ratioOf(step: Step): number {
  const product = step.equation.makes.find((term) => term.material === step.product)?.coefficient ?? 1;
  const basis = step.equation.uses.find((term) => term.material === step.basis)?.coefficient ?? 1;
  return product / basis;
}
