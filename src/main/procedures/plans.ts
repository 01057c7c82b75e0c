import { listPlans, listStates, putPlan, readPlan, savePlan } from '../store/plans.ts';
import type { Procedures } from './context.ts';

type PlanName = Extract<keyof Procedures, `plans.${string}`>;

export const planProcedures: Procedures<PlanName> = {
  'plans.list': ({ keeper }) => listPlans(keeper.database()),

  'plans.read': ({ keeper }, { id }) => readPlan(keeper.database(), id),

  'plans.create': ({ keeper, clock }, { routeId, ask }) => {
    const database = keeper.database();
    return database.write(() => putPlan(database, routeId, ask, clock.now()));
  },

  'plans.save': ({ keeper, clock }, { id, after, ask, words }) => {
    const database = keeper.database();
    const saved = clock.now();
    return { state: database.write(() => savePlan(database, id, after, ask, words, saved)), saved };
  },

  'plans.states': ({ keeper }, { id }) => listStates(keeper.database(), id),
};
