import { chooseStart, type Situation, wantsAt } from '../confidence/start-choice.ts';
import type { Bottle } from '../shelf/shelf.ts';
import type { Notice } from '../words/notice.ts';
import { flowOf } from './flow.ts';
import type { PlanInput } from './input.ts';
import { materialPlans } from './materials.ts';
import { formulaNotices, planNotices } from './plan-notices.ts';
import { explosiveFirst, explosiveNotices, unmadeDraws, unsolved } from './refusals.ts';
import type { PlanResult } from './result.ts';
import { type SetUp, setUp } from './set-up.ts';
import { shortNotices } from './solve/left-short.ts';
import { startSteps } from './solve/starts.ts';
import { stepPlans } from './step/step-plans.ts';
import { nearEnough } from './stock/near-enough.ts';
import { notCounted } from './stock/not-counted.ts';
import { usableStock } from './stock/route-stock.ts';
import { takeFromShelf } from './stock/take.ts';

/**
 * Scales a route backward, from its draws to what is weighed, measured, made up and bought.
 *
 * Pure: no clock, no chance, no memory. Trouble is part of the result; what can be shown is. A step's ratios refer to its
 * basis, and its start is how much of the basis it begins with: find every start, and all else follows. The whole way,
 * with an example that tests/core/plan-page.test.ts holds to these very figures:
 *
 *     methyl salicylate ─▶ from ester 85 % ─┐
 *          sodium hydroxide ───▲            ├─▶ salicylic acid ──▶ acetylation 80 % ──▶ aspirin ─┬─▶ 10.0 g, to use
 *     sodium salicylate ─▶ from salt  90 % ─┘         ▲                  ▲                       └─▶ 0.50 g, to keep
 *          6 mol/L HCl ────────▲            2.00 g of 98 %        acetic anhydride, 2 equiv
 *                                           on the shelf          6 g of basis a batch at most; 0.10 g stays in each flask
 *
 *   backward, in mmol, to be read from the right:
 *
 *       66.72 ◀── ÷ 0.90 ── 60.05 ◀─── − 14.19 ─── 74.24 ◀── ÷ 0.80 ── 59.39 ◀── + 2 × 0.555 ── 58.28
 *       start of            to make    shelf       start of            to make   in the flasks  drawn
 *       from salt                                  acetylation
 *
 *    step           in the example                                                            file
 *    ── read ───────────────────────────────────────────────────────────────────────────────────────────────────────
 *    1 draws        10.0 g + 0.50 g, ÷ 180.159 g/mol = 58.28 mmol of aspirin wanted           wants.ts
 *    2 network      who makes what, and takes what for a mol of its basis;                    network/network.ts
 *                   salicylic acid has two makers
 *    3 order        makers before users, loops together: from ester, from salt, acetylation   network/order.ts
 *    4 stock        2.00 g × 98 % ÷ 138.122 g/mol = 14.19 mmol of salicylic acid there        stock/route-stock.ts
 *    ── backward ───────────────────────────────────────────────────────────────────────────────────────────────────
 *    5 starts       start = ( draws + uses + lost in the flasks − stock ) ÷ yield             solve/starts.ts
 *                   one maker of each material: division, users before makers;               solve/requirements.ts
 *                   several makers: the program below
 *        needs      58.28 + 2 × 0.555 lost = 59.39 mmol of aspirin to make                    solve/needs.ts
 *        division   59.39 ÷ 0.80 = 74.24 mmol of salicylic acid into acetylation;             solve/solve.ts
 *                   steps that feed each other are solved together, as a small linear system
 *        needs      74.24 − 14.19 = 60.05 mmol of salicylic acid to make
 *        makers     from ester for 61.7 g of bought materials, from salt for 39.3 g:          solve/choose-starts.ts
 *                   from salt runs, 60.05 ÷ 0.90 = 66.72 mmol                                 solve/linear-program.ts
 *    6 batches      10.25 g of salicylic acid, 6 g at most: 2 batches. What each of them      batches/batches.ts
 *                   charges or loses adds to the needs: 5 again, until nothing changes        solve/settle.ts
 *                   (0.10 g stays in each flask: the 2 × 0.555 above).
 *                   With several makers this is done for each way, since such a loss can      solve/makers.ts
 *                   make the dearer one cheaper. A flask that keeps all it makes ends here.   batches/nothing-left.ts
 *                   Where runs made milligrams less than is asked: no batch for them          stock/near-enough.ts
 *                   What cannot be planned, or is an explosive, ends here without amounts     refusals.ts
 *    7 start        × 1, the likeliest yields; or the least that has the chance asked for     ../confidence/start-choice.ts
 *    ── forward again ──────────────────────────────────────────────────────────────────────────────────────────────
 *    8 handed out   14.19 mmol of the shelf and 60.05 mmol of from salt into acetylation;     solve/share-out.ts
 *                   what is asked for and handed to nobody is said: here nothing              solve/left-short.ts
 *    9 charges      1.1 equiv × 66.72 = 73.39 mmol of HCl, ÷ 6 mol/L = 12.23 mL               step/run-step.ts
 *   10 shelf        the HCl is made up from the bottle of 37 % w/w; acetic anhydride:         stock/take.ts
 *                   14.04 mL needed, 10.0 mL on hand, 4.04 mL short.                          ../shelf/fetch.ts
 *                   What steps that feed each other need in hand first: here nothing          stock/loop-lines.ts
 *   11 rounding     one of two batches: 5.147 g of salicylic acid, on the balance 5.15 g;     step/charge-plan.ts
 *                   every equivalent counts against what is weighed                           ../bench/take.ts
 *   12 said         the picture of the flow; what is short, unclear, dangerous                flow.ts, plan-notices.ts
 */
