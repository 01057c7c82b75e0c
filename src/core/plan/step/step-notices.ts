import { NEAT } from '../../matter/form.ts';
import type { Figure } from '../../quantity/figure.ts';
import { decimalsOf } from '../../quantity/round.ts';
import type { Notice } from '../../words/notice.ts';
import { routeEditWords } from '../../words/route-edit-words.ts';
import type { BatchCount } from '../batches/batches.ts';
import { balanceOf } from '../network/equation.ts';
import type { ChargePlan, OperationPlan } from '../result.ts';
import { equationNotices, gasNotices, stoichiometryNotices } from './equation-notices.ts';
import { recycleNotices } from './recycle-notices.ts';
import { saturatedNotices } from './saturated-notices.ts';
import { washNotices } from './wash-notices.ts';
import { type ChargeRun, factsFor, type StepInput, type StepRun } from './run-step.ts';

interface Of {
  readonly input: StepInput;
  readonly yieldFigure: Figure<'%'>;
  readonly count: BatchCount;
}

/** What is to be said of a step's equation, yield and charges; of its vessels see vessel-notices.ts. */
export function stepNotices(of: Of, run: StepRun, operations: readonly OperationPlan[]): readonly Notice[] {
  const { input, count } = of;
  return [
    ...equationNotices(input, balanceOf(input.step, input.facts, input.reference)),
    ...gasNotices(input),
    ...yieldNotices(of),
    ...recoveryNotices(of, run),
    ...recycleNotices(input.step.id, operations, count.count, (material) => factsFor(material, input).name),
    ...stoichiometryNotices(input, run),
    ...chargeNotices(of, operations, run),
    ...saturatedNotices(input.step, (material) => factsFor(material, input), input.reference),
    ...washNotices(input.step, (material) => factsFor(material, input).name),
  ];
}

/** A yield nobody entered counts as 100 %: the plan then starts with the least there could be. */
function yieldNotices({ input, yieldFigure }: Of): readonly Notice[] {
  const { from } = yieldFigure;
  const missing = from.kind === 'entered' && from.where === routeEditWords.noYield;
  return missing
    ? [{ level: 'caution', code: 'yield not entered', values: { step: input.step.title }, at: { step: input.step.id } }]
    : [];
}

/** What turns into product cannot also come back, and nothing comes back that was not there. */
function recoveryNotices(one: Of, run: StepRun): readonly Notice[] {
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

function chargeNotices(one: Of, operations: readonly OperationPlan[], run: StepRun): readonly Notice[] {
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
  return notices;
}

/** No device takes it within the accepted range: what would, a stock solution or a finer device. */
function tooLittle(charge: ChargePlan, exact: Figure<'g' | 'mL'>, at: Notice['at'], material: string): Notice {
  const { by, device, unit, tolerancePercent, least, stock } = charge.perBatch;
  const portion = { material, amount: exact.value / charge.portions, unit, device, percent: tolerancePercent };
  if (by === 'volume' || !least) return { level: 'caution', code: 'no measure serves', values: portion, at };
  const values = { ...portion, least: least.value };
  if (!stock) {
    const fixed = charge.rule === 'per batch' ? { fixed: 1 } : {};
    return { level: 'caution', code: 'too little to weigh', values: { ...values, ...fixed }, at };
  }
  const { dissolve, total, take, thinned } = stock;
  const again = thinned ? { thin: thinned.of.value, thinned: thinned.total.value } : {};
  const made = {
    dissolve: dissolve.value,
    total: total.value,
    take: take.value,
    solvent: total.value - dissolve.value,
    decimals: decimalsOf(stock.readability),
    totalDecimals: decimalsOf(stock.totalReadability),
    portions: charge.portions,
    ...again,
  };
  return { level: 'caution', code: 'weigh as a stock solution', values: { ...values, ...made }, at };
}
