import { explosiveIn } from '../bench/explosive.ts';
import type { Facts } from '../matter/facts.ts';
import { chooseStart, type Situation, wantsAt } from '../confidence/start-choice.ts';
import { entered } from '../quantity/figure.ts';
import type { Bottle } from '../shelf/shelf.ts';
import type { Notice } from '../words/notice.ts';
import { assemble, materialPlans } from './assemble.ts';
import type { PlanInput } from './input.ts';
import { shortNotices } from './left-short.ts';
import type { Network } from './network.ts';
import { formulaNotices } from './plan-notices.ts';
import type { DrawPlan, PlanResult } from './result.ts';
import { usableStock } from './route-stock.ts';
import { setUp } from './set-up.ts';
import { type Starts, startSteps } from './starts.ts';
import type { Reading } from './wants.ts';

/**
 * Scales a route backward from its draws to what is weighed, measured and fetched.
 *
 *     draws ─▶ moles wanted ─▶ starts of every step ─▶ batches ─▶ charges ─▶ shelf ─▶ what to take, make up, buy
 *
 * Pure: no clock, no chance, no memory. Trouble is part of the result; what can be shown is.
 */
export function plan(given: PlanInput): PlanResult {
  const prepared = prepare(given);
  if (!prepared.ok) return prepared.result;
  const { situation, bottles, reading, early } = prepared;
  const { input, network, facts } = situation;
  const chosen = chooseStart(situation);
  if (!chosen.ok) return unsolved(input, facts, reading.draws, [...early, chosen.notice], network);
  const { steps, counts, handovers } = chosen.starts;
  const batches = steps.map((step, i) => (step.active ? (counts[i]?.count ?? 1) : 0));
  const wants = wantsAt(situation, chosen.start.multiplier);
  const short = shortNotices({ network, facts, steps, wants, batches, handovers });
  const notices = [...early, ...chosen.notices, ...short];
  return assemble(input, network, facts, bottles, reading, chosen.starts, chosen.start, notices);
}

export type Prepared =
  | {
      readonly ok: true;
      readonly situation: Situation;
      readonly bottles: ReadonlyMap<string, readonly Bottle[]>;
      readonly reading: Reading;
      readonly early: readonly Notice[];
    }
  | { readonly ok: false; readonly result: PlanResult };

/** Everything up to the starts at the likeliest yields; or the plan that cannot be solved, saying why. */
export function prepare(given: PlanInput): Prepared {
  const refuse = (...of: Parameters<typeof unsolved>): Prepared => ({ ok: false, result: unsolved(...of) });
  const { input, facts, bottles, reading, network } = setUp(given);
  const early = [...formulaNotices(input.route, facts), ...reading.notices];
  if (!network.ok) return refuse(input, facts, reading.draws, [...early, ...network.notices], null);
  const unmade = input.ask.draws.filter(
    (draw) => input.route.materials[draw.material] && !network.network.makersOf.has(draw.material),
  );
  const refused = [
    ...early,
    ...unmade.map(
      (draw): Notice => ({
        level: 'error',
        code: 'not made',
        values: { material: facts.get(draw.material)?.name ?? draw.material },
        at: { draw: draw.id },
      }),
    ),
  ];
  if (unmade.length > 0 || reading.notices.length > 0) return refuse(input, facts, reading.draws, refused, network.network);
  const stock = usableStock(input, network.network, facts, bottles);
  const started = startSteps(input, network.network, facts, reading.wants, stock);
  if (!started.ok) return refuse(input, facts, reading.draws, [...refused, started.notice], network.network);
  const explosive = refusals(input, started.starts, facts);
  if (explosive.length > 0) return refuse(input, facts, reading.draws, [...refused, ...explosive], network.network);
  const situation = { input, network: network.network, facts, wants: reading.wants, stock, base: started.starts };
  return { ok: true, situation, bottles, reading, early };
}

/**
 * A step that runs and whose product or mixture is classed as explosive is not scaled, and nothing that hangs on it: no
 * amounts at all, with the reason. Left out, its product counts as bought and the rest can be planned.
 */
function refusals(input: PlanInput, starts: Starts, facts: ReadonlyMap<string, Facts>): readonly Notice[] {
  return input.route.steps.flatMap((step, at): readonly Notice[] => {
    const found = starts.steps[at]?.active ? explosiveIn(step, facts, input.reference) : null;
    if (!found) return [];
    const values = { material: found.name, codes: found.codes, how: found.how, step: step.title };
    return [{ level: 'error', code: 'explosive not scaled', values, at: { step: step.id, material: found.material } }];
  });
}

function unsolved(
  input: PlanInput,
  facts: ReadonlyMap<string, Facts>,
  draws: readonly DrawPlan[],
  notices: readonly Notice[],
  network: Network | null,
): PlanResult {
  return {
    name: input.ask.name,
    route: input.route.name,
    asOf: input.asOf,
    solved: false,
    start: { kind: 'likeliest', chancePercent: null, multiplier: entered('start', 1, '', 'the likeliest yields') },
    draws,
    materials: materialPlans(input.route, facts, network),
    steps: [],
    flow: { bands: [], pathStoichiometry: {} },
    fetch: [],
    makeUps: [],
    choices: [],
    notices,
  };
}
