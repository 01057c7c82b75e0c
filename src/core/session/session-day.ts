import type { ChosenBatch } from '../paper/context.ts';
import type { OperationPlan, PlanResult, StepPlan } from '../plan/result.ts';
import type { Keeps } from '../route/route.ts';

/** An addition or a hold of a batch whose time the route gives. Minutes count from the beginning of the day. */
export interface TimedOperation {
  readonly operation: string;
  readonly kind: 'addition' | 'hold';
  /** The material that is added, or what is waited for. */
  readonly what: string;
  readonly minutes: number;
  /** At the earliest. */
  readonly ends: number;
}

/** A hold after which a batch may stand, by the route. */
export interface Stand {
  readonly what: string;
  readonly keeps: Keeps;
  readonly ends: number;
}

/** The times of one batch, as far as the route gives them. */
export interface BatchDay {
  readonly step: string;
  readonly number: number;
  readonly title: string;
  readonly batch: number;
  /** At the earliest: what an earlier batch of this session makes for it is waited for. */
  readonly begins: number;
  readonly ends: number;
  /** Sum of what is known, min. */
  readonly known: number;
  readonly timed: readonly TimedOperation[];
  /** Holds and additions over a time that the route leaves open, and other operations, which have no time at all. */
  readonly openHolds: readonly string[];
  readonly openOperations: number;
  /** Holds after which it may stand, with when they are over at the earliest. */
  readonly stands: readonly Stand[];
  /** What it makes, and how long that keeps; null where the route does not say. */
  readonly product: string;
  readonly keeps: Keeps | null;
  /** Steps of this plan that it waits for. */
  readonly makers: readonly string[];
}

export interface SessionDay {
  readonly batches: readonly BatchDay[];
  /** The end of the last batch if every batch begins as soon as it can, min. */
  readonly ends: number;
  /** All that is known, one batch after the other, min. */
  readonly known: number;
  readonly openHolds: number;
  readonly openOperations: number;
}

/**
 * A session's known times against its day. All are lower bounds: weighing, work-up and whatever has no time in the route
 * counts as nothing here and is counted apart, so that nobody takes the sum for the whole.
 * @param chosen batches of the plan; those of steps it no longer has are left out.
 */
export function sessionDay(result: PlanResult, chosen: readonly ChosenBatch[]): SessionDay {
  const batches: BatchDay[] = [];
  // Steps stand in working order: what is made first comes first.
  for (const step of result.steps) {
    const own = chosen.filter((one) => one.step === step.id && one.batch <= step.batches.count);
    const begins = afterMakers(step, batches);
    for (const { batch } of own.toSorted((a, b) => a.batch - b.batch)) batches.push(batchDay(step, batch, begins, result));
  }
  const sum = (of: (one: BatchDay) => number): number => batches.reduce((all, one) => all + of(one), 0);
  return {
    batches,
    ends: Math.max(0, ...batches.map((one) => one.ends)),
    known: sum((one) => one.known),
    openHolds: sum((one) => one.openHolds.length),
    openOperations: sum((one) => one.openOperations),
  };
}

const makersOf = (step: StepPlan): readonly string[] => [
  ...new Set(step.operations.flatMap((one) => (one.kind === 'charge' && one.supply.kind === 'step' ? [one.supply.step] : []))),
];

/** When everything that this session makes for a step is there. */
function afterMakers(step: StepPlan, before: readonly BatchDay[]): number {
  const makers = new Set(makersOf(step));
  return Math.max(0, ...before.filter((one) => makers.has(one.step)).map((one) => one.ends));
}

function batchDay(step: StepPlan, batch: number, begins: number, { materials }: PlanResult): BatchDay {
  let now = begins;
  const timed: TimedOperation[] = [];
  const openHolds: string[] = [];
  const stands: Stand[] = [];
  let openOperations = 0;
  for (const operation of step.operations) {
    const minutes = minutesOf(operation);
    const what = operation.kind === 'charge' ? (materials[operation.material]?.name ?? operation.material) : untilOf(operation);
    if (operation.kind === 'hold' && operation.hold.stands) {
      stands.push({ what, keeps: operation.hold.stands, ends: now + (minutes ?? 0) });
    }
    if (minutes === null) {
      if (operation.kind === 'hold') openHolds.push(what);
      else openOperations += 1;
      continue;
    }
    now += minutes;
    timed.push({ operation: idOf(operation), kind: operation.kind === 'hold' ? 'hold' : 'addition', what, minutes, ends: now });
  }
  const { id, number, title } = step;
  const times = { begins, ends: now, known: now - begins, timed };
  const made = { product: materials[step.product.material]?.name ?? step.product.material, keeps: step.keeps };
  return { step: id, number, title, batch, ...times, openHolds, openOperations, stands, ...made, makers: makersOf(step) };
}

function minutesOf(operation: OperationPlan): number | null {
  if (operation.kind === 'charge') return operation.overMinutes;
  return operation.kind === 'hold' ? (operation.hold.aboutMinutes ?? null) : null;
}

const untilOf = (operation: OperationPlan): string => (operation.kind === 'hold' ? operation.hold.until : '');

function idOf(operation: OperationPlan): string {
  if (operation.kind === 'charge') return operation.id;
  return operation.kind === 'hold' ? operation.hold.id : operation.removal.id;
}
