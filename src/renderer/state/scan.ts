import { signal } from '@preact/signals';
import type { Code, CodeReading } from '../../core/code/code.ts';
import { labelMeant } from '../../core/code/label-meant.ts';
import { Paper } from '../../core/paper/paper.ts';
import { type WeighingSheet } from '../../core/paper/sheet.ts';
import { scanWords as words } from '../../core/words/scan-words.ts';
import { troubleWords } from '../../core/words/shell-words.ts';
import { chooseOnly } from '../places/bench/bench-store.ts';
import { leaveSession } from '../places/bench/session-store.ts';
import { openBottle } from '../places/shelf/shelf-store.ts';
import { call } from './connection.ts';
import { goTo } from './place.ts';
import { openPlanById } from './plan-store.ts';
import { openPlan } from './plan-route.ts';
import { leaveRun, openRun, ownRuns, readRuns, saidWrong, weighing } from './run-store.ts';
import { afterKey, NO_KEYS, scannedIn } from './scan-keys.ts';
import { takesText } from './command.ts';

/** What the last code came to; empty where there is nothing to say. */
export const scanSaid = signal('');

let keys = NO_KEYS;

/** Hears every key before anything else does, so that a scanner is understood wherever the person is. */
export function hearKey(event: KeyboardEvent): void {
  if (event.ctrlKey || event.metaKey || event.altKey || document.querySelector('dialog:modal')) return;
  const field = textField(event.target);
  if (event.key === 'Enter') {
    const typed = keys.text;
    keys = NO_KEYS;
    // The field of weighing mode reads codes itself: there a bottle is picked, not opened.
    if (field?.dataset['codes'] === 'own') return;
    const scanned = scannedIn(field ? field.value : typed, field !== null);
    if (!scanned) return;
    stop(event);
    if (field) putBack(field, scanned.rest);
    void act(scanned.reading);
    return;
  }
  const next = afterKey(keys, event.key, event.timeStamp);
  keys = next.keys;
  if (next.ours && !field && !takesText(event.target)) stop(event);
}

function stop(event: KeyboardEvent): void {
  event.preventDefault();
  event.stopImmediatePropagation();
}

function textField(target: EventTarget | null): HTMLInputElement | HTMLTextAreaElement | null {
  if (target instanceof HTMLTextAreaElement) return target;
  return target instanceof HTMLInputElement && !['checkbox', 'radio', 'button', 'range'].includes(target.type) ? target : null;
}

/** What stood in the field before the scanner typed into it, told to whoever follows the field. */
function putBack(field: HTMLInputElement | HTMLTextAreaElement, text: string): void {
  field.value = text;
  field.dispatchEvent(new Event('input', { bubbles: true }));
}

/** Does what a code asks for: opens its bottle, or the batch of its sheet. */
export async function act(reading: CodeReading): Promise<void> {
  // What is typed beside a weighing, but not recorded yet, must not go because a bottle was scanned.
  const wrong = !reading.ok ? words.misread : weighing.value && reading.code.kind === 'bottle' ? words.notNow : '';
  if (weighing.value && wrong !== '') saidWrong(wrong);
  else scanSaid.value = reading.ok ? await open(reading.code) : wrong;
}

/** Of codes scanned one soon after the other the last is opened, whichever is answered first. */
let turn = 0;

async function open(code: Code): Promise<string> {
  turn += 1;
  const mine = turn;
  const late = (): boolean => mine !== turn;
  return code.kind === 'bottle' ? showBottle(code.label, late) : reopenBatch(code, late);
}

async function showBottle(typed: string, late: () => boolean): Promise<string> {
  const answer = await call('shelf.labelled', { typed });
  if (late()) return scanSaid.value;
  if (!answer.ok) return troubleWords(answer);
  const meant = labelMeant(typed, answer.value);
  if (meant.kind === 'none') return words.noBottle(typed);
  if (meant.kind === 'several') return words.severalLabels(meant.labels);
  goTo('shelf');
  openBottle(meant.label);
  return '';
}

/** The batch of an issued sheet: its run goes on, or it is chosen on the Bench. */
async function reopenBatch({ paper, sheet }: Extract<Code, { kind: 'sheet' }>, late: () => boolean): Promise<string> {
  const answer = await call('papers.read', { id: paper });
  if (late()) return scanSaid.value;
  if (!answer.ok) return answer.code === 'not found' ? words.noPaper(paper) : troubleWords(answer);
  const { plan, revision } = answer.value;
  const found = sheetIn(answer.value.paper, sheet);
  if (!found || plan === null) return words.noSheet(paper, sheet);
  if (openPlan.value?.id !== plan) await openPlanById(plan);
  if (openPlan.value?.id !== plan) return words.noPlan;
  await readRuns();
  if (late()) return scanSaid.value;
  const newest = ownRuns().find((one) => one.step === found.step && one.batch === found.batch);
  goTo('bench');
  leaveSession();
  chooseOnly(found.step, found.batch);
  if (newest) await openRun(newest.id);
  else if (weighing.value) leaveRun();
  const changed = await changedSince(plan, paper);
  const said = changed ? words.changed(sheet, revision) : '';
  return newest ? said : [words.chosen(sheet), said].filter(Boolean).join(' ');
}

function sheetIn(data: unknown, id: string): WeighingSheet | undefined {
  const read = Paper.safeParse(data);
  if (!read.success) return undefined;
  const parts = read.data.kind === 'session papers' ? read.data.parts : [read.data];
  return parts.flatMap((one) => (one.kind === 'weighing sheet' ? one.sheets : [])).find((one) => one.id === id);
}

async function changedSince(plan: number, paper: number): Promise<boolean> {
  const list = await call('papers.list', { planId: plan });
  return list.ok && list.value.some((one) => one.id === paper && one.earlier);
}
