import type { Network } from '../plan/network/network.ts';
import type { Stock, Want } from '../plan/solve/needs.ts';
import type { Handover } from '../plan/solve/share-out.ts';
import type { Starts } from '../plan/solve/starts.ts';
import { POINTS } from './lattice.ts';
import { logVariance } from './series.ts';
import type { Uncertainty } from './uncertainty.ts';
import type { YieldDistribution } from './yield-distribution.ts';

/** One possible outcome per point of the lattice. */
type Outcomes = Float64Array;

/** Steps in a row whose yields may be multiplied before anything else happens to the material. */
interface Row {
  readonly steps: readonly number[];
  /** Yield of the whole row ÷ what the plan expects of it, in each outcome. */
  readonly factor: Outcomes;
}

export interface PlanOutcomes {
  /** What all draws get ÷ what is asked, the least of them: ≥ 1 where everything asked is there. */
  readonly least: Outcomes;
  /** By draw with an amount: what it gets ÷ what is asked. */
  readonly draws: readonly (Outcomes | null)[];
  readonly rows: readonly Row[];
}

export interface OutcomesInput {
  readonly network: Network;
  readonly starts: Starts;
  readonly stock: readonly Stock[];
  /** What is asked; `starts` may have been planned for more. */
  readonly wants: readonly Want[];
  readonly uncertainty: Uncertainty;
}

/**
 * Lets a plan run forward with yields as they may come out:
 *
 *     outcome of a step = what reaches it, as a part of the plan × its yield ÷ the planned yield
 *     what reaches it   = the scarcest of the made materials it takes
 *     of a material     = (stock + Σ made × outcome − what a loop takes back) ÷ planned
 *
 * Stock is certain, bought material never short, and a material is shared out in the planned proportions.
 */
export function planOutcomes(input: OutcomesInput): PlanOutcomes {
  const rows = rowsOf(input);
  const factorOf = new Map(rows.map((row) => [row.steps.at(-1), row.factor]));
  const reached = new Map<number, Outcomes>();
  const order = input.network.groups.flat();
  const place = new Map(order.map((step, at) => [step, at]));
  const context: Forward = { input, place, reached, yields: new Map(), made: new Map(), pools: new Map() };
  for (const j of order) {
    if (!input.starts.steps[j]?.active) continue;
    const ready = readiness(context, j);
    reached.set(j, ready);
    const factor = factorOf.get(j);
    const made = madeOf(input, j, ready, factor);
    context.made.set(j, made);
    // Only of a second product the film in the flask takes nothing.
    if ((input.network.products[j] ?? []).length > 1) context.yields.set(j, factor ? times(ready, factor) : ready);
  }
  const draws = input.wants.map((want, d) => (want.moles.value > 0 ? drawOutcome(context, want, d) : null));
  const least = new Float64Array(POINTS).fill(Number.POSITIVE_INFINITY);
  for (const draw of draws) if (draw) lower(least, draw);
  return { least, draws, rows };
}

/**
 * What comes out of a step as a part of the plan: what reaches it times its factor; what stays behind in its vessels stays
 * behind whatever the yield.
 */
function madeOf({ starts, network }: OutcomesInput, j: number, ready: Outcomes, factor: Outcomes | undefined): Outcomes {
  const behind = (network.lost[j] ?? 0) * (starts.counts[j]?.count ?? 1);
  const planned = starts.steps[j]?.productMoles.value ?? 0;
  if (!(behind > 0 && planned > 0)) return factor ? times(ready, factor) : ready;
  const [whole, less] = [(planned + behind) / planned, behind / planned];
  const made = new Float64Array(ready.length);
  for (let i = 0; i < made.length; i += 1)
    made[i] = Math.max(0, (ready[i] ?? 0) * (factor ? (factor[i] ?? 0) : 1) * whole - less);
  return made;
}

function times(one: Outcomes, other: Outcomes): Outcomes {
  const product = new Float64Array(one.length);
  for (let i = 0; i < product.length; i += 1) product[i] = (one[i] ?? 0) * (other[i] ?? 0);
  return product;
}

/** The outcome of a material a step makes: a second product may have a certain yield of its own. */
function outcomeOf({ input, made, yields, reached }: Forward, step: number, material: string): Outcomes | undefined {
  if (input.network.steps[step]?.product === material) return made.get(step);
  const second = input.network.products[step]?.find((one) => one.material === material);
  return second && second.yieldPercent !== null ? reached.get(step) : (yields.get(step) ?? made.get(step));
}

