import { computed, signal } from '@preact/signals';
import type { BrokenRun, RunRecord, RunRow } from '../../core/port/runs.ts';
import type { RunEntry } from '../../core/run/entry.ts';
import { makeRunSheet } from '../../core/run/make-run-sheet.ts';
import { nextAct } from '../../core/run/next-act.ts';
import { foldRun } from '../../core/run/state.ts';
import { weighWords as words } from '../../core/words/weigh-words.ts';
import { troubleWords } from '../../core/words/shell-words.ts';
import { call } from './connection.ts';
import { inOrder } from './in-order.ts';
import { keepInWindow, type WindowStore } from './kept-in-window.ts';
import { paperContext } from './paper-context.ts';
import { planInput, result } from './plan-result.ts';
import { openPlanById, savedPlan } from './plan-store.ts';
import { openPlan, readShelf } from './plan-route.ts';
import { runRows } from './run-rows.ts';
import { who } from './who.ts';

/** The run that is open in weighing mode; main's record of it, never anything that was not written. */
export const run = signal<RunRecord | null>(null);
/** A batch whose run begins as soon as it is known who weighs. */
export const starting = signal<{ readonly step: string; readonly batch: number } | null>(null);
export const runsTrouble = signal('');
/** What was said last: something written, or why it was not. */
export const said = signal<{ readonly tone: 'done' | 'wrong'; readonly words: string } | null>(null);
export const busy = signal(false);
/** How often another window wrote to the open run: what was being typed then was meant for what stood before. */
export const othersWrote = signal(0);
/** Number of the run that is open; 0 for none. */
const openedRun = signal(0);

export const runState = computed(() => (run.value ? foldRun(run.value.start.sheet, run.value.entries) : null));
export const act = computed(() => (run.value && runState.value ? nextAct(run.value.start.sheet, runState.value) : null));
/** Whether the window shows one charge at a time. */
export const weighing = computed(() => run.value !== null || starting.value !== null);

export function saidDone(text: string): void {
  said.value = { tone: 'done', words: text };
}

export function saidWrong(text: string): void {
  said.value = { tone: 'wrong', words: text };
}

/** Begins a run of a batch of the plan on screen, saved as it stands. */
export async function beginRun(): Promise<void> {
  const batch = starting.value;
  const input = planInput.value;
  const now = result.value;
  const context = now ? paperContext(now) : null;
  if (!batch || !input || !context || busy.value) return;
  busy.value = true;
  // What the record of runs has to say of the scale goes onto the sheet.
  if (runRows.value === null) await readRuns();
  const plan = await savedPlan();
  const sheet = makeRunSheet(input, context, batch.step, batch.batch);
  const answer = plan
    ? await call('runs.start', { planId: plan.id, state: plan.state, sheet, by: who.value })
    : ({ ok: false, code: 'storage', detail: words.refused('') } as const);
  if (!answer.ok) saidWrong(words.refused(troubleWords(answer)));
  // Left meanwhile: it is begun, and stands on the Bench to be gone on with.
  else if (starting.value === batch) await openRun(answer.value.id);
  else void readRuns();
  busy.value = false;
  if (missed) void followRuns();
}

/** Grows with every run or batch that is asked for, and when weighing is left: what was asked for before comes too late. */
let turn = 0;

/** Opens a run's record in weighing mode. */
export async function openRun(id: number): Promise<void> {
  turn += 1;
  const mine = turn;
  const answer = await call('runs.read', { id });
  if (mine !== turn) return;
  if (!answer.ok) return saidWrong(troubleWords(answer));
  // Bottles and materials are those of the run's own plan, whichever was open.
  if (answer.value.start.plan !== openPlan.value?.id) await openPlanById(answer.value.start.plan);
  if (mine !== turn) return;
  said.value = null;
  run.value = answer.value;
  openedRun.value = id;
  starting.value = null;
  // While its plan was read, another window may have written.
  void followRuns();
}

export function leaveRun(): void {
  turn += 1;
  run.value = null;
  openedRun.value = 0;
  starting.value = null;
  said.value = null;
  void readRuns();
}

export type Added =
  | { readonly ok: true; readonly bottle: string | null; readonly said: string }
  /** `ledger`: a bottle's ledger says that it holds less than was taken. */
  | { readonly ok: false; readonly words: string; readonly ledger: boolean };

