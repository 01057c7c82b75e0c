import { computed, signal } from '@preact/signals';
import { foldName } from '../../core/matter/facts.ts';
import type { Correctable, RunEntry } from '../../core/run/entry.ts';
import { areInitials } from '../../core/run/initials.ts';
import { type AtTheBalance, completes, readCelsius, takenEntry, verdictAt, weighLine } from '../../core/run/weigh-line.ts';
import { weighedText } from '../../core/run/reading-text.ts';
import { readBalanceText } from '../../core/run/balance-text.ts';
import { celsiusText, windowText } from '../../core/paper/amounts.ts';
import { temperatureVerdict } from '../../core/run/temperature.ts';
import { type ChargeState, READ_FIRST } from '../../core/run/state.ts';
import type { CodeReading } from '../../core/code/code.ts';
import { scanWords } from '../../core/words/scan-words.ts';
import { sentence } from '../../core/words/sentences.ts';
import { weighWords as words } from '../../core/words/weigh-words.ts';
import { decimalMark } from '../parts/locale.ts';
import { act, addToRun, beginRun, busy, leaveRun, run, runState, said, saidDone, saidWrong, starting } from './run-store.ts';
import { act as actOn } from './scan.ts';
import { scannedIn } from './scan-keys.ts';
import { who } from './who.ts';
import { type CorrectionStep, readReplacement, readWhich, thatIsAll } from './weigh-correct.ts';
import { cameTwice, isWeight, looksWeighed, typedByBalance, wasTaken, WORDS_ONLY } from './weigh-lines.ts';
import { dishFactor } from './weigh-dish.ts';
import { bottleCalled, bottleFor, expired, inHand, materialOf, namedSource } from './weigh-bottles.ts';
import { takeBottle, takeSource } from './weigh-source.ts';
import { reference } from './workbook.ts';

/** What the one field of weighing mode waits for. */
export type Asking =
  /** What belongs to the act: a reading, a label, a confirmation. */
  | { readonly for: 'line' }
  | { readonly for: 'who' }
  /** `complete`: nothing more of the charge follows. */
  | { readonly for: 'why' }
  /** What a charge is taken from. */
  | { readonly for: 'bottle' }
  | { readonly for: 'checker'; readonly complete: boolean; readonly deviation?: string }
  | { readonly for: 'remark' }
  | { readonly for: 'deviation' }
  | { readonly for: 'not met' }
  /** A check that is met. */
  | { readonly for: 'met' }
  | { readonly for: 'adjust'; readonly entry: RunEntry }
  /** The number of an entry; `last`: the one meant where none is typed. */
  | { readonly for: 'correct which'; readonly last: number | null }
  | { readonly for: 'correct value'; readonly of: number }
  | { readonly for: 'correct reason'; readonly of: number; readonly instead: Correctable | null; readonly spilled?: true }
  /** Why the run ends before its last operation. */
  | { readonly for: 'end' };

const LINE: Asking = { for: 'line' };
const asked = signal<Asking>(LINE);

/** What the field waits for now: initials first, a second pair of eyes where they are wanted, else what was asked. */
export const asking = computed<Asking>(() => {
  // A run begins with the word of who weighs it, whoever weighed the one before.
  if (who.value === '' || starting.value) return { for: 'who' };
  if (asked.value.for !== 'line') return asked.value;
  const now = act.value;
  const wanted = run.value?.start.sheet.secondCheck ?? false;
  if (!wanted || now?.kind !== 'weigh' || !now.charge.reading) return LINE;
  const from = bottleFor(now.charge)?.id ?? null;
  const charge = inHand(now.charge);
  const verdict = verdictAt(charge, now.charge.reading, from);
  const good = verdict?.kind === 'in range' || verdict?.kind === 'recorded';
  return good ? { for: 'checker', complete: completes(charge, now.charge.reading, from) } : LINE;
});

export function ask(next: Asking): void {
  said.value = null;
  asked.value = next;
}

