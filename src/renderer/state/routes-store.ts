import { learnedFromRows } from '../../core/run/learned-runs.ts';
import { signal } from '@preact/signals';
import type { FileProblem } from '../../core/port/result.ts';
import type { RouteRevision } from '../../core/port/workbook.ts';
import { balanceOf } from '../../core/plan/network/equation.ts';
import { unreadPrints } from '../../core/procedure/unread-prints.ts';
import { checked } from '../../core/route/edited.ts';
import { factsOfRoute } from '../../core/route/edit-materials.ts';
import { branchOf, type EditedStep } from '../../core/route/edit-steps.ts';
import type { Route } from '../../core/route/route.ts';
import { routeEditorWords } from '../../core/words/route-editor-words.ts';
import { routesWords } from '../../core/words/routes-words.ts';
import { unreadPrintsText } from '../../core/words/unread-print-words.ts';
import { troubleWords } from '../../core/words/shell-words.ts';
import { chooseFile } from '../parts/choose-file.ts';
import { saveFile } from '../parts/save-file.ts';
import { call } from './connection.ts';
import { openRoute, readOpenRoute, routesSaid } from './open-route.ts';
import { freeName } from './free-name.ts';
import { goTo } from './place.ts';
import { openPlanState } from './plan-store.ts';
import { pointed } from './plan-view.ts';
import { editRoute, forgetRouteEdits, routeSaved } from './route-edits.ts';
import { planList, readRoutes, reference, routeList } from './workbook.ts';

const words = routeEditorWords.preview;

/** A file that was refused, with everything that is wrong in it. */
export const refusedFile = signal<{ readonly name: string; readonly problems: readonly FileProblem[] } | null>(null);

const LARGEST_FILE = 20_000_000;

/** Opens a route by its number: what was edited of the last one is saved first, and no longer undone from here. */
export async function openRouteById(id: number): Promise<void> {
  await routeSaved();
  refusedFile.value = null;
  importPreview.value = null;
  forgetRouteEdits();
  await readOpenRoute(id);
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
  const preview = await call('routes.preview', { text });
  if (!preview.ok) {
    refusedFile.value = { name: file.name, problems: preview.problems ?? [{ at: '', words: troubleWords(preview) }] };
    return;
  }
  importPreview.value = null;
  if (preview.value.same) importPreview.value = { file: file.name, text, ...preview.value, same: preview.value.same };
  else await takeIn(file.name, text, preview.value.route);
}

/** Takes a file in as a route of its own, and says what in it is no reason to refuse it. */
async function takeIn(name: string, text: string, route: Route): Promise<void> {
  const answer = await call('routes.import', { text });
  if (!answer.ok) {
    refusedFile.value = { name, problems: answer.problems ?? [{ at: '', words: troubleWords(answer) }] };
    return;
  }
  await readRoutes();
  await openRouteById(answer.value.id);
  routesSaid.value = [routesWords.imported(route.name), doubtsOf(route)].filter((one) => one !== '').join(' ');
}

/** A file whose name a route has already, before anything is written. */
export const importPreview = signal<{
  readonly file: string;
  readonly text: string;
  readonly route: Route;
  readonly same: RouteRevision;
} | null>(null);

/** What in a file is no reason to refuse it, and still to be said; empty where there is nothing. */
export function doubtsOf(route: Route): string {
  return [unbalancedWords(route), unreadPrintsText(unreadPrints(route))].filter((one) => one !== '').join(' ');
}

/** Steps whose equation does not balance, in words; empty where all do, or cannot be told. */
function unbalancedWords(route: Route): string {
  const tables = reference.value;
  if (!tables) return '';
  const facts = factsOfRoute(route, tables);
  const steps = route.steps.flatMap((step) => {
    const { balanced, unknown, difference } = balanceOf(step, facts, tables);
    return balanced || unknown.length > 0 ? [] : [words.unbalancedStep(step.title, difference)];
  });
  return steps.length === 0 ? '' : words.unbalanced(steps);
}

