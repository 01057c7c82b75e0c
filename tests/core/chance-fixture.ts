import { type Chances, chancesOf, distributionsOf } from '../../src/core/confidence/start-choice.ts';
import { uncertaintyOf } from '../../src/core/confidence/uncertainty.ts';
import type { Ask, Draw } from '../../src/core/plan/ask.ts';
import type { PlanInput } from '../../src/core/plan/input.ts';
import { prepare } from '../../src/core/plan/plan.ts';
import type { Route } from '../../src/core/route/route.ts';
import type { Bottle } from '../../src/core/shelf/shelf.ts';
import { reference } from '../reference/tables.ts';
import { settings, shelfOf, TODAY } from './build.ts';

export const FORMULA = 'C6H12';
export const MASS = 84.162;

export function inputOf(one: Route, draws: readonly Draw[], bottles: readonly Bottle[] = [], ask: Partial<Ask> = {}): PlanInput {
  const shelf = shelfOf(one, bottles);
  return { route: one, ask: { name: 'a plan', draws: [...draws], ...ask }, shelf, settings, reference, asOf: TODAY };
}

/** Chance of enough at multiples of the likeliest start. */
export function chances(input: PlanInput): Chances {
  const prepared = prepare(input);
  if (!prepared.ok) throw new Error('not planned');
  const { situation } = prepared;
  return chancesOf(situation, uncertaintyOf(distributionsOf(situation.network, situation.input.ask)));
}
