import { computed, signal } from '@preact/signals';
import type { SessionState } from '../../../core/port/sessions.ts';
import type { BenchSession } from '../../../core/session/bench-session.ts';
import type { ChosenBatch } from '../../../core/paper/context.ts';
import { sessionWords as words } from '../../../core/words/session-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { call } from '../../state/connection.ts';
import { inOrder } from '../../state/in-order.ts';
import { keepInWindow, type WindowStore } from '../../state/kept-in-window.ts';
import { openPlan } from '../../state/plan-route.ts';
import { today } from '../../state/workbook.ts';
import { batchKey, chosen } from './bench-store.ts';
import { draftOf, isSessionDraft, readSession, type SessionDraft } from './session-draft.ts';

const FRESH: SessionDraft = { id: 0, name: '', date: '', starts: '09:00', hours: '8' };
const draft = signal<SessionDraft>(FRESH);

/** The session being picked, with today as its day where none is typed. */
export const sessionDraft = computed<SessionDraft>(() =>
  draft.value.date === '' ? { ...draft.value, date: today.value } : draft.value,
);
/** Sessions of the open plan; null until they are read. */
export const sessions = signal<readonly SessionState[] | null>(null);
export const sessionSaid = signal('');

/** The kept session that is open, null for one that is not kept. */
export const openedSession = computed(
  () => (sessions.value ?? []).find((one) => one.id === draft.value.id && one.plan === openPlan.value?.id) ?? null,
);

/** Every chosen batch, also those the plan no longer has. */
const picked = computed<readonly ChosenBatch[]>(() =>
  [...chosen.value].map((key) => {
    const at = key.lastIndexOf('/');
    return { step: key.slice(0, at), batch: Number(key.slice(at + 1)) };
  }),
);

export const sessionReading = computed(() => readSession(sessionDraft.value, picked.value));

/** Changes what is typed; a kept session is saved when it can be read. */
export function editSession(change: Partial<SessionDraft>): void {
  draft.value = { ...sessionDraft.value, ...change };
  sessionSaid.value = '';
  saveSoon();
}

/** The kept session whose batches are the chosen ones; what is chosen before they are must not be saved as its own. */
let shown = 0;

function show(one: SessionState): void {
  shown = one.id;
  chosen.value = new Set(one.session.batches.map(({ step, batch }) => batchKey(step, batch)));
}

/** What is chosen from now on belongs to no kept session. */
export function leaveSession(): void {
  void saveNow();
  shown = 0;
  draft.value = { ...FRESH, date: sessionDraft.value.date };
}

/** Opens a kept session with its batches; 0 begins a new one with those that are chosen. */
export function pickSession(id: number): void {
  const found = (sessions.value ?? []).find((one) => one.id === id);
  sessionSaid.value = '';
  leaveSession();
  if (!found) return;
  draft.value = draftOf(found.id, found.session);
  show(found);
}

/** A session is on its way to be kept; a second press would keep it twice. */
let keeping = false;

export async function keepSession(): Promise<void> {
  const plan = openPlan.value;
  const read = sessionReading.value;
  if (!plan || !read.ok || keeping) return;
  keeping = true;
  const answer = await call('sessions.create', { planId: plan.id, session: read.session });
  keeping = false;
  if (!answer.ok) return refuse(answer);
  if (openPlan.value?.id !== plan.id) return;
  // It may have come in by the list meanwhile.
  sessions.value = [answer.value, ...(sessions.value ?? []).filter((one) => one.id !== answer.value.id)];
  if (draft.value.id !== 0) return;
  // What was typed while it was kept is not lost: it is saved as its next state.
  shown = answer.value.id;
  draft.value = { ...sessionDraft.value, id: answer.value.id };
  saveSoon();
}

/** Takes a session off the list of those still to be done, or puts it back. */
export async function archiveSession(archived: boolean): Promise<void> {
  await saveNow();
  const open = openedSession.value;
  if (open) await write(open, open.session, archived);
}

/** A pause this long after an edit, in milliseconds, and it is saved. */
const PAUSE = 400;
let waiting: ReturnType<typeof setTimeout> | undefined;

/** Saves what was changed, after a pause. */
export function saveSoon(): void {
  clearTimeout(waiting);
  if (openedSession.value) waiting = setTimeout(() => void saveNow(), PAUSE);
}

export async function saveNow(): Promise<void> {
  clearTimeout(waiting);
  const open = openedSession.value;
  const read = sessionReading.value;
  if (!open || open.id !== shown || !read.ok || JSON.stringify(sorted(read.session)) === JSON.stringify(sorted(open.session)))
    return;
  await write(open, read.session, open.archived);
}

const sorted = ({ batches, ...session }: BenchSession) => ({
  ...session,
  batches: batches.map(({ step, batch }) => batchKey(step, batch)).toSorted(),
});

/** One after the other: each is written after the state the one before has made. */
let writing: Promise<void> = Promise.resolve();

function write(...what: Parameters<typeof writeNext>): Promise<void> {
  writing = writing.then(() => writeNext(...what));
  return writing;
}

async function writeNext({ id, state }: SessionState, session: BenchSession, archived: boolean): Promise<void> {
  const now = (sessions.value ?? []).find((one) => one.id === id) ?? { state };
  const answer = await call('sessions.save', { id, after: now.state, session, archived });
  if (!answer.ok) {
    refuse(answer);
    void readSessions();
    return;
  }
  sessions.value = (sessions.value ?? []).map((one) => (one.id === id ? answer.value : one));
}

function refuse(answer: Parameters<typeof troubleWords>[0]): void {
  sessionSaid.value = words.failed(troubleWords(answer));
}

const inTurn = inOrder();

export async function readSessions(): Promise<void> {
  const plan = openPlan.value;
  if (!plan) return;
  await writing;
  const answer = await inTurn(call('sessions.list', { planId: plan.id }));
  if (!answer || openPlan.value?.id !== plan.id) return;
  if (answer.ok) {
    sessions.value = answer.value;
    const open = openedSession.value;
    if (open && open.id !== shown) show(open);
  } else sessionSaid.value = words.unread(troubleWords(answer));
}

/** Keeps the session that is open, and what is typed of a new one, over a reload of the window. */
export function keepSessionIn(store: WindowStore): () => void {
  return keepInWindow(store, 'backweigh session', draft, (kept) => (isSessionDraft(kept) ? kept : null));
}