/** Writes an entry, and shows the record as main has it then. */
export async function addToRun(entry: RunEntry, adjust = false): Promise<Added> {
  const record = run.value;
  if (!record || busy.value) return { ok: false, words: '', ledger: false };
  busy.value = true;
  const answer = await call('runs.add', { id: record.id, after: record.entries.length, entry, adjust });
  const fresh = await call('runs.read', { id: record.id });
  // What was made is on the shelf before anything is planned again from it: without it, other ways on were proposed.
  if (entry.kind === 'product' || entry.kind === 'recovered' || entry.kind === 'correction') await readShelf();
  busy.value = false;
  if (fresh.ok && run.value?.id === record.id) show(fresh.value, record.entries.length + (answer.ok ? 1 : 0));
  if (missed) void followRuns();
  if (answer.ok) return { ok: true, bottle: answer.value.bottle, said: answer.value.said };
  const ledger = answer.problems?.some((one) => one.at === '/entry/taken') ?? false;
  return { ok: false, words: troubleWords(answer), ledger };
}

/** @param own Entries of it that this window knew or wrote. */
function show(fresh: RunRecord, own: number): void {
  if (fresh.entries.length > own) othersWrote.value += 1;
  run.value = fresh;
}

/** Records that were changed outside the program. */
export const brokenRuns = signal<readonly BrokenRun[]>([]);

/** Looks at every record once the workbook is open. */
export async function checkRuns(): Promise<void> {
  const answer = await call('runs.check', {});
  if (answer.ok) brokenRuns.value = answer.value;
}

/** Keeps who weighs, and which run is open, over a reload of the window. */
export function keepRunIn(store: WindowStore): () => void {
  const text = (kept: unknown): string | null => (typeof kept === 'string' ? kept : null);
  const number = (kept: unknown): number | null => (typeof kept === 'number' && Number.isInteger(kept) ? kept : null);
  const ends = [keepInWindow(store, 'backweigh who', who, text), keepInWindow(store, 'backweigh run', openedRun, number)];
  return () => ends.forEach((end) => end());
}

/** The run that was open before the window was loaded again. */
export async function reopenRun(): Promise<void> {
  if (openedRun.value > 0 && turn === 0) await openRun(openedRun.value);
}

/** Runs of the open plan, the newest first. */
export function ownRuns(): readonly RunRow[] {
  return (runRows.value ?? []).filter((one) => one.plan === openPlan.value?.id);
}

/** Opens a batch in weighing mode: goes on with its run, or begins one. */
export function weighBatch(step: string, batch: number): void {
  const going = ownRuns().find((one) => one.step === step && one.batch === batch && one.phase !== 'finished');
  said.value = null;
  if (going) return void openRun(going.id);
  turn += 1;
  starting.value = { step, batch };
}

const runsInOrder = inOrder();

/** Runs of the open plan's route. */
export async function readRuns(): Promise<void> {
  const plan = openPlan.value;
  if (!plan) return;
  // Runs of another route are none of this one.
  if (runRows.value?.some((row) => row.route !== plan.routeId)) runRows.value = null;
  const answer = await runsInOrder(call('runs.list', { routeId: plan.routeId }));
  if (!answer || openPlan.value?.id !== plan.id) return;
  runsTrouble.value = answer.ok ? '' : words.runs.unread(troubleWords(answer));
  if (answer.ok) runRows.value = answer.value;
}

/** Something was written while this window wrote: what it read then may be older. */
let missed = false;

/** Another window wrote: the list and the open record follow. */
export async function followRuns(): Promise<void> {
  // While one charge after the other is written the list is not looked at; what shows it asks for it.
  if (!weighing.value) void readRuns();
  const open = run.value;
  missed = busy.value;
  if (!open || busy.value) return;
  const fresh = await call('runs.read', { id: open.id });
  // What this window is writing may be in it already, and would be taken for another's: it is read again after that.
  missed = busy.value;
  if (busy.value || !fresh.ok || run.value?.id !== open.id || fresh.value.entries.length <= run.value.entries.length) return;
  show(fresh.value, run.value.entries.length);
}
