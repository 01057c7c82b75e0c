import type { Facts } from '../../matter/facts.ts';
import { entered } from '../../quantity/figure.ts';
import type { Step } from '../../route/route.ts';
import type { Notice } from '../../words/notice.ts';
import { batchCount, MOST_BATCHES, runsOf } from '../batches/batches.ts';
import { nothingLeft } from '../batches/nothing-left.ts';
import type { PlanInput } from '../input.ts';
import type { Solved } from './choose-starts.ts';
import { makes, type RequirementInput } from './needs.ts';
import { solved } from './requirements.ts';

/** Starts and batches that agree with each other. */
export interface Settled {
  /** Mol of basis by step. */
  readonly starts: readonly number[];
  /** Batches by step; none where it does not run. */
  readonly batches: readonly number[];
  /** Of the first step whose batches give nothing, whatever their number: why. Null where each gives something. */
  readonly nothing: Notice | null;
}

export type Settling =
  | { readonly ok: true; readonly settled: Settled }
  | { readonly ok: false; readonly notice: Extract<Solved, { readonly ok: false }>['notice'] };

/** Rounds after which a step is no longer taken to stop where it stopped once: no two steps can take turns for ever. */
const NO_MORE_TURNS = 100;
/** Rounds of small growth before a film is reckoned with at once: most plans agree in two or three. */
const LEAPS_FROM = 5;

/**
 * Starts and batches together: what is charged or lost once a batch adds to the need, a greater need may ask for another
 * batch. Batches only grow, and a step has only so many (batches.ts), so it ends. Only batches that change something
 * are counted here.
 * @param perBatch by step: whether a batch more charges, loses or costs something.
 * @param first the starts without anything once a batch, where they are known already.
 */
export function settle(
  input: PlanInput,
  asked: Omit<RequirementInput, 'batches'>,
  perBatch: readonly boolean[],
  first?: Solved,
): Settling {
  const { steps } = asked.network;
  let counts: readonly number[] = steps.map(() => 1);
  // The first round leaves out what is charged once a batch; a step that does not run charges nothing.
  let batches: readonly number[] = steps.map(() => 0);
  for (let round = 0; ; round += 1) {
    const found = first && round === 0 ? first : solved({ ...asked, batches });
    if (!found.ok) return found;
    const { starts } = found;
    const before = batches;
    counts = steps.map((step, i) => {
      const [start = 0, known = 1] = [starts[i], counts[i]];
      if (!perBatch[i] || !(start > 0)) return known;
      const count = countBatches(step, start, known, input, asked.facts);
      return count > known && round >= LEAPS_FROM
        ? Math.max(count, Math.min(MOST_BATCHES, filmAsksFor(asked, i, { start, count, before: before[i] ?? 0 })))
        : count;
    });
    const running = starts.map((start, i) => {
      const stops = round < NO_MORE_TURNS ? 0 : (before[i] ?? 0);
      return start > 0 ? (counts[i] ?? 1) : stops;
    });
    if (perBatch.every((one, i) => !one || running[i] === before[i])) {
      return { ok: true, settled: { starts, batches: running, nothing: firstNothing(input, asked, starts, running) } };
    }
    batches = running;
  }
}

function firstNothing(
  input: PlanInput,
  asked: Omit<RequirementInput, 'batches'>,
  starts: readonly number[],
  batches: readonly number[],
): Notice | null {
  const { network, facts } = asked;
  const found = network.steps.map(({ product }, at) => {
    const start = starts[at] ?? 0;
    const of = { input, network, facts, at, start, batches: batches[at] ?? 0, perMole: makes(asked, at, product) };
    return start > 0 ? nothingLeft(of) : null;
  });
  return found.find((one) => one !== null) ?? null;
}

/** What a round found of a step: mol of basis, the fewest batches for it, and those it was worked out with. */
interface Round {
  readonly start: number;
  readonly count: number;
  readonly before: number;
}

/**
 * Batches a step needs at least when every further one leaves its film behind too. Where the film nearly equals what a
 * batch makes, counting batch by batch takes hundreds of rounds; this gets there in a few and never beyond:
 *
 *     n batches ≥ start ÷ c, made = need + n · film       →      n ≥ need ÷ (c · made per mol − film)
 *
 * where c, basis in a batch that is just too large, is what one batch less would have to hold.
 */
function filmAsksFor(asked: Omit<RequirementInput, 'batches'>, i: number, { start, count, before }: Round): number {
  const film = asked.network.lost[i] ?? 0;
  const product = asked.network.steps[i]?.product;
  const perMole = product === undefined ? 0 : makes(asked, i, product);
  if (film === 0 || count < 2) return count;
  const need = start * perMole - film * before;
  const left = (start / (count - 1)) * perMole - film;
  // Rounding must not make a batch more of it.
  if (!(need > 0)) return count;
  return left > 0 ? Math.ceil((need / left) * (1 - 1e-9)) : Number.POSITIVE_INFINITY;
}

/** Batches of a step for a start. @param start mol of basis; @param atLeast batches only grow while starts are solved. */
function countBatches(step: Step, start: number, atLeast: number, input: PlanInput, facts: ReadonlyMap<string, Facts>): number {
  const whole = { step, facts, reference: input.reference, basisMoles: entered('basis', start, 'mol', 'the plan') };
  return batchCount(whole, runsOf(whole), input.settings, atLeast, input.ask.batches?.[step.id]).count;
}