interface Forward {
  readonly input: OutcomesInput;
  /** Place of a step in working order. */
  readonly place: ReadonlyMap<number, number>;
  /** By step: part of the planned start that can be run. */
  readonly reached: Map<number, Outcomes>;
  /** By step: the same times the yield. */
  readonly yields: Map<number, Outcomes>;
  /** By step: part of the planned product that comes out. */
  readonly made: Map<number, Outcomes>;
  readonly pools: Map<string, Outcomes>;
}

/** The scarcest of what a step takes; stock alone limits only a step that could otherwise run larger than planned. */
function readiness(context: Forward, j: number): Outcomes {
  let cap = Number.POSITIVE_INFINITY;
  const open: Outcomes[] = [];
  const taken = context.input.starts.handovers.filter(
    (one) => one.to.kind === 'step' && one.to.step === j && !goesBack(context, one),
  );
  for (const material of new Set(taken.map((one) => one.material))) {
    if (isMade(context, material)) open.push(pool(context, material));
    else cap = Math.min(cap, stocked(context, material) / plannedOf(context, material));
  }
  const [first, ...others] = open;
  if (!first) return new Float64Array(POINTS).fill(1);
  if (others.length === 0 && cap === Number.POSITIVE_INFINITY) return first;
  const ready = new Float64Array(first.length);
  for (let i = 0; i < ready.length; i += 1) ready[i] = Math.min(first[i] ?? 0, cap);
  for (const other of others) lower(ready, other);
  return ready;
}

/** Part of what is planned of a material that is there to be shared out. */
function pool(context: Forward, material: string): Outcomes {
  const known = context.pools.get(material);
  if (known) return known;
  const ratio = poolOf(context, material);
  context.pools.set(material, ratio);
  return ratio;
}

function poolOf(context: Forward, material: string): Outcomes {
  const stock = stocked(context, material);
  const planned = plannedOf(context, material);
  const given = context.input.starts.handovers.filter((one) => one.material === material && one.from.kind === 'step');
  const makers = new Set(given.map((one) => (one.from.kind === 'step' ? one.from.step : -1)));
  const [only] = makers;
  const direct =
    only !== undefined &&
    makers.size === 1 &&
    stock === 0 &&
    given.every((one) => one.to.kind !== 'left over' && !goesBack(context, one));
  const made = direct ? outcomeOf(context, only, material) : undefined;
  if (made) return made;
  const there = new Float64Array(POINTS).fill(stock / planned);
  for (const one of given) {
    const part = one.moles / planned;
    add(there, one.from.kind === 'step' ? outcomeOf(context, one.from.step, material) : undefined, part);
    if (one.to.kind === 'step' && goesBack(context, one)) add(there, context.reached.get(one.to.step), -part);
  }
  for (let i = 0; i < there.length; i += 1) there[i] = Math.max(0, there[i] ?? 0);
  return there;
}

function add(to: Outcomes, other: Outcomes | undefined, part: number): void {
  if (other) for (let i = 0; i < to.length; i += 1) to[i] = (to[i] ?? 0) + part * (other[i] ?? 0);
}

function drawOutcome(context: Forward, want: Want, d: number): Outcomes {
  const given = context.input.starts.handovers.filter((one) => one.to.kind === 'draw' && one.to.draw === d);
  const own = given.filter((one) => isOwn(context, one)).reduce((sum, one) => sum + one.moles, 0);
  const shared = given.reduce((sum, one) => sum + one.moles, 0) - own;
  const asked = want.moles.value;
  if (shared <= 0 || !isMade(context, want.material)) return new Float64Array(POINTS).fill((own + shared) / asked);
  const there = pool(context, want.material);
  const got = new Float64Array(there.length);
  for (let i = 0; i < got.length; i += 1) got[i] = (own + shared * (there[i] ?? 0)) / asked;
  return got;
}

/** A loop takes from what is made later: it is lent first and taken back when the material is there. */
function goesBack({ place }: Forward, one: Handover): boolean {
  if (one.from.kind !== 'step' || one.to.kind !== 'step') return false;
  return (place.get(one.to.step) ?? 0) <= (place.get(one.from.step) ?? 0);
}

/** Stock of a purity a draw asks for is kept for it. */
function isOwn({ input }: Forward, one: Handover): boolean {
  return one.from.kind === 'stock' && one.to.kind === 'draw' && (input.wants[one.to.draw]?.leastAssayPercent ?? 0) > 0;
}

