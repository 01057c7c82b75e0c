import { cautionsOf, type FreedGas } from '../../bench/cautions.ts';
import { gasLitres } from '../../bench/gas.ts';
import { computed, type Figure, entered, sourced } from '../../quantity/figure.ts';
import type { Charge, StepYield } from '../../route/route.ts';
import type { Notice } from '../../words/notice.ts';
import { type BatchCount, batchHeat, type RunIn, shortestAddition } from '../batches/batches.ts';
import { type ChargeContext, chargePlan, takingOf } from './charge-plan.ts';
import { balanceOf } from '../network/equation.ts';
import { formedIn, freedIn } from './formed.ts';
import type { Requirement } from '../solve/requirements.ts';
import type { Supplied } from '../stock/supply.ts';
import type { BatchPlan, OperationPlan, StepPlan } from '../result.ts';
import { basisMass, factsFor, type StepInput, type StepRun } from './run-step.ts';
import type { Settings } from '../settings.ts';
import { filmNotices } from '../batches/film-notices.ts';
import { vesselNotices } from '../batches/vessel-notices.ts';
import { stepNotices } from './step-notices.ts';
import { stageVolumes } from '../batches/vessels.ts';

export interface StepPlanInput {
  readonly input: StepInput;
  readonly number: number;
  readonly requirement: Requirement;
  readonly yieldFigure: Figure<'%'>;
  readonly count: BatchCount;
  /** The step gone through with that, in any number of batches. */
  readonly runIn: RunIn;
  /** Where each charge comes from, by operation id, with the form it is taken in. */
  readonly supplies: ReadonlyMap<string, Supplied>;
  readonly settings: Settings;
  readonly whyIdle: StepPlan['whyIdle'];
  /** As entered, %: for this plan, else with the route. */
  readonly yieldEntered: StepYield;
  /** How many runs it was learned from. */
  readonly yieldRuns: number;
}

/** Room conditions for gas volumes: 25 °C and 1 atm. */
const ROOM = '25 °C, 101.325 kPa, ideal gas';

/** One step of a plan: its charges, batches, vessel, gases and everything to say about it. */
export function stepPlan(one: StepPlanInput): StepPlan {
  const { input, requirement, count } = one;
  const { step } = input;
  const run = one.runIn(count.count);
  const basisGrams = basisMass(input);
  const gases = freedGases(input, requirement);
  const perBatch = (value: number): number => value / count.count;
  const gasPerBatch: readonly FreedGas[] = gases.map((gas) => ({
    material: gas.material,
    grams: perBatch(gas.grams.value),
    litres: perBatch(gas.litres.value),
  }));
  const met = {
    step,
    facts: input.facts,
    gases: gasPerBatch,
    formOf: (charge: Charge) => suppliedTo(charge.id, one).form,
    reference: input.reference,
  };
  const operations = operationPlans(one, run, basisGrams, cautionsOf(met));
  const equation = balanceOf(step, input.facts, input.reference);
  const batches = batchPlan(one, run, basisGrams);
  const productGrams = massOf(step.product, requirement.productMoles, input);
  return {
    id: step.id,
    number: one.number,
    title: step.title,
    equation: { text: equation.text, balanced: equation.balanced },
    conditions: step.conditions ?? '',
    protection: step.protection ?? [],
    spill: step.spill ?? '',
    firstAid: step.firstAid ?? '',
    source: step.source ?? '',
    keeps: step.keeps ?? null,
    active: requirement.active,
    whyIdle: one.whyIdle,
    basis: { material: step.basis, moles: requirement.basisMoles, grams: basisGrams ?? noMass(requirement.basisMoles) },
    product: {
      material: step.product,
      moles: requirement.productMoles,
      grams: productGrams,
      theory: massOf(step.product, requirement.theoryMoles, input),
    },
    seconds: requirement.seconds.map(({ material, moles }) => ({ material, moles, grams: massOf(material, moles, input) })),
    yield: one.yieldFigure,
    yieldCountedIn: step.yieldCountedIn ?? null,
    yieldRange: typeof one.yieldEntered === 'number' || one.yieldRuns > 0 ? null : one.yieldEntered,
    ...(one.yieldRuns > 0 ? { yieldRuns: one.yieldRuns } : {}),
    operations,
    batches,
    gases,
    formed: formedIn(step, input.facts, input.reference),
    freed: freedIn(met),
    notices: [
      ...stepNotices(one, run, operations),
      ...vesselNotices(one, batches),
      ...(requirement.active ? filmNotices(step, productGrams?.value ?? null, count.count) : []),
    ],
  };
}

