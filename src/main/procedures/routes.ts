import { grouped } from '../../core/grouped.ts';
import { runHistory } from '../../core/run/history.ts';
import { routeUse } from '../../core/run/route-use.ts';
import { readRoute } from '../../core/route/read-route.ts';
import { materialsOfRoutes } from '../../core/shelf/find/route-names.ts';
import {
  hideRoute,
  listRevisions,
  listRoutes,
  newestRoutes,
  putRoute,
  putRouteRevision,
  readRouteRevision,
  routeCalled,
} from '../store/routes.ts';
import { plannedLast } from '../store/plans.ts';
import { storedRuns } from '../store/runs.ts';
import type { Procedures } from './context.ts';
import { fileContent, indexed } from './read-file.ts';

type RouteName = Extract<keyof Procedures, `routes.${string}`>;

export const routeProcedures: Procedures<RouteName> = {
  'routes.list': ({ keeper }) => listRoutes(keeper.database()),

  'routes.use': ({ keeper }) => {
    const database = keeper.database();
    const rows = grouped(runHistory(storedRuns(database)), (row) => String(row.route));
    const planned = plannedLast(database);
    return listRoutes(database).map(({ id }) => {
      const own = rows.get(String(id)) ?? [];
      const { route } = readRouteRevision(database, id);
      return { id, ...routeUse(route, own, planned.get(id) ?? null) };
    });
  },

  'routes.materials': ({ keeper, reference }) => materialsOfRoutes(newestRoutes(keeper.database()), indexed(reference())),

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
