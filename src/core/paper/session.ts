import type { ChargePlan, FetchLine, PlanResult, Status, StepPlan } from '../plan/result.ts';
import { type ChosenBatch, stepOf } from './context.ts';
import { stepLines } from './step-lines.ts';

/** Which part of each fetch line and of each make-up the chosen batches need, 0 … 1. */
export interface SessionShares {
  readonly line: ReadonlyMap<string, number>;
  readonly makeUp: ReadonlyMap<string, number>;
}

/**
 * Batches of a step are equal, so a session needs chosen/count of each of its charges; a fetch line shared by several
 * steps needs the mean of those parts, weighted by what each charge takes of it.
 * @throws RangeError where a chosen step is not in the plan.
 */
export function sessionShares(result: PlanResult, chosen: readonly ChosenBatch[]): SessionShares {
  const parts = new Map<string, number>();
  for (const id of new Set(chosen.map((one) => one.step))) {
    const step = stepOf(result, id);
    const batches = new Set(chosen.filter((one) => one.step === id).map((one) => one.batch));
    parts.set(id, Math.min(1, batches.size / step.batches.count));
  }
  const charges = result.steps.flatMap((step) => chargesOf(step).map((charge) => ({ step: step.id, charge })));
  return {
    line: new Map(sessionLines(result).map((line) => [line.id, partOf(usersOf(line, charges), parts)])),
    makeUp: new Map(
      result.makeUps.map((makeUp) => [
        makeUp.id,
        partOf(
          charges.filter(({ charge }) => charge.supply.kind === 'make up' && charge.supply.makeUp === makeUp.id),
          parts,
        ),
      ]),
    ),
  };
}

/** Every line a session may fetch: the shelf's, then what earlier steps hand over. */
export function sessionLines(result: PlanResult): readonly FetchLine[] {
  return [...result.fetch, ...stepLines(result)];
}

/**
 * The state of a line for the chosen batches alone: a bottle may be too small for the whole plan and still hold what
 * these batches take of it.
 */
export function sessionStatus(result: PlanResult, line: FetchLine, chosen: readonly ChosenBatch[]): Status {
  if (line.short === null) return line.status;
  const steps = new Set(chosen.map((one) => one.step));
  const charges = result.steps.flatMap((step) => chargesOf(step).map((charge) => ({ step: step.id, charge })));
  const users = usersOf(line, charges).filter(({ step }) => steps.has(step));
  if (users.length === 0 || users.some(({ charge }) => charge.supply.kind === 'short')) return line.status;
  return users.some(({ charge }) => charge.supply.kind === 'make up') ? 'make up' : 'enough';
}

interface User {
  readonly step: string;
  readonly charge: ChargePlan;
}

function chargesOf(step: StepPlan): ChargePlan[] {
  return step.operations.filter((operation) => operation.kind === 'charge');
}

function usersOf(line: FetchLine, charges: readonly User[]): User[] {
  return line.uses.flatMap((use) => charges.filter((one) => one.step === use.step && one.charge.id === use.operation));
}

/** Weighted by grams, else millilitres, else moles: the first that every user knows; plain mean where none is known. */
function partOf(users: readonly User[], parts: ReadonlyMap<string, number>): number {
  if (users.length === 0) return 0;
  const measures: readonly ((charge: ChargePlan) => number | undefined)[] = [
    (charge) => charge.grams?.value,
    (charge) => charge.millilitres?.value,
    (charge) => charge.moles?.value,
    () => 1,
  ];
  const measure = measures.find((of) => users.every(({ charge }) => Number.isFinite(of(charge)))) ?? (() => 1);
  let whole = 0;
  let mine = 0;
  for (const { step, charge } of users) {
    const amount = measure(charge) ?? 0;
    whole += amount;
    mine += amount * (parts.get(step) ?? 0);
  }
  if (whole > 0) return mine / whole;
  return Math.max(...users.map(({ step }) => parts.get(step) ?? 0));
}
