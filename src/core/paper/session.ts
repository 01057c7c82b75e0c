import { timesDissolved } from '../bench/dissolved.ts';
import type { BottleShare, ChargePlan, FetchLine, PlanResult, Status, StepPlan } from '../plan/result.ts';
import { sharesOfBatch } from './batch-shares.ts';
import { type ChosenBatch, nameOf, stepOf } from './context.ts';
import { partFromShelf, partOfBatch } from '../shelf/recycled.ts';
import { chargesOf, waitingCharges } from './session-makers.ts';
import { type SheetTake, takeOnSheets } from './sheet-take.ts';
import { stepLines } from './step-lines.ts';

/** A line's state for a session: as in the plan, or waiting for a step that the session does not do. */
export type SessionStatus = Status | 'not made yet';

/** What the chosen batches ask of one line. */
export interface SessionLine {
  readonly line: FetchLine;
  /** Which part of the line's amounts is theirs, 0 … 1; the same for what must be in hand at once. */
  readonly part: number;
  readonly peakPart: number;
  readonly status: SessionStatus;
  /** Where it is not made yet: the steps to do first, by number, and what they lack when they are done with this session. */
  readonly first: readonly number[];
  readonly lacks: readonly FetchLine[];
  /** What they take of each bottle. */
  readonly bottles: readonly BottleShare[];
  /** The same as their sheets say it, end points at their largest; null where a target is not known. */
  readonly take: SheetTake | null;
}

/** What one batch takes from bottles for one charge; `whole` where that is all it needs. */
export interface BatchTaken {
  readonly bottles: readonly BottleShare[];
  readonly whole: boolean;
}

/** A charge whose amount is not known. */
export interface Uncounted {
  readonly material: string;
  readonly form: string;
  /** Number of its step. */
  readonly step: number;
}

/** The chosen batches against the shelf. */
export interface Session {
  readonly lines: readonly SessionLine[];
  /** Charges of bought material that no line counts, since how much of it is needed is not known. */
  readonly uncounted: readonly Uncounted[];
  /** Which part of each make-up they need, 0 … 1, by its id. */
  readonly makeUp: ReadonlyMap<string, number>;
  readonly taken: (charge: ChargePlan, step: StepPlan, batch: number) => BatchTaken;
}

/**
 * What a session needs, and whether it is there. Where the plan's bottles cover a line, each batch has the plan's share
 * of them, so that the sessions of a plan add up to it. Where they do not, these batches have what is there to
 * themselves: that the rest of the plan runs short is not charged to them.
 * @throws RangeError where a chosen step is not in the plan.
 */
export function sessionOf(result: PlanResult, chosen: readonly ChosenBatch[]): Session {
  for (const one of chosen) stepOf(result, one.step);
  const charges = new Map(
    result.steps.flatMap((step) => {
      const batches = batchesOf(step, chosen);
      return chargesOf(step).map((charge) => [`${step.id}/${charge.id}`, { step, charge, batches }] as const);
    }),
  );
  const waiting = waitingCharges(result, (step) => batchesOf(step, chosen).length / step.batches.count);
  const firstOf = (charge: string) => waiting.get(charge) ?? [];
  const lacking = (steps: readonly StepPlan[]) => lackingIn(result, steps, chosen);
  const alone = new Map<string, BatchTaken>();
  const taken: Session['taken'] = (charge, step, batch) => alone.get(keyOf(step, charge, batch)) ?? planned(charge, step, batch);
  const all = [...result.fetch, ...stepLines(result)].flatMap((line): readonly SessionLine[] => {
    const users = line.uses.flatMap((use): User[] => {
      const user = charges.get(`${use.step}/${use.operation}`);
      return user ? [{ ...user, amount: use.amount }] : [];
    });
    const ofSteps = partOfSteps(line);
    const part = partOf(users, () => 1, chosenPart) * ofSteps;
    if (part === 0) return [];
    // Of what comes back the charge has its own sources beside.
    if (line.short !== null && !line.comesBack) shareAlone(line, users, alone);
    const peakPart = line.comesBack
      ? aheadPart(line.comesBack, users)
      : ofSteps * partOf(users, (user) => (user.charge.atMost ?? 1) * timesFromShelf(user), shelfPart);
    // What earlier batches gave back is there by now.
    if (peakPart === 0) return [];
    return [
      {
        line,
        part,
        peakPart,
        ...stateOf(line, users, peakPart, alone, firstOf, lacking),
        bottles: bottlesOf(line, part, users, alone),
        take: takeOnSheets(line, users, taken),
      },
    ];
  });
  return {
    lines: all.filter((one) => one.status !== 'not made yet' || !inHandFirst(one.line, all)),
    uncounted: uncountedIn(result, [...charges.values()]),
    makeUp: new Map(result.makeUps.map((makeUp) => [makeUp.id, makeUpPart([...charges.values()], makeUp.id)])),
    taken,
  };
}

