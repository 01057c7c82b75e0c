import { batch, computed, effect, signal } from '@preact/signals';
import { canonicalJson } from '../../core/canonical-json.ts';
import type { Ask } from '../../core/plan/ask.ts';
import type { PortResult } from '../../core/port/result.ts';
import type { PlanState } from '../../core/port/workbook.ts';
import { planWords } from '../../core/words/plan-words.ts';
import { shellWords, troubleWords } from '../../core/words/shell-words.ts';
import { call } from './connection.ts';
import { forgetHistory, future, type Moment, past, remember, takeLast } from './plan-history.ts';
import { openPlan, route, shelf, snapshotFor } from './plan-route.ts';
import { forgetRefused, refusedSince } from './refused-texts.ts';
import { planList } from './workbook.ts';

/**
 * The open plan. Four asks stand beside each other:
 *
 *     before   as the edit going on found it; null while nothing is edited
 *     draft    what is on screen; follows every keystroke and re-plans at once
 *     present  the draft as it was last sent to be saved (Enter, leaving the field, half a second's pause)
 *     saved    the last one main has acknowledged
 *
 * A pause saves, so that little is lost when the power goes; it does not end the edit. Enter or leaving the field ends
 * it: `before` is remembered, and one undo goes back to it however often was saved in between. A text that is refused
 * takes the draft back to `before`: half of it is never what a plan is kept with.
 * Undo and redo move along the remembered asks, and are saved as new states like any other edit.
 */
const PAUSE = 500;

export type PlanLoad =
  | { readonly at: 'none' }
  | { readonly at: 'loading' }
  | { readonly at: 'open' }
  | { readonly at: 'failed'; readonly words: string };

export type SaveTrouble = { readonly kind: 'failed'; readonly words: string } | { readonly kind: 'conflict' };

export const planLoad = signal<PlanLoad>({ at: 'none' });
export const draft = signal<Ask | null>(null);
export const saveTrouble = signal<SaveTrouble | null>(null);

const before = signal<Ask | null>(null);
const present = signal<Ask | null>(null);
const saved = signal<Ask | null>(null);
/** What is on its way to be saved; null where nothing is. */
export const sending = signal<Ask | null>(null);

const changed = computed(() => before.value !== null && draft.value !== before.value);
/** How many edits undo can take back. */
export const undoDepth = computed(() => past.value.length);
/** Texts that were refused after the last of these edits: undo takes them back first. */
const refused = computed(() => refusedSince(openPlan.value?.id ?? null, draft.value, undoDepth.value));
export const canUndo = computed(() => changed.value || refused.value.length > 0 || past.value.length > 0);
export const canRedo = computed(() => !changed.value && future.value.length > 0);
/** What undo or redo did last, until the next edit. */
export const undone = signal('');
export const saveState = computed(() => {
  if (saveTrouble.value) return 'not saved';
  if (sending.value) return 'saving';
  return draft.value === saved.value ? 'saved' : 'unsaved';
});

let pause: ReturnType<typeof setTimeout> | undefined;
let editWords = '';
let saving: Promise<void> = Promise.resolve();
let keptDraft: (plan: number) => KeptDraft | null = () => null;

/** What was typed and not saved, the state of the plan that it was typed after, and what was on its way to be saved. */
export interface KeptDraft {
  readonly after: number;
  readonly ask: Ask;
  readonly sent: Ask | null;
}

/** Sets where a draft that was not saved before a reload is found again. */
export function setKeptDraft(find: typeof keptDraft): void {
  keptDraft = find;
}

/** Opens a plan with its route and the shelf as it stands. */
export function openPlanById(id: number): Promise<void> {
  return open(() => call('plans.read', { id }));
}

/** Opens a plan whose state is already in hand, e.g. one just made. */
export function openPlanState(state: PlanState): Promise<void> {
  return open(() => Promise.resolve({ ok: true, value: state }));
}

type ReadPlan = () => Promise<PortResult<PlanState>>;
let opening: Promise<void> = Promise.resolve();
/** Of plans asked for one soon after the other the last is opened, whichever is read first. */
let turn = 0;

function open(read: ReadPlan): Promise<void> {
  turn += 1;
  opening = bringIn(read, turn);
  return planOpened();
}

/** Waits until no plan is on its way: what changes meanwhile is asked for of the one that is open then. */
export async function planOpened(): Promise<void> {
  let seen: typeof opening;
  do {
    seen = opening;
    await seen;
  } while (seen !== opening);
}