function atTheBalance(charge: ChargeState): AtTheBalance | null {
  if (!reference.value) return null;
  return {
    charge: inHand(charge),
    by: who.value,
    secondCheck: run.value?.start.sheet.secondCheck ?? false,
    bottle: bottleFor(charge),
    named: namedSource(charge),
    material: materialOf(charge.charge),
    dish: bottleFor(charge) ? null : dishFactor(charge.charge),
    reference: reference.value,
  };
}

/**
 * Enter was pressed: what was typed is understood, and written before anything else is shown. True: the field empties.
 * @param again Enter alone, on what was asked about and put back as it was.
 */
export async function submit(text: string, again = false): Promise<boolean> {
  if (busy.value) return false;
  const now = asking.value;
  const scanned = scannedIn(text, true);
  // While an entry is put right, a bottle is what it came from.
  if (scanned && now.for !== 'correct value') return takeCode(scanned.reading, now);
  const line = text.trim();
  if (now.for === 'bottle' && typedByBalance(line)) return wrong(words.noSource(line));
  if (WORDS_ONLY.has(now.for) && !again && looksWeighed(line)) return wrong(words.notWords(line));
  switch (now.for) {
    case 'who':
      return takeWho(line);
    case 'line':
      return takeLine(line);
    case 'why':
      return line === '' ? wrong(words.needsReason) : accept(true, line);
    case 'bottle':
      return takeFrom(line);
    case 'checker':
      return takeChecker(line, now);
    case 'remark':
      return line === '' ? cancelAsk() : write({ kind: 'remark', by: who.value, words: line });
    case 'deviation':
      return line === '' ? cancelAsk() : write({ kind: 'deviation', by: who.value, operation: operationNow(), words: line });
    case 'not met':
    case 'met':
      return line === ''
        ? cancelAsk()
        : write({ kind: 'check', by: who.value, operation: operationNow(), found: line, passed: now.for === 'met' });
    case 'adjust':
      return line === '' ? write(now.entry, true) : answerAgain(line, now.entry);
    case 'correct which':
      return apply(readWhich(line, now.last));
    case 'correct value':
      return apply(readReplacement(line, now.of, who.value));
    case 'correct reason':
      if (line === '') return wrong(words.needsReason);
      return write({
        kind: 'correction',
        by: who.value,
        of: now.of,
        reason: line,
        instead: now.instead,
        ...(now.spilled ? { spilled: true } : {}),
      });
    case 'end':
      return line === '' ? wrong(words.needsReason) : write({ kind: 'finished', by: who.value, why: line }, false, '');
  }
}

/** Something else was typed where a ledger is to be put right: it takes the place of what was typed before. */
async function answerAgain(line: string, entry: RunEntry): Promise<boolean> {
  if (entry.kind === 'correction') return apply(readReplacement(line, entry.of, who.value));
  cancelAsk();
  return takeLine(line);
}

/** A scanned code: a bottle is taken from where something is weighed, a sheet opens its batch. */
async function takeCode(reading: CodeReading, now: Asking): Promise<boolean> {
  if (!reading.ok) return wrong(scanWords.misread);
  if (reading.code.kind === 'bottle') {
    const here = act.value;
    if (!['line', 'bottle'].includes(now.for) || here?.kind !== 'weigh' || runState.value?.phase === 'paused')
      return wrong(scanWords.notNow);
    // A code names a bottle and nothing else, whatever its label looks like.
    const meant = bottleCalled(reading.code.label, here.charge.charge.material);
    return answered(takeBottle(reading.code.label, here.charge, meant));
  }
  await actOn(reading);
  return true;
}

/** What a step of a correction comes to: the next question, or why not. */
function apply(next: CorrectionStep): boolean {
  if (!next.ok) return wrong(next.words);
  ask(next.ask);
  return true;
}

function wrong(text: string): false {
  saidWrong(text);
  return false;
}

export function cancelAsk(): true {
  said.value = null;
  asked.value = LINE;
  return true;
}

async function takeWho(line: string): Promise<boolean> {
  const stays = line === '' && starting.value !== null && who.value !== '';
  if (!stays && !areInitials(line)) return wrong(words.badInitials);
  if (!stays) who.value = line;
  cancelAsk();
  if (starting.value) await beginRun();
  return true;
}