function isMade({ input }: Forward, material: string): boolean {
  return input.starts.handovers.some((one) => one.material === material && one.from.kind === 'step');
}

/** Mol of a material on the shelf that no draw has for itself. */
function stocked(context: Forward, material: string): number {
  const all = context.input.stock.reduce((sum, one) => (one.material === material ? sum + one.moles.value : sum), 0);
  const own = context.input.starts.handovers.filter((one) => one.material === material && isOwn(context, one));
  return own.reduce((rest, one) => rest - one.moles, all);
}

/** Mol of a material the plan shares out. */
function plannedOf(context: Forward, material: string): number {
  return context.input.starts.handovers.reduce(
    (sum, one) =>
      one.material === material && one.to.kind !== 'left over' && !goesBack(context, one) && !isOwn(context, one)
        ? sum + one.moles
        : sum,
    0,
  );
}

function lower(least: Outcomes, other: Outcomes): void {
  for (let i = 0; i < least.length; i += 1) least[i] = Math.min(least[i] ?? 0, other[i] ?? 0);
}

/** Running steps that are not certain, those in a row together; each row is one dimension of the lattice. */
function rowsOf(input: OutcomesInput): readonly Row[] {
  const order = input.network.groups.flat().filter((i) => input.starts.steps[i]?.active);
  const rows: number[][] = [];
  for (const i of order) {
    const before = soleMaker(input, i);
    const row = before === null ? undefined : rows.find((one) => one.at(-1) === before);
    if (row) row.push(i);
    else rows.push([i]);
  }
  const open = rows.filter((row) => row.some((i) => input.uncertainty.distributions[i]?.kind !== 'certain'));
  return open.map((steps, dimension) => ({ steps, factor: factorOf(input, steps, dimension) }));
}

function factorOf({ uncertainty, starts }: OutcomesInput, steps: readonly number[], dimension: number): Outcomes {
  const planned = steps.reduce((product, i) => product * ((starts.yields[i]?.value ?? 0) / 100), 1);
  return uncertainty.factorOf(steps, planned, dimension);
}

/** The step whose whole product goes into step j and is all that j takes of made materials, with no stock of it. */
function soleMaker({ starts, stock, network }: OutcomesInput, j: number): number | null {
  const taken = starts.handovers.filter((one) => one.to.kind === 'step' && one.to.step === j);
  const [only] = taken;
  const seconds = (network.products[j] ?? []).length > 1;
  if (!only || seconds || taken.length > 1 || only.from.kind !== 'step' || only.from.step === j) return null;
  const maker = only.from.step;
  const given = starts.handovers.filter((one) => one.from.kind === 'step' && one.from.step === maker);
  const alone =
    given.length === 1 &&
    !((network.lost[maker] ?? 0) > 0) &&
    !stock.some((one) => one.material === only.material && one.moles.value > 0);
  const order = network.groups.flat();
  return alone && order.indexOf(maker) < order.indexOf(j) ? maker : null;
}

/** An outcome below this part of what is asked counts as this much: as good as nothing, and nothing has no logarithm. */
const AS_GOOD_AS_NOTHING = 1e-3;

/** Which part of the uncertainty of `least` each step carries, 0 … 1, summing to 1; all 0 where nothing is uncertain. */
export function riskShares(outcomes: PlanOutcomes, distributions: readonly YieldDistribution[]): readonly number[] {
  const shares = distributions.map(() => 0);
  const result = outcomes.least.map((value) => Math.log(Math.max(value, AS_GOOD_AS_NOTHING)));
  for (const row of outcomes.rows) {
    const carried = Math.max(
      0,
      covariance(
        result,
        row.factor.map((value) => Math.log(Math.max(value, AS_GOOD_AS_NOTHING))),
      ),
    );
    const spreads = row.steps.map((i) => logVariance(distributions[i] as YieldDistribution));
    const all = spreads.reduce((sum, one) => sum + one, 0);
    row.steps.forEach((i, at) => {
      shares[i] = all > 0 ? (carried * (spreads[at] ?? 0)) / all : 0;
    });
  }
  const total = shares.reduce((sum, one) => sum + one, 0);
  return total > 0 ? shares.map((one) => one / total) : shares;
}

function covariance(one: Outcomes, other: Outcomes): number {
  const mean = (of: Outcomes): number => of.reduce((sum, value) => sum + value, 0) / of.length;
  const [a, b] = [mean(one), mean(other)];
  return one.reduce((sum, value, i) => sum + (value - a) * ((other[i] ?? 0) - b), 0) / one.length;
}
