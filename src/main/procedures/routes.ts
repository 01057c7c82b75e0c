import { mainWords } from '../../core/words/main-words.ts';
import { readRoute } from '../stand-in-readers.ts';
import { Refusal } from '../store/refusal.ts';
import { listRoutes, putRoute, readRouteRevision } from '../store/routes.ts';
import type { Procedures } from './context.ts';

type RouteName = Extract<keyof Procedures, `routes.${string}`>;

export const routeProcedures: Procedures<RouteName> = {
  'routes.list': ({ keeper }) => listRoutes(keeper.database()),

  'routes.read': ({ keeper }, { id }) => readRouteRevision(keeper.database(), id),

  'routes.import': ({ keeper, clock }, { text }) => {
    const read = readRoute(text);
    if (!read.ok) throw new Refusal('refused', mainWords.fileProblems(read.problems.length), read.problems);
    const database = keeper.database();
    return { id: database.write(() => putRoute(database, read.route, clock.now())) };
  },

  'routes.export': ({ keeper }, { id }) => ({
    text: `${JSON.stringify(readRouteRevision(keeper.database(), id).route, null, 2)}\n`,
  }),
};
