import { factsOf } from '../matter/facts.ts';
import { type PaperContext, stepOf } from '../paper/context.ts';
import { sessionOf } from '../paper/session.ts';
import { weighingSheet } from '../paper/weighing-sheet.ts';
import type { PlanInput } from '../plan/input.ts';
import type { BottleShare, ChargePlan, OperationPlan } from '../plan/result.ts';
import { decimalsOf, lineOf, roundTo } from '../quantity/round.ts';
import type { Step } from '../route/route.ts';
import { weighWords } from '../words/weigh-words.ts';
import type { RunCharge, RunSheet, RunTemperature } from './run-sheet.ts';
import { inUnitOf } from './state.ts';
import { contentsOf } from './weighed.ts';

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
  const basis = input.route.materials[step.basis.material];
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
              input,
              step.batches.count,
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
      ...(basis ? { holds: basis } : {}),
    },
    product: {
      material: step.product.material,
      holds,
      molarMass: factsOf(holds, input.reference).molarMass?.value ?? null,
      ratio: ratioOf(own),
      grams: step.batches.productGrams.value,
      yieldPercent: step.yield.value,
      ...(own.keeps ? { keeps: own.keeps } : {}),
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
  // The word of a bath is no window that a reading could be outside of.
  const window = temperature && !('bath' in temperature) ? temperature : null;
  if (!window && !limit) return [];
  return [{ operation: id, window, limit: limit ? { ...limit, side } : null }];
}

function numbersOf(
  charge: ChargePlan,
  name: string,
  bottles: readonly BottleShare[],
  input: PlanInput,
  batches: number,
): RunCharge {
  const take = charge.perBatch;
  const known = take.by !== 'unknown' && take.exact !== null && Number.isFinite(take.target);
  const ranged = known && !charge.isBasis && charge.atMost === null;
  const supplied = take.unit === 'g' ? charge.grams : charge.millilitres;
  const planned: RunCharge = {
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
  const line = lineFor(take, input.settings);
  if (line !== null && !take.stock) planned.line = line;
  if (take.stock) return ofStock(planned, take.stock, charge, batches);
  const rest = restMoles(planned, input);
  const dish = charge.supply.kind === 'step' && charge.supply.wholeDish && batches === 1 ? dishOf(planned) : null;
  return {
    ...planned,
    ...(rest === null ? {} : { restMolesPerUnit: rest }),
    ...(dish === null ? {} : { wholeDish: dish }),
  };
}

/** The smallest step of the device that a charge is taken with; null where the laboratory's list has it no longer. */
function lineFor({ device, by }: ChargePlan['perBatch'], { balances, measures }: PlanInput['settings']): number | null {
  if (by === 'mass') return balances.find((one) => one.name === device)?.readability ?? null;
  const measure = measures.find((one) => one.name === device);
  if (!measure) return null;
  return measure.readability === measure.nominal ? measure.nominal : lineOf(measure.readability);
}

/**
 * What is too little to be weighed goes in as a stock solution: that is what stands on the balance, so its amount is the
 * target, and a gram of it brings its part of the moles. It was made from the bottle before; none is charged here.
 */
function ofStock(
  planned: RunCharge,
  stock: NonNullable<ChargePlan['perBatch']['stock']>,
  charge: ChargePlan,
  batches: number,
): RunCharge {
  const exact = stock.take.value * planned.portions;
  const { readability } = stock;
  const decimals = decimalsOf(readability);
  const part = charge.perBatch.tolerancePercent / 100;
  const moles = charge.moles ? charge.moles.value / batches : null;
  return {
    ...planned,
    name: weighWords.stockOf(planned.name).slice(0, 300),
    asStock: true,
    dissolves: stock.dissolve.value,
    decimals,
    exact,
    line: readability,
    target: roundTo(exact, readability),
    low: planned.low === null ? null : Math.min(roundTo(exact, readability), shown(exact * (1 - part), decimals) ?? 0),
    high: planned.high === null ? null : Math.max(roundTo(exact, readability), shown(exact * (1 + part), decimals) ?? 0),
    gramsPerMillilitre: null,
    molesPerUnit: moles === null ? null : positive(moles / exact),
    bottles: [],
  };
}

/** What of a charge no bottle gives, in its unit; null where it is nothing or cannot be told. */
function dishOf(charge: RunCharge): number | null {
  if (charge.exact === null || charge.portions > 1) return null;
  const shares = charge.bottles.map((one) => inUnitOf(charge, one.amount, one.unit));
  const inBottles = shares.reduce<number>((sum, one) => sum + (one ?? Number.NaN), 0);
  return positive(charge.exact - inBottles);
}

/** Less than this part of a charge is no rest but rounding. */
const LEAST_REST = 0.01;

/** mol per g or mL of what no bottle gives, where bottles give the other part; null where there is no rest or it is not known. */
function restMoles(charge: RunCharge, { shelf, route, reference }: PlanInput): number | null {
  const material = route.materials[charge.material];
  if (charge.bottles.length === 0 || charge.exact === null || charge.molesPerUnit === null || !material) return null;
  let [rest, moles] = [charge.exact, charge.exact * charge.molesPerUnit];
  for (const share of charge.bottles) {
    const amount = inUnitOf(charge, share.amount, share.unit);
    const bottle = shelf.bottles.find((one) => one.id === share.bottle);
    if (amount === null || !bottle) return null;
    const holds = contentsOf(charge, share.amount, share.unit, bottle, material, reference).moles;
    if (holds === null) return null;
    rest -= amount;
    moles -= holds;
  }
  return rest > LEAST_REST * charge.exact ? positive(moles / rest) : null;
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
