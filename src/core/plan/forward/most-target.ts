import { type Why } from '../../words/why.ts';
import type { Facts } from '../../matter/facts.ts';
import { explosiveIn, explosiveWhy } from '../../bench/explosive.ts';
import { computed, type Figure, entered } from '../../quantity/figure.ts';
import type { PlanInput } from '../input.ts';
import { type BoughtLimit, boughtLimits, fixedIn, perMoleIn } from './bought-limits.ts';
import { floorsOf } from '../solve/choose-starts.ts';
import { leastCost } from '../solve/linear-program.ts';
import type { RequirementInput } from '../solve/needs.ts';
import type { Network } from '../network/network.ts';
import { usableStock } from '../stock/route-stock.ts';
import { setUp } from '../set-up.ts';
import { costsOf } from '../solve/step-cost.ts';
import { type Agreed, agreeing, type Found, type Planned, WITHOUT_LIMIT } from './most-batches.ts';
import { type Starting, type Starts, startSteps } from '../solve/starts.ts';

/** What limits a target, and what more of it would bring. */
export interface Bottleneck {
  readonly material: string;
  readonly name: string;
  readonly unit: 'g' | 'mL';
  readonly onHand: number;
  /** Target, g, that one more g or mL of it brings; 0 where only more for another batch would (`anotherBatch`). */
  readonly perUnit: number;
  /** Whether something is lost or charged once a batch: then the last grams may bring less. */
  readonly byBatch: boolean;
  /** How much more of it another batch takes, where that is what it is too little for; null where it is used up. */
  readonly anotherBatch: number | null;
  /** How much more of it could be used before something else limits; null where nothing else does. */
  readonly more: number | null;
  /** The target that would then be reached, g, and what limits it. */
  readonly thenGrams: number | null;
  readonly thenMaterial: string | null;
}

export type MostTarget =
  | {
      readonly kind: 'most';
      readonly grams: Figure<'g'>;
      readonly moles: number;
      readonly bottleneck: Bottleneck;
      /** Chosen materials, by name, of which a plan of this much takes more than there is: it may run only the cheapest maker. */
      readonly planShort: readonly string[];
    }
  /** Nothing that was chosen limits it. */
  | { readonly kind: 'no limit' }
  /** Not even the other draws can be met from what was chosen. */
  | { readonly kind: 'nothing'; readonly material: string | null }
  /** It would run a step whose product or mixture is an explosive: no amount is worked out. */
  | { readonly kind: 'refused'; readonly why: Why }
  /** The route cannot be planned at all; plan() says why. */
  | { readonly kind: 'no plan' };

const NOTHING = entered('nothing yet', 0, 'mol', 'the question');
/** Bought materials that stand on the shelf and may limit a target, in the order the route charges them. */
export function limitsOn(given: PlanInput): readonly BoughtLimit[] {
  const { input, network, facts, bottles } = setUp(given);
  return network.ok ? boughtLimits(input, network.network, facts, bottles) : [];
}

/**
 * The most of one draw that the chosen materials on the shelf allow, all other draws met.
 *
 *     greatest t:   Σ (made − used) · x ≥ draws + t − stock,     Σ taken · x ≤ on hand
 *
 * From a t that is too large, the proof that it cannot be reached gives the largest t it leaves open; repeated until
 * one can be reached. The weights of that proof say which material decides, and what more of it would bring.
 * @param drawId the draw to make as large as possible; its own amount does not count.
 * @param chosen materials whose stock limits; everything else is taken to be bought.
 */
