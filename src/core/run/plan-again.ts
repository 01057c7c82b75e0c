import { neatFraction } from '../matter/form.ts';
import type { Ask, Draw } from '../plan/ask.ts';
import { comparePlans, type Difference } from '../plan/compare.ts';
import type { PlanInput } from '../plan/input.ts';
import { plan } from '../plan/plan.ts';
import type { PlanResult } from '../plan/result.ts';
import { NEAT } from '../matter/form.ts';
import { computed, type Figure, entered } from '../quantity/figure.ts';
import type { Bottle, Shelf } from '../shelf/shelf.ts';
import { runOutcome } from './outcome.ts';
import type { RunSheet } from './run-sheet.ts';
import type { RunState } from './state.ts';

/** One way to go on, with everything it changes against the batch as it was planned. */
export interface Proposal {
  /**
   * keep: the draws stay, and the step is repeated where it must be. lower, raise: one draw follows what there is.
   * scale: every draw that lives on this product is lowered by the same part.
   */
  readonly kind: 'keep' | 'lower' | 'scale' | 'raise';
  /** The draw that changes; null where none or several do. */
  readonly draw: string | null;
  /** What the plan would ask; null where nothing of it changes. */
  readonly ask: Ask | null;
  readonly changes: readonly Difference[];
  /** Contained product that its own step still has to make beyond the batches that are left; 0 where none is. */
  readonly again: Figure<'g'>;
}

export interface PlanAgain {
  /** Contained product, obtained less planned: below zero where it fell short. */
  readonly difference: Figure<'g'>;
  readonly proposals: readonly Proposal[];
}

/** Differences below this part of what was planned are not worth a proposal. */
const SAME = 5e-3;
/** Part of an amount that computing may be off by. */
const NOISE = 1e-6;
/** Halvings in the search for an amount: to a millionth of it. */
const HALVINGS = 20;
/** A draw is not raised beyond so many times what was asked. */
const MOST_TIMES = 64;

/**
 * What to do now that a batch gave more or less than planned. Nothing is changed: each proposal says what it would.
 * @param input the plan as it is asked, on the shelf as it is now, with what the run made on it.
 * @param left batches of the step that are still to be run, ≥ 0.
 * @returns null where no product is weighed, or the plan cannot be worked out.
 */
export function planAgain(input: PlanInput, sheet: RunSheet, state: RunState, left: number): PlanAgain | null {
  const { product } = runOutcome(sheet, state);
  if (!product.ok || !plan(input).solved) return null;
  const planned = entered(`${sheet.sheet.product}, planned`, sheet.product.grams, 'g', 'the sheet', 6);
  const off = product.figure.value - planned.value;
  const difference = computed('obtained, against planned', off, 'g', 'obtained − planned', [product.figure, planned]);
  const asPlanned = plan({ ...input, shelf: shelfWith(input.shelf, sheet.product, state, -off) });
  const still = planned.value * left;
  const proposed = (kind: Proposal['kind'], draw: string | null, ask: Ask | null): Proposal => {
    const then = plan(ask ? { ...input, ask } : input);
    const more = Math.max(0, makes(then, sheet.step) - still);
    const again = computed(`${sheet.sheet.product} still to be made`, more > still * NOISE + NOISE ? more : 0, 'g', 'the plan', [
      planned,
    ]);
    return {
      kind,
      draw,
      ask,
      changes: comparePlans({ result: asPlanned }, { result: then }).filter((one) => one.differs),
      again,
    };
  };
  const proposals = [proposed('keep', null, null)];
  const suffices = (of: PlanInput): boolean => {
    const result = plan(of);
    return result.solved && makes(result, sheet.step) <= still * (1 + NOISE) + NOISE;
  };
  // An amount is searched for to the last digit: what a plan passes over as too little for a batch is not for the taking.
  const exact = { ...input, shelf: withoutLedgers(input.shelf) };
  const enough = (ask: Ask): boolean => suffices({ ...exact, ask });
  const living = drawsOf(input, sheet.product.material);
  if (!suffices(input)) proposals.push(...lowered(input.ask, living, enough).map((one) => proposed(...one)));
  else if (off > SAME * planned.value) {
    proposals.push(...raised(input.ask, living, enough).map((one) => proposed(...one)));
  }
  return { difference, proposals };
}

const makes = (result: PlanResult, step: string): number => {
  const found = result.steps.find((one) => one.id === step);
  return found?.active ? found.product.grams.value : 0;
};

