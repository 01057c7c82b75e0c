import { explosiveIn, explosiveWhy } from '../bench/explosive.ts';
import type { Facts } from '../matter/facts.ts';
import { entered } from '../quantity/figure.ts';
import type { Step } from '../route/route.ts';
import type { Notice } from '../words/notice.ts';
import type { PlanInput } from './input.ts';
import { materialPlans } from './materials.ts';
import type { Network } from './network/network.ts';
import type { PlanResult } from './result.ts';
import type { SetUp } from './set-up.ts';
import type { Starts } from './solve/starts.ts';

/** Draws of a material of the route that no step makes. */
export function unmadeDraws({ ask, route }: PlanInput, network: Network, facts: ReadonlyMap<string, Facts>): readonly Notice[] {
  return ask.draws.flatMap(({ id, material }): readonly Notice[] => {
    if (!route.materials[material] || network.makersOf.has(material)) return [];
    const values = { material: facts.get(material)?.name ?? material };
    return [{ level: 'error', code: 'not made', values, at: { draw: id } }];
  });
}

/**
 * A step that runs and whose product or mixture is classed as explosive is not scaled, and nothing that hangs on it: no
 * amounts at all, with the reason. Left out, its product counts as bought and the rest can be planned.
 */
export function explosiveNotices(input: PlanInput, starts: Starts, facts: ReadonlyMap<string, Facts>): readonly Notice[] {
  return input.route.steps.flatMap((step, at) => (starts.steps[at]?.active ? explosiveStep(step, input, facts) : []));
}

/**
 * Why there is no plan, where it cannot be told what would run: the same of every step that is not left out comes first,
 * and nothing more is asked about such a material.
 */
export function explosiveFirst(why: readonly Notice[], input: PlanInput, facts: ReadonlyMap<string, Facts>): readonly Notice[] {
  const leftOut = new Set(input.ask.leaveOut);
  const found = input.route.steps.flatMap((step) => (leftOut.has(step.id) ? [] : explosiveStep(step, input, facts)));
  const names = new Set(found.map(({ values }) => values.material));
  return [...found, ...why.filter(({ values }) => !names.has(values.material))];
}

function explosiveStep(step: Step, { reference }: PlanInput, facts: ReadonlyMap<string, Facts>): readonly Notice[] {
  const found = explosiveIn(step, facts, reference);
  if (!found) return [];
  return [{ level: 'error', ...explosiveWhy(found, step.title), at: { step: step.id, material: found.material } }];
}

/** A plan without amounts: what was asked, and why there are none. */
export function unsolved({ input, facts, reading, network }: SetUp, notices: readonly Notice[]): PlanResult {
  return {
    name: input.ask.name,
    route: input.route.name,
    asOf: input.asOf,
    solved: false,
    start: { kind: 'likeliest', chancePercent: null, multiplier: entered('start', 1, '', 'the likeliest yields') },
    draws: reading.draws,
    materials: materialPlans(input.route, facts, network.ok ? network.network : null),
    steps: [],
    flow: { bands: [], pathStoichiometry: {} },
    fetch: [],
    makeUps: [],
    choices: [],
    notices,
  };
}