async function bringIn(readPlan: ReadPlan, mine: number): Promise<void> {
  if (!(await allSaved())) {
    if (planLoad.value.at === 'loading' && openPlan.value) planLoad.value = { at: 'open' };
    return;
  }
  if (mine !== turn) return;
  planLoad.value = { at: 'loading' };
  const failed = (answer: Parameters<typeof troubleWords>[0]): void => {
    planLoad.value = { at: 'failed', words: troubleWords(answer) };
  };
  const plan = await readPlan();
  if (mine !== turn) return;
  if (!plan.ok) return failed(plan);
  const state = plan.value;
  const read = await call('routes.read', { id: state.routeId });
  if (mine !== turn) return;
  if (!read.ok) return failed(read);
  // The shelf comes before the first plan: amounts worked out on an empty one would be shown, and be wrong.
  const stock = await snapshotFor(read.value.route);
  if (mine !== turn) return;
  if (!stock.ok) return failed(stock);
  const kept = keptDraft(state.id);
  batch(() => {
    route.value = read.value.route;
    shelf.value = stock.value;
    adopt(state);
  });
  forgetHistory();
  undone.value = '';
  saveTrouble.value = null;
  planLoad.value = { at: 'open' };
  if (kept) takeUp(kept, state);
}

/** What was typed before a reload goes on; where the plan was changed elsewhere meanwhile, it is asked again which of the two stands. */
function takeUp({ after, ask, sent }: KeptDraft, state: PlanState): void {
  if (alike(ask, state.ask)) return;
  // What was on its way has arrived: it was nobody else's.
  if (after === state.state || (sent && alike(sent, state.ask))) {
    editPlan(planWords.edits.other, () => ask);
    commitEdit();
    return;
  }
  batch(() => {
    openPlan.value = { ...state, state: after };
    draft.value = ask;
    present.value = ask;
    saveTrouble.value = { kind: 'conflict' };
  });
}

/** Waits for what is being saved. False where the open plan could not be saved: it stays open, and says so. */
async function allSaved(): Promise<boolean> {
  commitEdit();
  await saving;
  return saveTrouble.value === null;
}

/** First start, or nothing open yet: the plan that was worked on last. */
export async function openNewestPlan(): Promise<void> {
  const newest = [...(planList.value ?? [])].sort((a, b) => b.changed.localeCompare(a.changed))[0];
  if (newest) await openPlanById(newest.id);
}

/** Changes the draft and re-plans at once; saved after a pause. `words` says what the edit is, and tells it from the last. */
export function editPlan(words: string, change: (ask: Ask) => Ask): void {
  if (!draft.value) return;
  if (words !== editWords) commitEdit();
  before.value ??= draft.value;
  draft.value = change(draft.value);
  editWords = words;
  undone.value = '';
  savePaused();
}

/** What is typed now cannot be taken: the plan stands as the edit found it, until it can be. */
export function takeBackEdit(): void {
  if (!changed.value) return;
  draft.value = before.value;
  savePaused();
}

function savePaused(): void {
  clearTimeout(pause);
  pause = setTimeout(saveDraft, PAUSE);
}

/** The pause is over, or the window goes out of sight: what is on screen is saved; the edit may go on. */
export function saveDraft(): void {
  clearTimeout(pause);
  const now = draft.value;
  if (!now || now === present.value) return;
  if (present.value && same(now, present.value)) {
    draft.value = present.value;
    return;
  }
  present.value = now;
  void save(editWords);
}

/** Enter, or leaving the field: the edit is done, and is one step of undo. */
export function commitEdit(): void {
  saveDraft();
  const found = before.value;
  before.value = null;
  if (!found || !present.value || same(found, present.value)) return;
  remember({ ask: found, words: editWords });
}

export function undoPlan(): void {
  const now = draft.value;
  const text = refused.value.at(-1);
  if (!now) return;
  if (text) {
    forgetRefused(text.plan, text.field);
    undone.value = planWords.edits.undone(planWords.edits.refused(text.text));
    return;
  }
  if (changed.value && before.value) {
    clearTimeout(pause);
    future.value = [{ ask: now, words: editWords }];
    undone.value = planWords.edits.undone(editWords);
    moveTo(before.value, planWords.edits.undo);
    return;
  }
  commitEdit();
  const earlier = takeLast(past);
  if (!earlier) return;
  if (!('ask' in earlier)) {
    // What was done elsewhere and cannot be taken back there is passed over.
    if (!earlier.undo()) return undoPlan();
    future.value = [...future.value, earlier];
    undone.value = planWords.edits.undone(earlier.words);
    return;
  }
  future.value = [...future.value, { ask: draft.value ?? now, words: earlier.words }];
  undone.value = planWords.edits.undone(earlier.words);
  moveTo(earlier.ask, planWords.edits.undo);
}

