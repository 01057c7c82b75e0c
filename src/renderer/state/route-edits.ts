import { computed, signal } from '@preact/signals';
import type { FileProblem } from '../../core/port/result.ts';
import { tableDoubts } from '../../core/matter/table-doubts.ts';
import type { Edited } from '../../core/route/edited.ts';
import { changeStepOf } from '../../core/route/edit-steps.ts';
import type { Route, Step } from '../../core/route/route.ts';
import { routeEditorWords } from '../../core/words/route-editor-words.ts';
import { troubleWords } from '../../core/words/shell-words.ts';
import { call } from './connection.ts';
import { openRoute, readOpenRoute, routeRead, routesSaid } from './open-route.ts';
import { place } from './place.ts';
import { rememberElsewhere } from './plan-store.ts';
import { followRoute, openPlan, routeEdited } from './plan-route.ts';
import { reference } from './workbook.ts';

/**
 * Editing the open route. Every edit is shown at once and saved as the route's next revision; undo and redo move along
 * the routes as they were, and are saved as revisions like any other edit.
 */
interface Moment {
  readonly route: Route;
  /** What the edit was that undo takes back, or redo does again. */
  readonly words: string;
}

const past = signal<readonly Moment[]>([]);
const future = signal<readonly Moment[]>([]);
/** A save that failed: the route on screen is not kept yet. */
export const routeTrouble = signal<{ readonly words: string; readonly conflict: boolean } | null>(null);

export const canUndoRoute = computed(() => openRoute.value.at === 'open' && past.value.length > 0);
export const canRedoRoute = computed(() => openRoute.value.at === 'open' && future.value.length > 0);

/** Another route is opened: what was undone of the last one is not of this. */
export function forgetRouteEdits(): void {
  past.value = [];
  future.value = [];
  routeTrouble.value = null;
  held = null;
}

/** The route being edited; null where none is open. */
export function editedRoute(): Route | null {
  return openRoute.value.at === 'open' ? openRoute.value.revision.route : null;
}

/**
 * Changes the open route. Refused edits change nothing and come back with their problems, for the field they were
 * typed in.
 * @param words what the edit is, e.g. "yield of Oxidation to benzil".
 */
export function editRoute(words: string, change: (route: Route) => Edited): Edited {
  const open = openRoute.value;
  if (open.at !== 'open') return { ok: false, problems: [{ at: '', words: routeEditorWords.noneOpen }] };
  const before = open.revision.route;
  const edited = change(before);
  if (!edited.ok) return edited;
  const doubts = newDoubts(before, edited.route);
  if (doubts.length > 0) return { ok: false, problems: doubts };
  if (JSON.stringify(edited.route) === JSON.stringify(before)) return edited;
  past.value = [...past.value, { route: before, words }];
  future.value = [];
  show(edited.route);
  // Seen in the plan, it is undone there too, in its turn.
  if (place.value === 'plan' && openPlan.value?.routeId === open.id) {
    const { id } = open;
    rememberElsewhere({ words, undo: () => undoneAs(past, id, words), redo: () => undoneAs(future, id, words) });
  }
  return edited;
}

/** Takes an edit back, or does it again, where it is still the next one of that route. */
function undoneAs(of: typeof past, id: number, words: string): boolean {
  const open = openRoute.value;
  if (open.at !== 'open' || open.id !== id || of.value.at(-1)?.words !== words) return false;
  if (of === past) undoRoute();
  else redoRoute();
  return true;
}

/** What the tables have against the edited materials; what they had before is no reason to refuse another edit. */
function newDoubts(before: Route, after: Route): readonly FileProblem[] {
  if (before.materials === after.materials || !reference.value) return [];
  const known = new Set(tableDoubts(before.materials, reference.value).map((one) => `${one.at} ${one.words}`));
  return tableDoubts(after.materials, reference.value).filter((one) => !known.has(`${one.at} ${one.words}`));
}

/** Changes one step of the open route. */
export function changeStep(id: string, words: string, change: (step: Step) => Step): Edited {
  return editRoute(words, (route) => changeStepOf(route, id, change));
}

