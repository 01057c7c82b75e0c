import { signal } from '@preact/signals';
import type { FileProblem } from '../../core/port/result.ts';
import type { RouteRevision } from '../../core/port/workbook.ts';
import type { Step } from '../../core/route/route.ts';
import { routesWords } from '../../core/words/routes-words.ts';
import { troubleWords } from '../../core/words/shell-words.ts';
import { chooseFile } from '../parts/choose-file.ts';
import { saveFile } from '../parts/save-file.ts';
import { call } from './connection.ts';
import { goTo } from './place.ts';
import { openPlanState } from './plan-store.ts';
import { pointed } from './plan-view.ts';
import { planList, readRoutes } from './workbook.ts';

/** The route that is read in the Routes place. */
export type OpenRoute =
  | { readonly at: 'none' }
  | { readonly at: 'loading'; readonly id: number }
  | { readonly at: 'open'; readonly id: number; readonly revision: RouteRevision }
  | { readonly at: 'failed'; readonly id: number; readonly words: string };

export const openRoute = signal<OpenRoute>({ at: 'none' });

/** A file that was refused, with everything that is wrong in it. */
export const refusedFile = signal<{ readonly name: string; readonly problems: readonly FileProblem[] } | null>(null);

/** The outcome of the last import, export or plan, in words. */
export const routesSaid = signal('');

const LARGEST_FILE = 20_000_000;

export async function openRouteById(id: number): Promise<void> {
  refusedFile.value = null;
  openRoute.value = { at: 'loading', id };
  const answer = await call('routes.read', { id });
  if (openRoute.value.at !== 'loading' || openRoute.value.id !== id) return;
  openRoute.value = answer.ok ? { at: 'open', id, revision: answer.value } : { at: 'failed', id, words: troubleWords(answer) };
}

export async function chooseAndImport(): Promise<void> {
  goTo('routes');
  const file = await chooseFile('.json,application/json');
  if (file) await importRoute(file);
}

/** Takes a route file in. Every problem is listed with its place; nothing is written unless there is none. */
export async function importRoute(file: Pick<File, 'name' | 'size' | 'text'>): Promise<void> {
  refusedFile.value = null;
  routesSaid.value = '';
  if (file.size > LARGEST_FILE) {
    routesSaid.value = routesWords.tooLarge(file.name);
    return;
  }
  const text = await file.text().catch(() => null);
  if (text === null) {
    routesSaid.value = routesWords.notRead(file.name);
    return;
  }
  const answer = await call('routes.import', { text });
  if (!answer.ok) {
    refusedFile.value = { name: file.name, problems: answer.problems ?? [{ at: '', words: troubleWords(answer) }] };
    return;
  }
  await readRoutes();
  await openRouteById(answer.value.id);
  if (openRoute.value.at === 'open') routesSaid.value = routesWords.imported(openRoute.value.revision.route.name);
}

export async function exportRoute(): Promise<void> {
  const open = openRoute.value;
  if (open.at !== 'open') return;
  const answer = await call('routes.export', { id: open.id });
  if (!answer.ok) {
    routesSaid.value = troubleWords(answer);
    return;
  }
  const name = routesWords.fileName(open.revision.route.name);
  saveFile(name, new Blob([answer.value.text], { type: 'application/json' }));
  routesSaid.value = routesWords.exported(name);
}

/** Makes a plan of the open route: one draw of its last product, to be changed at once in the Plan place. */
export async function planRoute(): Promise<void> {
  const open = openRoute.value;
  if (open.at !== 'open') return;
  const { route } = open.revision;
  const product = lastProduct(route);
  const answer = await call('plans.create', {
    routeId: open.id,
    ask: { name: freeName(route.name), draws: [{ id: 'draw-1', material: product, amount: 1, unit: 'g', shownIn: 'g' }] },
  });
  if (!answer.ok) {
    routesSaid.value = troubleWords(answer);
    return;
  }
  goTo('plan');
  await openPlanState(answer.value);
  pointed.value = { draw: 'draw-1' };
}

/** A name no plan has yet: the route's own, or with the next free number behind it. */
function freeName(name: string): string {
  const taken = new Set((planList.value ?? []).map((plan) => plan.name));
  if (!taken.has(name)) return name;
  let number = 2;
  while (taken.has(`${name} ${number}`)) number += 1;
  return `${name} ${number}`;
}

/** What the route is for: the product of the last step that no other step uses. */
function lastProduct(route: RouteRevision['route']): string {
  const used = new Set(route.steps.flatMap((step) => step.equation.uses.map((term) => term.material)));
  const last = route.steps.findLast((step) => !used.has(step.product)) ?? route.steps.at(-1);
  return last?.product ?? '';
}

/** Changes one step of the open route: shown at once, kept as the route's next revision. */
export async function changeStep(id: string, change: (step: Step) => Step): Promise<void> {
  const open = openRoute.value;
  if (open.at !== 'open') return;
  const { route } = open.revision;
  const steps = route.steps.map((step) => (step.id === id ? change(step) : step));
  if (JSON.stringify(steps) === JSON.stringify(route.steps)) return;
  openRoute.value = { ...open, revision: { ...open.revision, route: { ...route, steps } } };
  saving = saving.then(() => saveRoute(open.id));
  await saving;
}

let saving: Promise<void> = Promise.resolve();

async function saveRoute(id: number): Promise<void> {
  const open = openRoute.value;
  if (open.at !== 'open' || open.id !== id) return;
  const { revision, route } = open.revision;
  const answer = await call('routes.save', { id, after: revision, text: JSON.stringify(route) });
  routesSaid.value = answer.ok ? routesWords.saved(answer.value.revision) : troubleWords(answer);
  const now = openRoute.value;
  if (now.at !== 'open' || now.id !== id) return;
  if (answer.ok) openRoute.value = { ...now, revision: { ...now.revision, revision: answer.value.revision } };
  else await openRouteById(id);
}
