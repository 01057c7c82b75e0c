import { cautionsOf, type FreedGas } from '../bench/cautions.ts';
import { inVessel } from '../bench/in-vessel.ts';
import { gasLitres } from '../bench/gas.ts';
import { computed, type Figure, entered, sourced } from '../quantity/figure.ts';
import { NEAT } from '../matter/form.ts';
import type { Charge, StepYield } from '../route/route.ts';
import type { Notice } from '../words/notice.ts';
import { routeEditWords } from '../words/route-edit-words.ts';
import { type BatchCount, batchHeat, shortestAddition } from './batches.ts';
import { chargePlan } from './charge-plan.ts';
import { balanceOf } from './equation.ts';
import { formedIn, freedIn } from './formed.ts';
import type { Requirement } from './requirements.ts';
import type { Supplied } from './supply.ts';
import type { BatchPlan, ChargePlan, OperationPlan, StepPlan } from './result.ts';
import { basisMass, type ChargeRun, factsFor, runStep, type StepInput, type StepRun } from './run-step.ts';
import type { Settings } from './settings.ts';
import { vesselNotices } from './vessel-notices.ts';
import { stageVolumes } from './vessels.ts';

export interface StepPlanInput {
  readonly input: StepInput;
  readonly number: number;
  readonly requirement: Requirement;
  readonly yieldFigure: Figure<'%'>;
  readonly count: BatchCount;
  /** Where a charge comes from, by operation id, with the form it is taken in. */
  readonly supplyOf: (operation: string) => Supplied;
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
  const run = runStep(input);
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
    formOf: (charge: Charge) => one.supplyOf(charge.id).form,
    reference: input.reference,
  };
  const vessel = inVessel(met);
  const cautions = cautionsOf(met, vessel);
  const operations = operationPlans(one, run, basisGrams, cautions);
  const equation = balanceOf(step, input.facts, input.reference);
  const batches = batchPlan(one, run, basisGrams);
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
    active: requirement.active,
    whyIdle: one.whyIdle,
    basis: { material: step.basis, moles: requirement.basisMoles, grams: basisGrams ?? noMass(requirement.basisMoles) },
    product: {
      material: step.product,
      moles: requirement.productMoles,
      grams: massOf(step.product, requirement.productMoles, input),
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
    formed: formedIn(input),
    freed: freedIn(vessel, input),
    notices: [
      ...equationNotices(one, equation),
      ...yieldNotices(one),
      ...recoveryNotices(one, run),
      ...stoichiometryNotices(one, run),
      ...chargeNotices(one, operations, run),
      ...vesselNotices(one, batches),
    ],
  };
}