export function redoPlan(): void {
  if (changed.value) return;
  commitEdit();
  const later = takeLast(future);
  if (!later || !present.value) return;
  undone.value = planWords.edits.redone(later.words);
  if (!('ask' in later)) {
    if (later.redo()) past.value = [...past.value, later];
    else undone.value = '';
    return;
  }
  past.value = [...past.value, { ask: present.value, words: later.words }];
  moveTo(later.ask, planWords.edits.redo);
}

/** The open plan's route is edited where the plan is seen: undo in the plan takes it back in its turn. */
export function rememberElsewhere(moment: Extract<Moment, { readonly undo: unknown }>): void {
  commitEdit();
  remember(moment);
  undone.value = '';
}

function moveTo(ask: Ask, words: string): void {
  before.value = null;
  draft.value = ask;
  present.value = ask;
  void save(words);
}

/** Sends the committed ask until it is acknowledged; one call at a time. */
function save(words: string): Promise<void> {
  if (!sending.value) saving = send(words);
  return saving;
}

async function send(words: string): Promise<void> {
  while (present.value && present.value !== saved.value && saveTrouble.value?.kind !== 'conflict') {
    const plan = openPlan.value;
    const ask = present.value;
    if (!plan) break;
    sending.value = ask;
    const answer = await call('plans.save', { id: plan.id, after: plan.state, ask, words: words || planWords.edits.other });
    if (openPlan.value?.id !== plan.id) break;
    if (!answer.ok) {
      saveTrouble.value =
        answer.code === 'conflict'
          ? { kind: 'conflict' }
          : { kind: 'failed', words: shellWords.saveFailed(troubleWords(answer)) };
      break;
    }
    saveTrouble.value = null;
    saved.value = ask;
    openPlan.value = { ...openPlan.value, ...answer.value };
  }
  sending.value = null;
}

/** The open plan once what is on screen is what main has; null where it cannot be saved. */
export async function savedPlan(): Promise<{ readonly id: number; readonly state: number } | null> {
  commitEdit();
  await new Promise<void>((done) => {
    const end = effect(() => {
      if (saveState.value !== 'saved' && !saveTrouble.value) return;
      queueMicrotask(() => end());
      done();
    });
  });
  return saveTrouble.value ? null : openPlan.value;
}

/** After a failed save, or when the program answers again. */
export function saveAgain(): void {
  if (saveTrouble.value?.kind === 'failed') saveTrouble.value = null;
  void save(editWords);
}

/** Conflict: what is typed here is saved after the newest state. */
export async function keepMine(): Promise<void> {
  const newest = await readNewest();
  if (!newest) return;
  saveTrouble.value = null;
  openPlan.value = newest;
  await save(editWords);
}

/** Conflict: the other window's state is taken; what was typed here can be had back by undo. */
export async function takeOther(): Promise<void> {
  const newest = await readNewest();
  if (!newest) return;
  if (present.value) past.value = [...past.value, { ask: present.value, words: planWords.edits.elsewhere }];
  saveTrouble.value = null;
  adopt(newest);
}

/** Another window, or the printing of a paper, may have changed the plan. */
export async function followPlan(): Promise<void> {
  // What this window sends itself is no other's; what another sent meanwhile is seen once it is saved.
  while (sending.value) await saving;
  const clean = (): boolean => !sending.value && draft.value === saved.value;
  if (!openPlan.value || !clean()) return;
  const newest = await readNewest();
  if (!newest || !clean() || !openPlan.value || newest.id !== openPlan.value.id) return;
  if (newest.state === openPlan.value.state) {
    if (newest.revision !== openPlan.value.revision) openPlan.value = { ...openPlan.value, revision: newest.revision };
  } else if (newest.state > openPlan.value.state) {
    if (present.value) past.value = [...past.value, { ask: present.value, words: planWords.edits.elsewhere }];
    adopt(newest);
  }
}

async function readNewest(): Promise<PlanState | null> {
  if (!openPlan.value) return null;
  const answer = await call('plans.read', { id: openPlan.value.id });
  return answer.ok ? answer.value : null;
}

function adopt(state: PlanState): void {
  openPlan.value = state;
  before.value = null;
  draft.value = state.ask;
  present.value = state.ask;
  saved.value = state.ask;
}

const same = (one: Ask, other: Ask): boolean => JSON.stringify(one) === JSON.stringify(other);
/** However their fields are ordered: one of the two has been to main and back. */
const alike = (one: Ask, other: Ask): boolean => canonicalJson(one) === canonicalJson(other);