/** The shelf with what is left and not what was made: nothing then counts as near enough. */
function withoutLedgers(shelf: Shelf): Shelf {
  return { ...shelf, bottles: shelf.bottles.map((bottle) => ({ ...bottle, ledger: [] })) };
}

/** Stands on the shelf as planned where a run gave nothing, so no bottle of its own does. */
const AS_PLANNED = 'as planned';

/**
 * The shelf with the run's own bottles holding so much more or less of it, contained. More goes into the first of them, or
 * into one of its own where there is none; less is taken from one after the other.
 */
function shelfWith(shelf: Shelf, { holds }: RunSheet['product'], state: RunState, more: number): Shelf {
  const own = new Set(state.products.map((one) => one.bottle));
  const places = shelf.bottles.flatMap((one, at) => (own.has(one.id) ? [at] : []));
  if (places.length === 0) {
    if (!(more > 0)) return shelf;
    // The shelf's own names of materials are not the route's.
    const materials = { ...shelf.materials, [AS_PLANNED]: holds };
    const bottle = { id: AS_PLANNED, material: AS_PLANNED, form: NEAT, left: more, unit: 'g' } as const;
    return { ...shelf, materials, bottles: [...shelf.bottles, bottle] };
  }
  let rest = more;
  const bottles = [...shelf.bottles];
  for (const at of places) {
    const bottle = bottles[at];
    if (!bottle || rest === 0) continue;
    const change = Math.max(-bottle.left, rest / partOf(bottle));
    bottles[at] = { ...bottle, left: bottle.left + change };
    rest = rest > 0 ? 0 : Math.min(0, rest - change * partOf(bottle));
  }
  return { ...shelf, bottles };
}

const partOf = ({ form }: Bottle): number => (form.kind === 'neat' ? (neatFraction(form) ?? 1) : 1);

/** Draws that are made from a material, over however many steps, or are of it. */
function drawsOf({ route, ask }: PlanInput, material: string): readonly Draw[] {
  const reached = new Set([material]);
  for (let before = 0; before !== reached.size; ) {
    before = reached.size;
    for (const step of route.steps) {
      const takes = step.operations.some((one) => one.do === 'charge' && reached.has(one.material));
      if (takes) for (const term of step.equation.makes) if (!term.gas) reached.add(term.material);
    }
  }
  return ask.draws.filter((draw) => draw.amount > 0 && reached.has(draw.material));
}

type Asked = readonly [kind: Proposal['kind'], draw: string | null, ask: Ask];

function lowered(ask: Ask, living: readonly Draw[], enough: (ask: Ask) => boolean): readonly Asked[] {
  const single = living.flatMap((draw): readonly Asked[] => {
    const found = largest(1, (factor) => enough(scaled(ask, new Set([draw.id]), factor)));
    return found > 0 ? [['lower', draw.id, scaled(ask, new Set([draw.id]), found)]] : [];
  });
  if (living.length < 2) return single;
  const ids = new Set(living.map((draw) => draw.id));
  const all = largest(1, (factor) => enough(scaled(ask, ids, factor)));
  return all > 0 ? [['scale', null, scaled(ask, ids, all)], ...single] : single;
}

function raised(ask: Ask, living: readonly Draw[], enough: (ask: Ask) => boolean): readonly Asked[] {
  return living.flatMap((draw): readonly Asked[] => {
    let most = 2;
    while (most < MOST_TIMES && enough(scaled(ask, new Set([draw.id]), most))) most *= 2;
    const found = largest(most, (factor) => enough(scaled(ask, new Set([draw.id]), factor)));
    return found > 1 + SAME && found < MOST_TIMES ? [['raise', draw.id, scaled(ask, new Set([draw.id]), found)]] : [];
  });
}

/** The largest factor up to `most` that is enough, to a thousandth of the amount, never more; 0 where none is. */
function largest(most: number, enough: (factor: number) => boolean): number {
  let [low, high] = [0, most];
  for (let i = 0; i < HALVINGS; i += 1) {
    const middle = (low + high) / 2;
    if (enough(middle)) low = middle;
    else high = middle;
  }
  const near = Math.round(low * 1e4) / 1e4;
  return enough(near) ? near : Math.floor(low * 1e4) / 1e4;
}

/** Draws multiplied, with digits a person would type. */
function scaled(ask: Ask, ids: ReadonlySet<string>, factor: number): Ask {
  const times = (amount: number): number => Number((amount * factor).toPrecision(12));
  return { ...ask, draws: ask.draws.map((draw) => (ids.has(draw.id) ? { ...draw, amount: times(draw.amount) } : draw)) };
}