export function undoRoute(): void {
  const open = openRoute.value;
  const last = past.value.at(-1);
  if (open.at !== 'open' || !last) return;
  past.value = past.value.slice(0, -1);
  future.value = [...future.value, { route: open.revision.route, words: last.words }];
  show(last.route, routeEditorWords.undone(last.words));
}

export function redoRoute(): void {
  const open = openRoute.value;
  const next = future.value.at(-1);
  if (open.at !== 'open' || !next) return;
  future.value = future.value.slice(0, -1);
  past.value = [...past.value, { route: open.revision.route, words: next.words }];
  show(next.route, routeEditorWords.redone(next.words));
}

function show(route: Route, said: string | null = null): void {
  const open = openRoute.value;
  if (open.at !== 'open') return;
  if (routeTrouble.value && !routeTrouble.value.conflict) routeTrouble.value = null;
  openRoute.value = { ...open, revision: { ...open.revision, route } };
  routeEdited(open.id, route);
  saving = saving.then(() => save(open.id, route, said));
}

let saving: Promise<void> = Promise.resolve();
/** The route as it was last kept, so that the same one is not kept twice. */
let held: Route | null = null;

/** Waits until what was edited is saved, and what was edited meanwhile too. */
export async function routeSaved(): Promise<void> {
  let seen: typeof saving;
  do {
    seen = saving;
    await seen;
  } while (seen !== saving);
}

async function save(id: number, route: Route, said: string | null): Promise<void> {
  const open = openRoute.value;
  if (open.at !== 'open' || open.id !== id || held === route || routeTrouble.value) return;
  const answer = await call('routes.save', { id, after: open.revision.revision, text: JSON.stringify(route) });
  const now = openRoute.value;
  if (now.at !== 'open' || now.id !== id) return;
  if (!answer.ok) {
    routesSaid.value = troubleWords(answer);
    const problems = (answer.problems ?? []).map((one) => one.words);
    routeTrouble.value = { words: [troubleWords(answer), ...problems].join(' '), conflict: answer.code === 'conflict' };
    // A plan is only ever of a route that is kept.
    void followRoute();
    return;
  }
  held = route;
  const saved = routeEditorWords.saved(answer.value.revision);
  routesSaid.value = said === null ? saved : `${said} ${saved}`;
  openRoute.value = { ...now, revision: { ...now.revision, revision: answer.value.revision } };
}

/** A revision of the open plan's route was saved: the plan goes by it, once what is edited here is saved too. */
export async function followPlanRoute(): Promise<void> {
  do await routeSaved();
  while (!(await followRoute()));
}

/** Another window may have saved a revision: it is shown here, and what stood here can be had back by undo. */
export async function followOpenRoute(): Promise<void> {
  // Of a route on its way it is not known whether it was read before the change.
  await routeRead();
  await routeSaved();
  const open = openRoute.value;
  if (open.at !== 'open' || routeTrouble.value) return;
  const newest = await call('routes.read', { id: open.id });
  await routeSaved();
  const now = openRoute.value;
  if (!newest.ok || now.at !== 'open' || now.id !== open.id || newest.value.revision <= now.revision.revision) return;
  past.value = [...past.value, { route: now.revision.route, words: routeEditorWords.elsewhere }];
  future.value = [];
  openRoute.value = { ...now, revision: newest.value };
}

/** After a failed save: tries what is on screen once more, after the newest revision there is. */
export async function saveRouteAgain(): Promise<void> {
  const open = openRoute.value;
  if (open.at !== 'open') return;
  const newest = await call('routes.read', { id: open.id });
  const now = openRoute.value;
  if (now.at !== 'open' || now.id !== open.id) return;
  routeTrouble.value = null;
  if (newest.ok) openRoute.value = { ...now, revision: { ...now.revision, revision: newest.value.revision } };
  saving = saving.then(() => save(now.id, now.revision.route, null));
  await saving;
}

/** After a failed save: opens the saved route; what was on screen can be had back by undo. */
export async function takeSavedRoute(): Promise<void> {
  const open = openRoute.value;
  if (open.at !== 'open') return;
  const kept = [...past.value, { route: open.revision.route, words: routeEditorWords.notSavedEdits }];
  routeTrouble.value = null;
  await readOpenRoute(open.id);
  if (openRoute.value.at !== 'open' || openRoute.value.id !== open.id) return;
  past.value = kept;
  future.value = [];
}