async function takeLine(line: string): Promise<boolean> {
  const now = act.value;
  if (!now) return true;
  const celsius = readCelsius(line);
  if (celsius !== null) return takeTemperature(celsius);
  if (runState.value?.phase === 'paused')
    return line === '' ? write({ kind: 'resumed', by: who.value }) : wrong(words.ask.resume);
  switch (now.kind) {
    case 'weigh':
      return weigh(line, now.charge);
    case 'rescale':
      return line === '' ? rescale(now.factor) : wrong(words.ask.rescale);
    case 'read':
      if (foldName(line) !== foldName(who.value)) return wrong(words.notMine(who.value));
      return write({ kind: 'confirmed', by: who.value, operation: READ_FIRST }, false, words.verdict.confirmed);
    case 'hold':
      if (foldName(line) !== foldName(who.value)) return wrong(words.notMine(who.value));
      return write({ kind: 'confirmed', by: who.value, operation: now.entry.id }, false, words.verdict.confirmed);
    case 'removal':
    case 'add':
      if (line !== '') return wrong(words.ask.done);
      return write({ kind: 'confirmed', by: who.value, operation: now.entry.id }, false, words.verdict.confirmed);
    case 'product':
      return true;
  }
}

/** Written first; then said against the procedure's own window and limit. */
async function takeTemperature(celsius: number): Promise<boolean> {
  const sheet = run.value?.start.sheet;
  const operation = operationNow();
  const done = await write({ kind: 'temperature', by: who.value, operation, celsius });
  if (!done || !sheet) return done;
  const verdict = temperatureVerdict(sheet, operation, celsius);
  const degrees = (value: number): string => celsiusText(value, decimalMark);
  if (verdict.kind === 'limit') {
    saidWrong(words.celsius.limit(degrees(celsius), verdict.side, degrees(verdict.celsius), verdict.action));
  } else if (verdict.kind === 'outside') {
    saidWrong(words.celsius.outside(degrees(celsius), windowText(verdict, decimalMark)));
  } else saidDone(words.celsius.written(degrees(celsius)));
  return true;
}

export async function rescale(factor: number): Promise<boolean> {
  const shown = factor.toPrecision(4).replace('.', decimalMark);
  const done = factor === 1 ? words.rescale.kept : words.rescale.done(shown);
  return write({ kind: 'rescaled', by: who.value, factor }, false, done);
}

async function weigh(line: string, charge: ChargeState): Promise<boolean> {
  const label = labelIn(line, charge);
  if (label !== null) return label;
  const at = atTheBalance(charge);
  if (!at) return false;
  if (at.bottle && expired(at.bottle)) return wrong(words.from.outOfDate(at.bottle.id));
  if (cameTwice(line)) return wrong(words.cameTwice(line));
  const meaning = weighLine(line, at);
  if (!meaning.ok) return wrong(words.refused(sentence(meaning.why)));
  const done = await write(meaning.entry, false, takenWords(meaning.entry, charge));
  if (done && meaning.entry.kind === 'charged') wasTaken(line);
  return done;
}

function takenWords(entry: RunEntry, charge: ChargeState): string {
  if (entry.kind !== 'charged') return '';
  return words.verdict.taken(charge.charge.name, `${weighedText(entry.net, entry.text, decimalMark)} ${entry.unit}`);
}

/** A label of the shelf, by code or by lot; null where the line is none. */
function labelIn(line: string, now: ChargeState): boolean | null {
  if (line === '') return null;
  const found = bottleCalled(line, now.charge.material);
  if (found.kind === 'none') return /^B-?\d+$/i.test(line) ? wrong(words.from.other(line, now.charge.name)) : null;
  if (reference.value && isWeight(line, now.charge.unit, reference.value.rows.balanceTexts))
    return wrong(words.from.alsoWeight(line, now.charge.unit));
  return takeBottle(line, now, found);
}

