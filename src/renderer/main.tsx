import { computed, effect, untracked } from '@preact/signals';
import { render } from 'preact';
import * as z from 'zod/mini';
import { shellWords } from '../core/words/shell-words.ts';
import { EmptyState } from './parts/empty-state.tsx';
import { findPort } from './find-port.ts';
import { App } from './shell/app.tsx';
import { keepSessionIn, readSessions } from './places/bench/session-store.ts';
import { keepShelfIn } from './places/shelf/kept-shelf.ts';
import { readAcknowledged } from './state/acknowledged.ts';
import { commandFor, takesText } from './state/command.ts';
import { COMMANDS } from './state/commands.ts';
import { connection, connectPort, subscribe } from './state/connection.ts';
import { keepDraftsIn } from './state/kept-draft.ts';
import { keepRefusedIn } from './state/kept-refused.ts';
import { followLab } from './state/lab-store.ts';
import { followAddress } from './state/place.ts';
import { followPlan, openNewestPlan, planOpened, saveAgain, saveDraft, saveTrouble } from './state/plan-store.ts';
import { openPlan, readShelf } from './state/plan-route.ts';
import { keepSourcesIn } from './state/weigh-bottles.ts';
import { checkRuns, followRuns, keepRunIn, readRuns, reopenRun } from './state/run-store.ts';
import { hearKey } from './state/scan.ts';
import { followOpenRoute, followPlanRoute } from './state/route-edits.ts';
import { keyTooEarly } from './state/weigh-commands.ts';
import { followWorkbook, openWorkbook, readToday, start } from './state/workbook.ts';

// zod tries eval to compile its schemas, which the page's policy forbids and reports.
z.config({ jitless: true });

/** ms. A bottle's last day is over soon after midnight. */
const DAY_READ_EVERY = 600_000;

const root = document.getElementById('app');
if (root) void begin(root);

async function begin(root: HTMLElement): Promise<void> {
  const port = findPort((state) => {
    connection.value = state;
  });
  if (!port) {
    render(<EmptyState title={shellWords.noKey.title} text={shellWords.noKey.text} />, root);
    return;
  }
  connectPort(port);
  followAddress();
  keepDraftsIn(sessionStorage);
  keepRefusedIn(sessionStorage);
  keepShelfIn(sessionStorage);
  keepRunIn(sessionStorage);
  keepSourcesIn(sessionStorage);
  keepSessionIn(sessionStorage);
  render(<App />, root);
  globalThis.addEventListener('keydown', hearKey, { capture: true });
  globalThis.addEventListener('keydown', pressKey);
  document.addEventListener('visibilitychange', () => document.hidden && saveDraft());
  setInterval(() => void readToday(), DAY_READ_EVERY);
  // Before anything is read: what changes after it was read must be told.
  listen();
  if (await openWorkbook()) await follow();
  else waitForStart();
}

function listen(): void {
  followWorkbook();
  // Of a plan on its way it is not known whether what was read of it was from before the change.
  const ofPlan = (followed: () => Promise<void>) => () => void planOpened().then(followed);
  subscribe('plans', ofPlan(followPlan));
  subscribe('routes', ofPlan(followPlanRoute));
  subscribe('routes', () => void followOpenRoute());
  subscribe('shelf', ofPlan(readShelf));
  subscribe('settings', () => void followLab());
  subscribe('runs', () => void followRuns());
  subscribe('sessions', () => void readSessions());
  subscribe('cautions', () => void readAcknowledged());
  // The workbook as a whole was replaced or set aside, or the program was rebuilt: everything here is out of date.
  subscribe('program', () => location.reload());
}

async function follow(): Promise<void> {
  // What could not be saved while the program did not answer is saved when it does.
  effect(() => {
    if (connection.value === 'open' && saveTrouble.peek()?.kind === 'failed') saveAgain();
  });
  const routeShown = computed(() => openPlan.value?.routeId);
  effect(() => {
    if (routeShown.value) untracked(() => void readRuns());
  });
  const shown = computed(() => openPlan.value?.id);
  effect(() => {
    if (shown.value !== undefined) untracked(() => void readAcknowledged());
  });
  await openNewestPlan();
  await reopenRun();
  void checkRuns();
}

/** The workbook did not open: goes on as soon as trying again succeeds. */
function waitForStart(): void {
  const end = effect(() => {
    if (start.value.at !== 'open') return;
    queueMicrotask(() => end());
    void follow();
  });
}

function pressKey(event: KeyboardEvent): void {
  if (event.defaultPrevented || document.querySelector('dialog:modal')) return;
  const command = commandFor(event, COMMANDS, takesText(event.target, event));
  if (command || keyTooEarly(event)) event.preventDefault();
  command?.do();
}