/** Which part of what a loop needs in hand the chosen batches need. */
function aheadPart(ahead: readonly number[], users: readonly User[]): number {
  return users.flatMap(({ batches }) => batches).reduce((sum, batch) => sum + (ahead[batch - 1] ?? 0), 0);
}

/** Whether what a step waits for is asked for beside, to be in hand before the first rounds of a loop. */
function inHandFirst({ uses }: FetchLine, asked: readonly SessionLine[]): boolean {
  const first = asked.flatMap(({ line }) => (line.comesBack ? line.uses : []));
  return uses.every((use) => first.some((one) => one.step === use.step && one.operation === use.operation));
}

/** What no list of the whole plan can count: charges of bottles whose amount is not known. */
export function uncountedOf(result: PlanResult): readonly Uncounted[] {
  const all = result.steps.filter(({ active }) => active);
  return uncountedIn(
    result,
    all.flatMap((step) => chargesOf(step).map((charge) => ({ step, charge, batches: [1] }))),
  );
}

function uncountedIn(result: PlanResult, charged: readonly Charged[]): readonly Uncounted[] {
  const counted = new Set(result.fetch.flatMap(({ uses }) => uses.map((use) => `${use.step}/${use.operation}`)));
  return charged.flatMap(({ step, charge, batches }): readonly Uncounted[] => {
    const { supply } = charge;
    const amount = charge.grams ?? charge.millilitres;
    const fromShelf = supply.kind === 'bottles' || isHandedBack(result, step, charge);
    const known = amount !== null || !fromShelf || counted.has(`${step.id}/${charge.id}`);
    if (known || batches.length === 0) return [];
    return [{ material: nameOf(result, charge.material), form: charge.formWords, step: step.number }];
  });
}

/** Whether a later step hands it back, so that the first round needs it in hand. */
function isHandedBack({ flow }: PlanResult, { id }: StepPlan, { material }: ChargePlan): boolean {
  return flow.bands.some(
    ({ recycle, from, to, material: one }) =>
      recycle && one === material && from.kind === 'step' && to.kind === 'step' && to.step === id,
  );
}

/** A charge, and those of its step's batches that are chosen. */
interface Charged {
  readonly step: StepPlan;
  readonly charge: ChargePlan;
  readonly batches: readonly number[];
}

/** The same, with what the whole step takes of a line, in the line's unit; null where it is not known. */
interface User extends Charged {
  readonly amount: number | null;
}

/** A remainder below this part of a batch's need is rounding, not a shortage. */
const NOTHING = 1e-9;

const keyOf = (step: StepPlan, charge: ChargePlan, batch: number): string => `${step.id}/${charge.id}/${batch}`;
const chosenPart = ({ step, batches }: Charged): number => batches.length / step.batches.count;

function batchesOf(step: StepPlan, chosen: readonly ChosenBatch[]): readonly number[] {
  const own = new Set(chosen.filter((one) => one.step === step.id).map((one) => one.batch));
  return Array.from({ length: step.batches.count }, (_, at) => at + 1).filter((batch) => own.has(batch));
}

const recycledIn = ({ charge, step }: Pick<Charged, 'charge' | 'step'>) => ({
  returns: charge.returns,
  batches: step.batches.count,
});

/** What a charge takes from the shelf over all batches, as a multiple of what goes in. */
function timesFromShelf(of: Pick<Charged, 'charge' | 'step'>): number {
  return partFromShelf(recycledIn(of)) * timesDissolved(of.charge.perBatch);
}

/** Which part of what a charge takes from the shelf the chosen batches take: what comes back feeds all but the first. */
function shelfPart({ charge, step, batches }: Charged): number {
  const of = recycledIn({ charge, step });
  return batches.reduce((sum, batch) => sum + partOfBatch(of, batch), 0) / partFromShelf(of);
}

/** The chosen part of each charge, weighted by what it takes, as often as `times` says, where that is known. */
function partOf(users: readonly User[], times: (of: Charged) => number, chosen: (of: Charged) => number): number {
  let whole = 0;
  let mine = 0;
  for (const user of users) {
    const amount = (user.amount ?? 0) * times(user);
    whole += amount;
    mine += amount * chosen(user);
  }
  return whole > 0 ? mine / whole : Math.max(0, ...users.map(chosen));
}

/** Which part of a line the steps take: of a bottle of an intermediate, draws may take some as it stands. */
function partOfSteps({ need, uses }: FetchLine): number {
  const known = uses.flatMap(({ amount }) => (amount === null ? [] : [amount]));
  if (known.length < uses.length || need.value === 0) return 1;
  return Math.min(1, known.reduce((sum, amount) => sum + amount, 0) / need.value);
}