export function mostTarget(given: PlanInput, drawId: string, chosen: ReadonlySet<string>): MostTarget {
  const ready = setUp(given);
  const { input, facts, network, reading } = ready;
  const draw = input.ask.draws.find((one) => one.id === drawId);
  const mass = facts.get(draw?.material ?? '')?.molarMass;
  if (!network.ok || !draw || !mass || !network.network.makersOf.has(draw.material)) return { kind: 'no plan' };
  const limits = boughtLimits(input, network.network, facts, ready.bottles).filter((limit) => chosen.has(limit.material));
  if (reading.wants.length !== reading.draws.length) return { kind: 'no plan' };
  // Its own draw stays with nothing in it: the purity it asks for still says which stock may serve it.
  const others = reading.wants.map((want, index) => (reading.draws[index]?.id === drawId ? { ...want, moles: NOTHING } : want));
  const stock = usableStock(input, network.network, facts, ready.bottles);
  const costs = costsOf(input, network.network, facts).perMole;
  const first = startSteps(input, network.network, facts, others, stock);
  if (!first.ok) return { kind: 'no plan' };
  const problemWith = (batches: readonly number[], among: readonly BoughtLimit[]): Problem => ({
    needs: { network: network.network, facts, yields: first.starts.yields, wants: others, stock, batches, costs },
    limits: among,
    material: draw.material,
    leastAssay: draw.leastAssayPercent ?? 0,
  });
  const mostOf = (among: readonly BoughtLimit[]): Agreed =>
    agreeing(
      batchesOf(first.starts),
      (batches) => largest(problemWith(batches, among)),
      (moles) => plannedBy(startAt(input, network.network, ready, drawId)(moles)),
      among.some(isByBatch),
    );
  const found = mostOf(limits);
  if (found.kind === 'nothing') return { kind: 'nothing', material: found.limit?.material ?? null };
  if (found.kind !== 'most') return found;
  const refused = refusedBy(found.starts, input, facts) ?? whyNotAt(found, startAt(input, network.network, ready, drawId));
  if (refused) return { kind: 'refused', why: refused };
  const { lost, fixed } = network.network;
  const byBatch = lost.some((moles) => moles > 0) || fixed.some((one) => one.size > 0);
  const next = mostOf(limits.filter((one) => one !== found.limit));
  return said({ found, next, limits, byBatch }, draw.material, mass.value, (key) => facts.get(key)?.name ?? key);
}

/** Why the steps that would run are not scaled; null where nothing speaks against it. */
function refusedBy(starts: readonly number[], { route, reference }: PlanInput, facts: ReadonlyMap<string, Facts>): Why | null {
  for (const [at, step] of route.steps.entries()) {
    const found = (starts[at] ?? 0) > 0 ? explosiveIn(step, facts, reference) : null;
    if (found) return explosiveWhy(found, step.title);
  }
  return null;
}

/** Whether a batch takes some of it, however small. */
const isByBatch = ({ perBatch }: BoughtLimit): boolean => perBatch.some((amount) => amount > 0);

interface Problem {
  readonly needs: RequirementInput;
  readonly limits: readonly BoughtLimit[];
  readonly material: string;
  readonly leastAssay: number;
}

/** The greatest t of the problem, from above: each proof that t is out of reach gives a smaller one. */
function largest({ needs, limits, material, leastAssay }: Problem): Found {
  const floors = floorsOf(needs);
  const left = limits.map((limit) => limit.onHand - fixedIn(limit, needs.batches));
  const rows = [
    ...floors.map((one) => one.row),
    ...limits.map((limit) => perMoleIn(limit, needs.batches).map((value) => -value)),
  ];
  const grows = floors.map((one) => (one.material === material && one.leastAssay <= leastAssay ? 1 : 0));
  let t = WITHOUT_LIMIT;
  let deciding: { limit: BoughtLimit; perUnit: number } | null = null;
  // Each proof names another set of deciding rows; there are only so many.
  for (let turn = 0; turn < 1000; turn += 1) {
    const base = [...floors.map((one) => one.floor), ...left.map((value) => -value)];
    const solved = leastCost({
      rows,
      floors: base.map((floor, i) => floor + (grows[i] ?? 0) * t),
      scale: [...floors.map((one, i) => one.scale + (grows[i] ?? 0) * t), ...limits.map((limit) => limit.onHand)],
      costs: needs.costs,
    });
    if (solved.ok) return deciding ? { kind: 'most', moles: t, ...deciding, starts: solved.x } : { kind: 'no limit' };
    const growth = solved.proof.reduce((sum, weight, i) => sum + weight * (grows[i] ?? 0), 0);
    const constant = solved.proof.reduce((sum, weight, i) => sum + weight * (base[i] ?? 0), 0);
    const next = -constant / growth;
    const worst = strongest(solved.proof.slice(floors.length), limits);
    if (!(growth > 0) || !(next >= 0)) return { kind: 'nothing', limit: worst?.limit ?? null };
    if (worst) deciding = { limit: worst.limit, perUnit: worst.weight / growth };
    // A bound that no longer moves is the answer to within rounding.
    t = next < t ? next : t * (1 - 1e-12);
  }
  return { kind: 'nothing', limit: null };
}