function suppliedTo(operation: string, { supplies, input }: StepPlanInput): Supplied {
  const found = supplies.get(operation);
  if (!found) throw new Error(`supplies of step ${input.step.id} need the charge ${operation}`);
  return found;
}

/** @param cautions in the order of the operations. */
function operationPlans(
  one: StepPlanInput,
  run: StepRun,
  basisGrams: Figure<'g'> | null,
  cautions: readonly (readonly Notice[])[],
): readonly OperationPlan[] {
  const { settings, input, count } = one;
  const runs = new Map(run.charges.map((charge) => [charge.charge.id, charge]));
  const of: ChargeContext = { step: input, basisGrams, batches: count.count, settings };
  // The basis is rounded to what its balance shows, and every equivalent counts against that.
  const basis = run.charges.find((charge) => charge.charge.rule.kind === 'basis');
  const taken = basis ? takingOf(basis, suppliedTo(basis.charge.id, one), of, 1).perBatch : null;
  const basisScale = taken?.exact && taken.exact.value > 0 && taken.target > 0 ? taken.target / taken.exact.value : 1;
  return input.step.operations.map((operation, index): OperationPlan => {
    const before = cautions[index] ?? [];
    if (operation.do === 'hold') return { kind: 'hold', hold: operation, before };
    if (operation.do === 'removal') return { kind: 'removal', removal: operation, before };
    const charge = runs.get(operation.id);
    if (!charge) throw new Error(`run of step ${input.step.id} needs the charge ${operation.id}`);
    return chargePlan(charge, suppliedTo(operation.id, one), of, basisScale, before);
  });
}

function batchPlan(one: StepPlanInput, run: StepRun, basisGrams: Figure<'g'> | null): BatchPlan {
  const { count, why, reason } = one.count;
  const { requirement, input, settings } = one;
  const loss = input.step.lossPerBatch;
  const grams = basisGrams ?? noMass(requirement.basisMoles);
  const product = massOf(input.step.product, requirement.productMoles, input);
  const batch = <U extends Figure['unit']>(whole: Figure<U>): Figure<U> =>
    computed(`${whole.label}, one batch`, whole.value / count, whole.unit, 'whole step ÷ batches', [whole]);
  return {
    count,
    why,
    reason,
    basisGrams: batch(grams),
    basisMoles: batch(requirement.basisMoles),
    productGrams: batch(product),
    stages: stageVolumes(input.step, run, count, requirement.basisMoles, settings),
    heat: batchHeat(input, batch(requirement.basisMoles)),
    shortestAddition: shortestAddition(input, batch(requirement.basisMoles), settings),
    lostGrams: loss ? entered('stays behind in each batch', loss.grams, 'g', loss.reason) : null,
    ownLimit: input.step.batchLimit ?? null,
  };
}

/** Gases of the equation: by the equation from the basis charged, the most the step can free of them. */
function freedGases(input: StepInput, requirement: Requirement): StepPlan['gases'] {
  const basis = input.step.equation.uses.find((term) => term.material === input.step.basis)?.coefficient ?? 1;
  return input.step.equation.makes
    .filter((term) => term.gas)
    .map((term) => {
      const name = factsFor(term.material, input).name;
      const moles = computed(
        `${name} freed`,
        (requirement.basisMoles.value * term.coefficient) / basis,
        'mol',
        'by the equation, from all of the basis',
        [requirement.basisMoles],
      );
      const room = sourced('room conditions', 25, '°C', ROOM, 3);
      return {
        material: term.material,
        moles,
        grams: massOf(term.material, moles, input),
        litres: computed(`${name} freed`, gasLitres(moles.value), 'L', 'ideal gas', [moles, room]),
      };
    });
}

function massOf(material: string, moles: Figure<'mol'>, input: StepInput): Figure<'g'> {
  const facts = factsFor(material, input);
  if (!facts.molarMass) return noMass(moles);
  return computed(facts.name, moles.value * facts.molarMass.value, 'g', 'moles × molar mass', [moles, facts.molarMass]);
}

/** Stands where a mass cannot be given; the notice "no molar mass" says why. */
function noMass(moles: Figure<'mol'>): Figure<'g'> {
  return computed('mass not known', Number.NaN, 'g', 'no molar mass', [moles]);
}
