import { openRoute } from './open-route.ts';
import { goTo } from './place.ts';
import { openPlan, route } from './plan-route.ts';
import { materialWanted } from './route-view.ts';
import { openRouteById } from './routes-store.ts';

/** Goes to where the formula of a material of the open plan's route is entered. */
export async function enterFormulaOf(name: string): Promise<void> {
  const id = openPlan.value?.routeId;
  const key = Object.entries(route.value?.materials ?? {}).find(([, material]) => material.name === name)?.[0];
  if (id === undefined || key === undefined) return;
  const open = openRoute.value;
  goTo('routes');
  if (open.at !== 'open' || open.id !== id) await openRouteById(id);
  materialWanted.value = key;
}