/** Hands what is on the shelf of a line to the chosen batches alone, one after the other. */
function shareAlone(line: FetchLine, users: readonly User[], alone: Map<string, BatchTaken>): void {
  const left = line.bottles.map((bottle) => bottle.worth);
  for (const { step, charge, batches, amount } of users) {
    for (const batch of batches) {
      const goesIn = amount === null ? null : amount * partOfBatch(recycledIn({ charge, step }), batch);
      const needed = goesIn === null ? null : goesIn * timesDissolved(charge.perBatch);
      let open = needed ?? Number.POSITIVE_INFINITY;
      const bottles: BottleShare[] = [];
      for (const [index, bottle] of line.bottles.entries()) {
        const there = left[index] ?? 0;
        const worth = Math.min(open, there);
        if (needed === null || worth <= needed * NOTHING) continue;
        left[index] = there - worth;
        open -= worth;
        bottles.push({ ...bottle, amount: (bottle.amount * worth) / bottle.worth });
      }
      alone.set(keyOf(step, charge, batch), { bottles, whole: needed !== null && open <= needed * NOTHING });
    }
  }
}

/** The plan's own share of its bottles for one batch. */
function planned(charge: ChargePlan, step: StepPlan, batch: number): BatchTaken {
  const { supply } = charge;
  if (supply.kind === 'utility') return { bottles: [], whole: true };
  return {
    bottles: sharesOfBatch(supply.bottles, { ...recycledIn({ charge, step }), batch }),
    whole: supply.kind === 'bottles',
  };
}

function stateOf(
  line: FetchLine,
  users: readonly User[],
  peakPart: number,
  alone: ReadonlyMap<string, BatchTaken>,
  firstOf: (charge: string) => readonly StepPlan[],
  lacking: (steps: readonly StepPlan[]) => readonly FetchLine[],
): Pick<SessionLine, 'status' | 'first' | 'lacks'> {
  const ready = { first: [], lacks: [] };
  if (line.status === 'from a step') {
    const steps = users.map(({ step, charge }) => firstOf(`${step.id}/${charge.id}`)).find((one) => one.length > 0);
    if (!steps) return { status: line.status, ...ready };
    return { status: 'not made yet', first: steps.map((step) => step.number), lacks: lacking(steps) };
  }
  const covered = users.every(({ step, charge, batches }) =>
    batches.every((batch) => alone.get(keyOf(step, charge, batch))?.whole === true),
  );
  const atOnce = line.peak.value * peakPart <= line.onHand.value * (1 + NOTHING);
  return { status: line.short !== null && covered && atOnce ? 'enough' : line.status, ...ready };
}

/** What steps would lack if they were done whole, together with the chosen batches; not what the rest of the plan lacks. */
function lackingIn(result: PlanResult, steps: readonly StepPlan[], chosen: readonly ChosenBatch[]): readonly FetchLine[] {
  const whole = steps.flatMap((step) =>
    Array.from({ length: step.batches.count }, (_, at): ChosenBatch => ({ step: step.id, batch: at + 1 })),
  );
  const known = new Set(chosen.map((one) => `${one.step}/${one.batch}`));
  const more = whole.filter((one) => !known.has(`${one.step}/${one.batch}`));
  if (more.length === 0) return [];
  const ids = new Set(steps.map((step) => step.id));
  return sessionOf(result, [...chosen, ...more]).lines.flatMap(({ line, status }) =>
    line.short !== null && status === line.status && line.uses.some((use) => ids.has(use.step)) ? [line] : [],
  );
}

/** What the chosen batches take of each bottle, as their weighing sheets say; the line's own part where they do not. */
function bottlesOf(
  line: FetchLine,
  part: number,
  users: readonly User[],
  alone: ReadonlyMap<string, BatchTaken>,
): readonly BottleShare[] {
  const sums = new Map<string, BottleShare>();
  const own = new Set(line.bottles.map((bottle) => bottle.bottle));
  for (const { step, charge, batches } of users) {
    for (const batch of batches) {
      const taken = alone.get(keyOf(step, charge, batch)) ?? planned(charge, step, batch);
      for (const share of taken.bottles) {
        if (!own.has(share.bottle)) continue;
        sums.set(share.bottle, { ...share, amount: share.amount + (sums.get(share.bottle)?.amount ?? 0) });
      }
    }
  }
  return sums.size > 0 ? [...sums.values()] : line.bottles.map((bottle) => ({ ...bottle, amount: bottle.amount * part }));
}

/** Weighted by grams, else millilitres, else moles: the first that every user of the make-up knows. */
function makeUpPart(charges: readonly Charged[], makeUp: string): number {
  const users = charges.filter(({ charge }) => charge.supply.kind === 'make up' && charge.supply.makeUp === makeUp);
  const measures = [
    (charge: ChargePlan) => charge.grams?.value,
    (charge: ChargePlan) => charge.millilitres?.value,
    (charge: ChargePlan) => charge.moles?.value,
  ];
  const measure = measures.find((of) => users.every(({ charge }) => Number.isFinite(of(charge))));
  return partOf(
    users.map((user) => ({ ...user, amount: measure?.(user.charge) ?? null })),
    timesFromShelf,
    shelfPart,
  );
}