/** The limit that weighs most in a proof, measured by what there is of it. */
function strongest(
  weights: readonly number[],
  limits: readonly BoughtLimit[],
): { readonly limit: BoughtLimit; readonly weight: number } | null {
  return limits.reduce<{ limit: BoughtLimit; weight: number } | null>((best, limit, i) => {
    const weight = weights[i] ?? 0;
    const size = weight * Math.max(limit.onHand, Number.MIN_VALUE);
    return weight > 0 && (best === null || size > best.weight * best.limit.onHand) ? { limit, weight } : best;
  }, null);
}

/** The starts of a target, mol. */
type StartAt = (moles: number) => Starting;

function startAt(input: PlanInput, network: Network, ready: ReturnType<typeof setUp>, drawId: string): StartAt {
  return (moles) => {
    const draws = input.ask.draws.map((draw) => (draw.id === drawId ? { ...draw, amount: moles, unit: 'mol' as const } : draw));
    const asked = setUp({ ...input, ask: { ...input.ask, draws } });
    const stock = usableStock(input, network, ready.facts, ready.bottles);
    return startSteps(asked.input, network, ready.facts, asked.reading.wants, stock);
  };
}

/** What the plan would run for a target; null where it cannot be planned. */
function plannedBy(started: Starting): Planned | null {
  if (!started.ok) return null;
  return { starts: started.starts.steps.map((step) => step.basisMoles.value), batches: batchesOf(started.starts) };
}

/** Why a most that no plan was found for cannot be planned: its batches give nothing. */
function whyNotAt({ planned, moles }: AgreedMost, at: StartAt): Why | null {
  const started = planned || !(moles > 0) ? null : at(moles);
  return started && !started.ok ? started.notice : null;
}

function batchesOf({ steps, counts }: Starts): readonly number[] {
  return steps.map((step, i) => (step.active ? (counts[i]?.count ?? 1) : 0));
}

/** Relative size below which a plan takes as much as there is. */
const AS_MUCH = 1e-6;

/** Limits that a plan goes beyond. */
function shortWhen(planned: Planned | null, limits: readonly BoughtLimit[]): readonly string[] {
  if (!planned) return [];
  return limits.flatMap((limit) => (takenOf(limit, planned) > limit.onHand * (1 + AS_MUCH) ? [limit.material] : []));
}

function sumOf(starts: readonly number[], perMole: readonly number[]): number {
  return starts.reduce((sum, start, i) => sum + start * (perMole[i] ?? 0), 0);
}

type AgreedMost = Extract<Agreed, { readonly kind: 'most' }>;

/** The most, what it would be without the material that limits it, and whether a batch more takes from it. */
interface Answer {
  readonly found: AgreedMost;
  readonly next: Agreed;
  readonly limits: readonly BoughtLimit[];
  readonly byBatch: boolean;
}

/** The answer in grams, with what would limit next. */
function said(
  { found, next, limits, byBatch }: Answer,
  target: string,
  molarMass: number,
  nameOf: (key: string) => string,
): MostTarget {
  const { limit, moles, planned, another } = found;
  // Where the next batch is what it is too little for, one more g alone brings nothing.
  const perUnit = another ? 0 : found.perUnit;
  const onHand = entered(`${nameOf(limit.material)} on hand`, limit.onHand, limit.unit, 'the shelf');
  const brings = entered(`target per ${limit.unit} of it`, perUnit * molarMass, limit.unit === 'g' ? 'g/g' : '', 'the plan');
  return {
    kind: 'most',
    moles,
    planShort: shortWhen(planned, limits).map(nameOf),
    grams: computed(`most ${nameOf(target)}`, moles * molarMass, 'g', `as much as ${nameOf(limit.material)} on hand allows`, [
      onHand,
      brings,
    ]),
    bottleneck: {
      material: limit.material,
      name: nameOf(limit.material),
      unit: limit.unit,
      onHand: limit.onHand,
      perUnit: perUnit * molarMass,
      byBatch: byBatch || isByBatch(limit),
      anotherBatch: another ? Math.max(0, takenOf(limit, another) - limit.onHand) : null,
      more: next.kind === 'most' ? Math.max(0, takenOf(limit, next) - limit.onHand) : null,
      thenGrams: next.kind === 'most' ? next.moles * molarMass : null,
      thenMaterial: next.kind === 'most' ? nameOf(next.limit.material) : null,
    },
  };
}

/** What starts and their batches take of a bought material. */
function takenOf(limit: BoughtLimit, { starts, batches }: Planned): number {
  return sumOf(starts, perMoleIn(limit, batches)) + fixedIn(limit, batches);
}