function operationPlans(
  one: StepPlanInput,
  run: StepRun,
  basisGrams: Figure<'g'> | null,
  cautions: ReadonlyMap<string, readonly Notice[]>,
): readonly OperationPlan[] {
  const { settings, input, count } = one;
  const runs = new Map(run.charges.map((charge) => [charge.charge.id, charge]));
  const planned = (charge: ChargeRun, basisScale: number): ChargePlan =>
    chargePlan({
      run: charge,
      step: input,
      basisGrams,
      basisScale,
      batches: count.count,
      before: cautions.get(charge.charge.id) ?? [],
      settings,
      reference: input.reference,
      ...one.supplyOf(charge.charge.id),
    });
  // The basis is rounded to what its balance shows, and every equivalent counts against that.
  const basis = run.charges.find((charge) => charge.charge.rule.kind === 'basis');
  const taken = basis ? planned(basis, 1).perBatch : null;
  const basisScale = taken?.exact && taken.exact.value > 0 && taken.target > 0 ? taken.target / taken.exact.value : 1;
  return input.step.operations.map((operation): OperationPlan => {
    const before = cautions.get(operation.id) ?? [];
    if (operation.do === 'hold') return { kind: 'hold', hold: operation, before };
    if (operation.do === 'removal') return { kind: 'removal', removal: operation, before };
    const charge = runs.get(operation.id);
    if (!charge) throw new Error(`run of step ${input.step.id} needs the charge ${operation.id}`);
    return planned(charge, basisScale);
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

function equationNotices(one: StepPlanInput, equation: ReturnType<typeof balanceOf>): readonly Notice[] {
  const at = { step: one.input.step.id };
  if (equation.unknown.length > 0)
    return [{ level: 'assumption', code: 'balance unknown', values: { materials: equation.unknown.join(', ') }, at }];
  if (!equation.balanced) return [{ level: 'caution', code: 'unbalanced', values: { difference: equation.difference }, at }];
  return [];
}

/** A yield nobody entered counts as 100 %: the plan then starts with the least there could be. */
function yieldNotices({ input, yieldFigure }: StepPlanInput): readonly Notice[] {
  const { from } = yieldFigure;
  const missing = from.kind === 'entered' && from.where === routeEditWords.noYield;
  return missing
    ? [{ level: 'caution', code: 'yield not entered', values: { step: input.step.title }, at: { step: input.step.id } }]
    : [];
}

/** What turns into product cannot also come back, and nothing comes back that was not there. */
function recoveryNotices(one: StepPlanInput, run: StepRun): readonly Notice[] {
  const { step, basisMoles } = one.input;
  const charged = (material: string): number =>
    run.charges.reduce(
      (sum, charge) =>
        charge.charge.material === material && charge.amount?.moles.ok ? sum + charge.amount.moles.figure.value : sum,
      0,
    );
  const made = new Set(step.equation.makes.map((term) => term.material));
  return (step.recovers ?? []).flatMap((recovery): readonly Notice[] => {
    if (basisMoles.value === 0) return [];
    const back =
      'percentOfCharge' in recovery
        ? recovery.percentOfCharge / 100
        : (recovery.molesPerMoleBasis * basisMoles.value) / Math.max(charged(recovery.material), 1e-300);
    const percent = recovery.material === step.basis ? back * 100 + one.yieldFigure.value : back * 100;
    if (percent <= 100 + 1e-9 || (made.has(recovery.material) && recovery.material !== step.basis)) return [];
    const code = recovery.material === step.basis ? 'more than all' : 'more back than charged';
    const elsewhere = charged(recovery.material) === 0;
    return elsewhere
      ? []
      : [
          {
            level: 'caution',
            code,
            values: { percent, material: factsFor(recovery.material, one.input).name },
            at: { step: step.id, material: recovery.material },
          },
        ];
  });
}

/** A reagent this much below the basis limits instead of it; less is rounding in the procedure. */
const LIMITING_MARGIN = 0.005;

/** Whether the basis is what limits, and whether everything the equation uses is charged. */
function stoichiometryNotices(one: StepPlanInput, run: StepRun): readonly Notice[] {
  const { step } = one.input;
  const basisMoles = one.input.basisMoles.value;
  if (basisMoles === 0) return [];
  const basis = step.equation.uses.find((term) => term.material === step.basis)?.coefficient ?? 1;
  return step.equation.uses.flatMap((term): readonly Notice[] => {
    const all = run.charges.filter((charge) => charge.charge.material === term.material);
    // What is added only to quench or purify does not help the reaction.
    const inReaction = all.filter((charge) => charge.charge.stage === 'reaction');
    const charges = inReaction.length > 0 ? inReaction : all;
    const at = { step: step.id, material: term.material };
    const material = factsFor(term.material, one.input).name;
    if (charges.length === 0) return [{ level: 'caution', code: 'never charged', values: { material }, at }];
    const known = charges.every((charge) => charge.amount?.moles.ok);
    if (!known || term.material === step.basis) return [];
    const moles = charges.reduce((sum, charge) => sum + (charge.amount?.moles.ok ? charge.amount.moles.figure.value : 0), 0);
    const cover = moles / term.coefficient / (basisMoles / basis);
    return cover < 1 - LIMITING_MARGIN
      ? [{ level: 'caution', code: 'another limits', values: { material, percent: cover * 100 }, at }]
      : [];
  });
}

function chargeNotices(one: StepPlanInput, operations: readonly OperationPlan[], run: StepRun): readonly Notice[] {
  const runs = new Map(run.charges.map((charge) => [charge.charge.id, charge]));
  return operations.flatMap((operation): readonly Notice[] => {
    if (operation.kind !== 'charge') return [];
    const charge = runs.get(operation.id);
    const at = { step: one.input.step.id, operation: operation.id, material: operation.material };
    const facts = factsFor(operation.material, one.input);
    const notices: Notice[] = [];
    if (charge?.why) notices.push({ level: 'error', code: charge.why.code, values: charge.why.values, at });
    else if (operation.perBatch.by === 'unknown') {
      const why =
        charge?.amount && !charge.amount.grams.ok
          ? charge.amount.grams.why
          : { code: 'no amount', values: { material: facts.name } };
      notices.push({ level: 'error', code: why.code, values: why.values, at });
    } else if (operation.moles === null && facts.formula !== null && charge?.amount && !charge.amount.moles.ok) {
      notices.push({
        level: 'assumption',
        code: `moles: ${charge.amount.moles.why.code}`,
        values: charge.amount.moles.why.values,
        at,
      });
    }
    notices.push(...measureNotices(operation, charge, at, facts.name));
    if (facts.usuallyDissolved && operation.form.kind === 'neat' && (charge?.charge.form ?? NEAT).kind === 'neat') {
      notices.push({ level: 'caution', code: 'usually a solution', values: { material: facts.name }, at });
    }
    return notices;
  });
}

/** What cannot be weighed or measured so finely, and a pot that is more dilute already than was asked. */
function measureNotices(charge: ChargePlan, run: ChargeRun | undefined, at: Notice['at'], material: string): readonly Notice[] {
  const { exact, meets } = charge.perBatch;
  const notices: Notice[] = [];
  if (exact && exact.value > 0 && !meets) notices.push(tooLittle(charge, exact, at, material));
  if (run?.rule.kind === 'to concentration' && exact?.value === 0 && charge.equivalents !== null) {
    notices.push({ level: 'caution', code: 'more dilute already', values: { material }, at });
  }
  if (run?.rule.kind === 'to neutralise' && exact?.value === 0) {
    notices.push({ level: 'caution', code: 'nothing to neutralise', values: { material, pH: run.rule.endPH }, at });
  }
  return notices;
}

/** No device takes it within the accepted range: what would, a stock solution or a finer device. */
function tooLittle(charge: ChargePlan, exact: Figure<'g' | 'mL'>, at: Notice['at'], material: string): Notice {
  const { by, device, unit, tolerancePercent, least, stock } = charge.perBatch;
  const portion = { material, amount: exact.value / charge.portions, unit, device, percent: tolerancePercent };
  if (by === 'volume' || !least) return { level: 'caution', code: 'no measure serves', values: portion, at };
  const values = { ...portion, least: least.value };
  if (!stock) return { level: 'caution', code: 'too little to weigh', values, at };
  const { dissolve, total, take } = stock;
  const made = { dissolve: dissolve.value, total: total.value, take: take.value, solvent: total.value - dissolve.value };
  return { level: 'caution', code: 'weigh as a stock solution', values: { ...values, ...made }, at };
}