export function plan(given: PlanInput): PlanResult {
  const prepared = prepare(given); // 1 to 6
  if (!prepared.ok) return prepared.result;
  const { situation, bottles, read, early } = prepared;
  const { network, facts, input } = situation;
  const chosen = chooseStart(situation); // 7
  if (!chosen.ok) return unsolved(read, [...early, chosen.notice]);
  const { starts, start } = chosen;
  const { steps: required, handovers, choices } = starts; // 8
  const batches = required.map((step, i) => (step.active ? (starts.counts[i]?.count ?? 1) : 0));
  const wants = wantsAt(situation, start.multiplier);
  const short = shortNotices({ network, facts, steps: required, wants, batches, handovers });
  const taken = takeFromShelf(situation, starts, bottles); // 9, 10
  const steps = stepPlans(situation, starts, taken); // 11
  return {
    name: input.ask.name,
    route: input.route.name,
    asOf: input.asOf,
    solved: true,
    start,
    draws: read.reading.draws,
    materials: materialPlans(input.route, facts, network, required),
    steps,
    flow: flowOf({ network, ask: input.ask, facts, requirements: required, handovers }), // 12
    fetch: taken.fetch,
    choices,
    makeUps: taken.makeUps,
    notices: [...early, ...chosen.notices, ...short, ...planNotices(situation, starts, taken, steps)],
  };
}

/** What steps 1 to 6 found, for this plan and for how sure it is (confidence/confidence.ts). */
export type Prepared =
  | {
      readonly ok: true;
      /** Network, wants, stock, and the starts at the likeliest yields (`base`). */
      readonly situation: Situation;
      /** Bottles of the shelf, by the route's material. */
      readonly bottles: ReadonlyMap<string, readonly Bottle[]>;
      /** What was asked, as it was read. */
      readonly read: SetUp;
      /** What is to be said before anything of the starts. */
      readonly early: readonly Notice[];
    }
  | { readonly ok: false; readonly result: PlanResult };

/**
 * Steps 1 to 6: the starts at the likeliest yields; or the plan that cannot be solved, saying why: a draw that nothing makes,
 * a loop that takes all it gives back, a yield of nothing, an explosive.
 */
export function prepare(given: PlanInput): Prepared {
  const read = setUp(given); // 1, 2, 3
  const { input, facts, bottles, reading } = read;
  const early = [...formulaNotices(input.route, facts), ...reading.notices];
  const refuse = (...why: readonly Notice[]): Prepared => ({
    ok: false,
    result: unsolved(read, explosiveFirst([...early, ...why], input, facts)),
  });
  if (!read.network.ok) return refuse(...read.network.notices);
  const { network } = read.network;
  const unmade = unmadeDraws(input, network, facts);
  if (unmade.length > 0 || reading.notices.length > 0) return refuse(...unmade);
  const stock = usableStock(input, network, facts, bottles); // 4
  const start = (from: typeof stock) => startSteps(input, network, facts, reading.wants, from); // 5, 6
  const started = start(stock);
  if (!started.ok) return refuse(started.notice);
  // Runs made a few milligrams less than is asked: no batch is begun for them.
  const near = nearEnough({ stock, starts: started.starts, notices: [] }, network, facts, bottles, start);
  // Bottles of what is made that stand there and were not counted: each with the reason.
  const uncounted = notCounted(input, network, near.starts, facts, bottles);
  const explosive = explosiveNotices(input, near.starts, facts);
  if (explosive.length > 0) return { ok: false, result: unsolved(read, [...early, ...explosive]) };
  const situation = { input, network, facts, wants: reading.wants, stock: near.stock, base: near.starts };
  return { ok: true, situation, bottles, read, early: [...early, ...near.notices, ...uncounted] };
}
