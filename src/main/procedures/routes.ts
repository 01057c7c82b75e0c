import { readRoute } from '../../core/route/read-route.ts';
import {
  hideRoute,
  listRevisions,
  listRoutes,
  putRoute,
  putRouteRevision,
  readRouteRevision,
  routeCalled,
} from '../store/routes.ts';
import type { Procedures } from './context.ts';
import { fileContent } from './read-file.ts';

type RouteName = Extract<keyof Procedures, `routes.${string}`>;

export const routeProcedures: Procedures<RouteName> = {
  'routes.list': ({ keeper }) => listRoutes(keeper.database()),

  'routes.read': ({ keeper }, { id, revision }) => readRouteRevision(keeper.database(), id, revision),

  'routes.revisions': ({ keeper }, { id }) => listRevisions(keeper.database(), id),

  'routes.preview': async ({ keeper, reference }, { text }) => {
    const route = await fileContent(readRoute(text), reference);
    return { route, same: routeCalled(keeper.database(), route.name) };
  },

  'routes.import': async ({ keeper, clock, reference }, { text }) => {
    const route = await fileContent(readRoute(text), reference);
    const database = keeper.database();
    return { id: database.write(() => putRoute(database, route, clock.now())) };
  },

  'routes.save': async ({ keeper, clock, reference }, { id, after, text }) => {
    const route = await fileContent(readRoute(text), reference);
    const database = keeper.database();
    return { revision: database.write(() => putRouteRevision(database, id, after, route, clock.now())) };
  },

  'routes.hide': ({ keeper, clock }, { id, hidden }) => {
    const database = keeper.database();
    database.write(() => hideRoute(database, id, hidden, clock.now()));
    return { hidden };
  },

  'routes.export': ({ keeper }, { id }) => ({
    text: `${JSON.stringify(readRouteRevision(keeper.database(), id).route, null, 2)}\n`,
  }),
};