/** What the charge that is weighed now is taken from, as a person says it. */
function takeFrom(line: string): boolean {
  const now = act.value;
  if (now?.kind !== 'weigh') return cancelAsk();
  return answered(takeSource(line, now.charge, (found) => takeBottle(line, now.charge, found)));
}

/** A question that was answered is put no more; what was said of it stays. */
function answered(done: boolean): boolean {
  if (done) asked.value = LINE;
  return done;
}

/** Takes what stands on the balance though it is out of range, or as a part of the charge. */
export async function accept(complete: boolean, deviation?: string): Promise<boolean> {
  const now = act.value;
  if (now?.kind !== 'weigh') return true;
  if (!now.charge.reading) return deviation === undefined ? true : endParts(now.charge, deviation);
  if (run.value?.start.sheet.secondCheck) {
    ask({ for: 'checker', complete, ...(deviation === undefined ? {} : { deviation }) });
    return true;
  }
  return take(now.charge, { complete, ...(deviation === undefined ? {} : { deviation }) });
}

/** There is no more of it: the part that was taken last becomes the last one, with the reason. */
async function endParts(charge: ChargeState, reason: string): Promise<boolean> {
  const entry = thatIsAll(charge, who.value, reason);
  return entry ? write(entry) : true;
}

async function takeChecker(line: string, { complete, deviation }: Extract<Asking, { for: 'checker' }>): Promise<boolean> {
  const now = act.value;
  if (now?.kind !== 'weigh') return cancelAsk();
  // The balance may print again while a second person is awaited: that is a new reading, not a name.
  const again = reference.value && readBalanceText(line, now.charge.charge.unit, reference.value.rows.balanceTexts);
  if (again?.ok) return weigh(line, now.charge);
  if (!areInitials(line)) return wrong(words.badInitials);
  if (foldName(line) === foldName(who.value)) return wrong(words.sameChecker);
  return take(now.charge, { complete, checkedBy: line, ...(deviation === undefined ? {} : { deviation }) });
}

type Taking = Parameters<typeof takenEntry>[2];

async function take(charge: ChargeState, taking: Taking): Promise<boolean> {
  const at = atTheBalance(charge);
  if (!at || !charge.reading) return false;
  const entry = takenEntry(at, charge.reading, taking);
  return write(entry, false, takenWords(entry, charge));
}

/** Keys that were pressed while an entry was being written. */
let late: string[] = [];

/**
 * A key pressed while an entry is being written may be meant for what stands there before or after it: it does nothing, and
 * that is told when the entry is written, so that nobody takes for a part, or for a pause, what is none.
 */
export function pressedLate(keys: string): void {
  late.push(keys);
}

/** Writes an entry. Where it is refused what was typed stays, and it is said why. */
export async function write(entry: RunEntry, adjust = false, done: string = words.verdict.written): Promise<boolean> {
  const answered = asked.value;
  const of = run.value?.id;
  if (!busy.value) late = [];
  const added = await addToRun(entry, adjust);
  const keys = late.length === 0 ? '' : words.keysLate(late);
  late = [];
  // Weighing was left, and another batch may be open: what came of it is in its record.
  if (run.value?.id !== of) return true;
  if (added.ok) {
    // What was asked for meanwhile is another question, and stays.
    if (asked.value === answered) asked.value = LINE;
    const text = [done, added.said].filter(Boolean).join(' ');
    if (keys !== '') saidWrong([text, keys].filter(Boolean).join(' '));
    else if (text === '') said.value = null;
    else saidDone(text);
    return true;
  }
  if (!added.ledger || asked.value !== answered) return wrong([words.refused(added.words), keys].filter(Boolean).join(' '));
  asked.value = { for: 'adjust', entry };
  saidWrong([added.words, keys].filter(Boolean).join(' '));
  return true;
}

function operationNow(): string | null {
  const now = act.value;
  return now && 'entry' in now ? now.entry.id : null;
}

/** Whether something is asked that Escape leaves unanswered. */
export const isAsked = (): boolean => asked.value.for !== 'line';

/** Escape: what was asked is not answered; where nothing was asked, weighing mode is left. */
export function escape(): void {
  if (isAsked()) cancelAsk();
  else leaveRun();
}
