import { computed, signal } from '@preact/signals';
import type { Settings } from '../../core/plan/settings.ts';
import { labWords } from '../../core/words/lab-words.ts';
import { troubleWords } from '../../core/words/shell-words.ts';
import { call } from './connection.ts';
import { inOrder } from './in-order.ts';
import { goTo } from './place.ts';
import { settings } from './workbook.ts';

/** Edits of the laboratory's list. Each is at once in every plan, and kept when its field is left; each can be undone. */
interface Edit {
  readonly was: Settings;
  readonly words: string;
}

const past = signal<readonly Edit[]>([]);
/** What the list was when the edit that goes on began. */
let before: Settings | null = null;

/** Whether the list stands open. */
export const labOpen = signal(false);
/** Goes to the list, open. */
export function showLab(): void {
  labOpen.value = true;
  goTo('bench');
}

/** What went wrong when the list was kept; empty otherwise. */
export const labTrouble = signal('');
/** What undo would take back; null where there is nothing. */
export const labUndo = computed(() => past.value.at(-1)?.words ?? null);

/** Edits on their way to main. */
let keeping = 0;
/** Somebody changed the list while it was edited here, or this window did. */
let missed = false;
const inTurn = inOrder();

/** Main's list may be another: it is shown here, but never in the middle of an edit. */
export async function followLab(): Promise<void> {
  const edited = (): boolean => before !== null || keeping > 0;
  missed = edited();
  if (missed) return;
  const answer = await inTurn(call('settings.read', {}));
  missed = edited();
  if (answer?.ok && !missed) settings.value = answer.value;
}

/** A keystroke that can be read: every plan follows. */
export function editLab(change: Partial<Settings>): void {
  if (!settings.value) return;
  before ??= settings.value;
  settings.value = { ...settings.value, ...change };
}

/** What is typed cannot be read: the list stands as the edit found it. */
export function takeBackLab(): void {
  if (before) settings.value = before;
}

/** The field is left: the edit is done and kept. */
export async function commitLab(words: string): Promise<void> {
  const was = before;
  before = null;
  if (!was || !settings.value || JSON.stringify(was) === JSON.stringify(settings.value)) return followMissed();
  past.value = [...past.value, { was, words }];
  await keep();
}

/** Takes the last edit of the list back. */
export async function undoLab(): Promise<void> {
  const last = past.value.at(-1);
  if (!last) return;
  past.value = past.value.slice(0, -1);
  before = null;
  settings.value = last.was;
  await keep();
}

async function keep(): Promise<void> {
  if (!settings.value) return;
  keeping += 1;
  const answer = await call('settings.save', { settings: settings.value });
  keeping -= 1;
  labTrouble.value = answer.ok ? '' : labWords.failed(troubleWords(answer));
  if (answer.ok) await followMissed();
}

async function followMissed(): Promise<void> {
  if (missed) await followLab();
}
