import { computed, type Figure, entered } from '../quantity/figure.ts';
import type { PlanInput } from './input.ts';
import { type BoughtLimit, boughtLimits } from './bought-limits.ts';
import { floorsOf } from './choose-starts.ts';
import { leastCost } from './linear-program.ts';
import type { RequirementInput } from './needs.ts';
import type { Network } from './network.ts';
import { usableStock } from './route-stock.ts';
import { setUp } from './set-up.ts';
import { costsOf } from './step-cost.ts';
import { startSteps } from './starts.ts';

/** What limits a target, and what more of it would bring. */
export interface Bottleneck {
  readonly material: string;
  readonly name: string;
  readonly unit: 'g' | 'mL';
  readonly onHand: number;
  /** Target, g, that one more g or mL of it brings. */
  readonly perUnit: number;
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
  /** The route cannot be planned at all; plan() says why. */
  | { readonly kind: 'no plan' };

/** Far more than any laboratory makes, mol: where this much can be made, nothing limits. */
const WITHOUT_LIMIT = 1e9;
const NOTHING = entered('nothing yet', 0, 'mol', 'the question');
/** Rounds after which batches that still change are taken as they are. */
const MOST_ROUNDS = 12;

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
  let batches: readonly number[] = network.network.steps.map(() => 0);
  for (let round = 0; ; round += 1) {
    const first = startSteps(input, network.network, facts, others, stock);
    if (!first.ok) return { kind: 'no plan' };
    const problem: Problem = {
      needs: { network: network.network, facts, yields: first.starts.yields, wants: others, stock, batches, costs },
      limits,
      material: draw.material,
      leastAssay: draw.leastAssayPercent ?? 0,
    };
    const found = largest(problem);
    if (found.kind !== 'most') return found;
    const planned = plannedAt(input, network.network, ready, drawId, found.moles);
    const grown = planned?.batches ?? null;
    if (round >= MOST_ROUNDS || grown === null || grown.every((count, i) => count <= (batches[i] ?? 0)))
      return said(found, problem, mass.value, (key) => facts.get(key)?.name ?? key, planned);
    // Batches only grow from round to round, so that it ends.
    batches = grown.map((count, i) => Math.max(count, batches[i] ?? 0));
  }
}

interface Problem {
  readonly needs: RequirementInput;
  readonly limits: readonly BoughtLimit[];
  readonly material: string;
  readonly leastAssay: number;
}

type Found =
  | {
      readonly kind: 'most';
      readonly moles: number;
      readonly limit: BoughtLimit;
      readonly perUnit: number;
      readonly starts: readonly number[];
    }
  | { readonly kind: 'no limit' }
  | { readonly kind: 'nothing'; readonly material: string | null };

/** The greatest t of the problem, from above: each proof that t is out of reach gives a smaller one. */
function largest({ needs, limits, material, leastAssay }: Problem): Found {
  const floors = floorsOf(needs);
  const left = limits.map((limit) => limit.onHand - fixedOf(limit, needs.batches));
  const rows = [...floors.map((one) => one.row), ...limits.map((limit) => limit.perMole.map((value) => -value))];
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
    if (!(growth > 0) || !(next >= 0)) return { kind: 'nothing', material: worst?.limit.material ?? null };
    if (worst) deciding = { limit: worst.limit, perUnit: worst.weight / growth };
    // A bound that no longer moves is the answer to within rounding.
    t = next < t ? next : t * (1 - 1e-12);
  }
  return { kind: 'nothing', material: null };
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

function fixedOf(limit: BoughtLimit, batches: readonly number[]): number {
  return limit.perBatch.reduce((sum, amount, i) => sum + amount * (batches[i] ?? 0), 0);
}

/** What each step starts when a target is planned: mol of basis, and batches. */
interface Planned {
  readonly starts: readonly number[];
  readonly batches: readonly number[];
}

/** What the plan would run for a target; null where it cannot be planned. */
function plannedAt(
  input: PlanInput,
  network: Network,
  ready: ReturnType<typeof setUp>,
  drawId: string,
  moles: number,
): Planned | null {
  const draws = input.ask.draws.map((draw) => (draw.id === drawId ? { ...draw, amount: moles, unit: 'mol' as const } : draw));
  const asked = setUp({ ...input, ask: { ...input.ask, draws } });
  const stock = usableStock(input, network, ready.facts, ready.bottles);
  const started = startSteps(asked.input, network, ready.facts, asked.reading.wants, stock);
  if (!started.ok) return null;
  return {
    starts: started.starts.steps.map((step) => step.basisMoles.value),
    batches: started.starts.steps.map((step, i) => (step.active ? (started.starts.counts[i]?.count ?? 1) : 0)),
  };
}

/** Relative size below which a plan takes as much as there is. */
const AS_MUCH = 1e-6;

/** Limits that a plan goes beyond. */
function shortWhen(planned: Planned | null, limits: readonly BoughtLimit[]): readonly string[] {
  if (!planned) return [];
  const taken = (limit: BoughtLimit): number =>
    planned.starts.reduce((sum, start, i) => sum + start * (limit.perMole[i] ?? 0), fixedOf(limit, planned.batches));
  return limits.flatMap((limit) => (taken(limit) > limit.onHand * (1 + AS_MUCH) ? [limit.material] : []));
}

/** The answer in grams, with what would limit next. */
function said(
  found: Found & { readonly kind: 'most' },
  problem: Problem,
  molarMass: number,
  nameOf: (key: string) => string,
  planned: Planned | null,
): MostTarget {
  const { limit, perUnit, moles } = found;
  const next = largest({ ...problem, limits: problem.limits.filter((one) => one !== limit) });
  const used = next.kind === 'most' ? next.starts.reduce((sum, start, i) => sum + start * (limit.perMole[i] ?? 0), 0) : 0;
  const onHand = entered(`${nameOf(limit.material)} on hand`, limit.onHand, limit.unit, 'the shelf');
  const brings = entered(`target per ${limit.unit} of it`, perUnit * molarMass, limit.unit === 'g' ? 'g/g' : '', 'the plan');
  return {
    kind: 'most',
    moles,
    planShort: shortWhen(planned, problem.limits).map(nameOf),
    grams: computed(
      `most ${nameOf(problem.material)}`,
      moles * molarMass,
      'g',
      `as much as ${nameOf(limit.material)} on hand allows`,
      [onHand, brings],
    ),
    bottleneck: {
      material: limit.material,
      name: nameOf(limit.material),
      unit: limit.unit,
      onHand: limit.onHand,
      perUnit: perUnit * molarMass,
      more: next.kind === 'most' ? Math.max(0, used + fixedOf(limit, problem.needs.batches) - limit.onHand) : null,
      thenGrams: next.kind === 'most' ? next.moles * molarMass : null,
      thenMaterial: next.kind === 'most' ? nameOf(next.limit.material) : null,
    },
  };
}