/** Takes the looked-at file in: as a new route, or as the next revision of the one that has its name. */
export async function takeInPreviewed(as: 'new' | 'next'): Promise<void> {
  const one = importPreview.value;
  if (!one) return;
  importPreview.value = null;
  if (as === 'new') {
    await takeIn(one.file, one.text, one.route);
    return;
  }
  await openRouteById(one.same.id);
  const edited = editRoute(routeEditorWords.edits.imported(one.file), () => checked(one.route));
  if (!edited.ok) refusedFile.value = { name: one.file, problems: edited.problems };
  await routeSaved();
  if (edited.ok) routesSaid.value = [routesSaid.value, doubtsOf(one.route)].filter((said) => said !== '').join(' ');
}

export function leavePreviewed(): void {
  if (importPreview.value) routesSaid.value = words.left(importPreview.value.file);
  importPreview.value = null;
}

/** A new route from its first step, kept and opened. Comes back with its problems where it cannot be made. */
export async function createRoute(made: EditedStep): Promise<readonly FileProblem[]> {
  if (!made.ok) return made.problems;
  const answer = await call('routes.import', { text: JSON.stringify(made.route) });
  if (!answer.ok) return answer.problems ?? [{ at: '', words: troubleWords(answer) }];
  await readRoutes();
  await openRouteById(answer.value.id);
  routesSaid.value = routeEditorWords.saved(1);
  return [];
}

/** A copy of the open route as a route of its own, which says where it comes from. */
export async function branchRoute(): Promise<void> {
  await routeSaved();
  const open = openRoute.value;
  if (open.at !== 'open') return;
  const { route, revision } = open.revision;
  const names = new Set((routeList.value ?? []).map((one) => one.name));
  const copy = branchOf(route, revision, freeName(routeEditorWords.head.branchName(route.name), names));
  const answer = await call('routes.import', { text: JSON.stringify(copy) });
  if (!answer.ok) {
    routesSaid.value = troubleWords(answer);
    return;
  }
  await readRoutes();
  await openRouteById(answer.value.id);
  routesSaid.value = routeEditorWords.head.branched(copy.name);
}

/** Puts the open route away, or takes it out again; its plans stay as they are. */
export async function putRouteAway(): Promise<void> {
  const open = openRoute.value;
  const entry = (routeList.value ?? []).find((one) => open.at === 'open' && one.id === open.id);
  if (!entry) return;
  const answer = await call('routes.hide', { id: entry.id, hidden: !entry.hidden });
  if (answer.ok) await readRoutes();
  const said = answer.ok && answer.value.hidden ? routesWords.putAway.done : routesWords.putAway.undone;
  routesSaid.value = answer.ok ? said(entry.name) : troubleWords(answer);
}

export async function exportRoute(): Promise<void> {
  await routeSaved();
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
  await routeSaved();
  const open = openRoute.value;
  if (open.at !== 'open') return;
  const { route } = open.revision;
  const product = lastProduct(route);
  // A plan made anew learns from every run of its steps; from then on its yields are frozen.
  const runs = await call('runs.list', { routeId: open.id });
  const known = new Set(route.steps.map((step) => step.id));
  const learned = learnedFromRows(runs.ok ? runs.value.filter((row) => known.has(row.step)) : []);
  const answer = await call('plans.create', {
    routeId: open.id,
    ask: {
      name: freeName(route.name, new Set((planList.value ?? []).map((plan) => plan.name))),
      draws: [{ id: 'draw-1', material: product, amount: 1, unit: 'g', shownIn: 'g' }],
      ...(Object.keys(learned).length === 0 ? {} : { learned }),
    },
  });
  if (!answer.ok) {
    routesSaid.value = troubleWords(answer);
    return;
  }
  goTo('plan');
  await openPlanState(answer.value);
  pointed.value = { draw: 'draw-1' };
}

/** What the route is for: the product of the last step that no other step uses. */
function lastProduct(route: RouteRevision['route']): string {
  const used = new Set(route.steps.flatMap((step) => step.equation.uses.map((term) => term.material)));
  const last = route.steps.findLast((step) => !used.has(step.product)) ?? route.steps.at(-1);
  return last?.product ?? '';
}
