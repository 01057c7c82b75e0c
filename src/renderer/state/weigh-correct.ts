import { CORRECTED_BY_TEXT, correctedEntry } from '../../core/run/correct.ts';
import type { Charged, Correctable, RunEntry } from '../../core/run/entry.ts';
import type { ChargeState } from '../../core/run/state.ts';
import { takenEntry } from '../../core/run/weigh-line.ts';
import { sentence } from '../../core/words/sentences.ts';
import { weighWords as words } from '../../core/words/weigh-words.ts';
import { run, runState } from './run-store.ts';
import { bottleCalled, bottlesOf, materialOf } from './weigh-bottles.ts';
import { isWeight } from './weigh-lines.ts';
import type { Asking } from './weigh-store.ts';
import { reference } from './workbook.ts';

/** Putting an entry right: which one, what it should have said, why. Each answer gives the next question. */
export type CorrectionStep = { readonly ok: true; readonly ask: Asking } | { readonly ok: false; readonly words: string };

const no = (text: string): CorrectionStep => ({ ok: false, words: text });

/** The entry that is most often meant: the last weighing or product that counts. */
export function lastWeighing(): number | null {
  const found = runState.value?.standing.findLast(({ entry }) => entry.kind === 'charged' || entry.kind === 'product');
  return found?.number ?? null;
}

/** An entry as it counts now; as it was written where it was taken out. */
export function entryNow(number: number): RunEntry | null {
  const standing = runState.value?.standing.find((one) => one.number === number);
  return (standing ?? run.value?.entries.find((one) => one.number === number))?.entry ?? null;
}

/** Which entry is wrong: its number, or nothing for the last weighing. */
export function readWhich(line: string, last: number | null): CorrectionStep {
  const number = line === '' ? last : Number(line);
  const found = number === null ? null : entryNow(number);
  if (number === null || !found) return no(words.noEntry(line));
  if (CORRECTED_BY_TEXT.has(found.kind)) return { ok: true, ask: { for: 'correct value', of: number } };
  switch (found.kind) {
    case 'correction':
      return no(words.correctTheFirst(found.of));
    default:
      // Confirmed, paused, gone on with, finished: it was so, or it was not.
      return reasonFor(number, null);
  }
}

/** What an entry should have said; nothing typed: it should not be there. */
export function readReplacement(line: string, of: number, by: string): CorrectionStep {
  const found = entryNow(of);
  const tables = reference.value;
  if (!found || !tables) return no(words.noEntry(String(of)));
  if (line === '') return found.kind === 'started' ? no(words.startStays) : reasonFor(of, null);
  const called = found.kind === 'charged' ? bottleTyped(found, line) : null;
  if (called && !called.ok) return no(called.words);
  const read = called ?? correctedEntry(found, line, tables.rows.balanceTexts);
  if (!read.ok) return no(words.refused(sentence(read.why)));
  if ('instead' in read) return reasonFor(of, read.instead.kind === 'started' ? read.instead : { ...read.instead, by });
  if (found.kind !== 'charged') return no(words.noEntry(String(of)));
  if ('spilled' in read) return { ok: true, ask: { for: 'correct reason', of, instead: null, spilled: true } };
  if ('weighed' in read) return reasonFor(of, chargedAgain(found, read.weighed, found.bottle, by));
  const charge = runState.value?.charges.find((one) => one.charge.id === found.charge);
  const meant = charge ? bottleCalled(read.label, charge.charge.material) : { kind: 'none' as const };
  if (meant.kind === 'several') return no(words.from.several(read.label, meant.labels, meant.by));
  const bottle = meant.kind === 'one' ? meant.bottle : null;
  const own = bottle && charge && bottlesOf(charge.charge.material).some((one) => one.id === bottle.id);
  if (!bottle || !own) return no(words.from.other(read.label, charge?.charge.name ?? found.charge));
  return reasonFor(of, chargedAgain(found, { amount: found.net, unit: found.unit, text: found.text }, bottle.id, by));
}

/** A label or a lot, as the field of the weighing takes it; null where the line is none. */
function bottleTyped(found: Charged, line: string): { ok: true; label: string } | { ok: false; words: string } | null {
  const charge = runState.value?.charges.find((one) => one.charge.id === found.charge);
  if (!charge || !reference.value || isWeight(line, found.unit, reference.value.rows.balanceTexts)) return null;
  const called = bottleCalled(line, charge.charge.material);
  if (called.kind === 'several') return { ok: false, words: words.from.several(line, called.labels, called.by) };
  return called.kind === 'one' ? { ok: true, label: called.bottle.id } : null;
}

/** A correction that makes the last part of a charge its last one; null where nothing of it was taken. */
export function thatIsAll({ charge }: ChargeState, by: string, reason: string): RunEntry | null {
  const last = runState.value?.standing.findLast(({ entry }) => entry.kind === 'charged' && entry.charge === charge.id);
  if (last?.entry.kind !== 'charged') return null;
  return { kind: 'correction', by, of: last.number, reason, instead: { ...last.entry, deviation: reason, complete: true } };
}

interface Weighed {
  readonly amount: number;
  readonly unit: 'g' | 'mL';
  readonly text: string;
}

function reasonFor(of: number, instead: Correctable | null): CorrectionStep {
  return { ok: true, ask: { for: 'correct reason', of, instead } };
}

/** The same portion and deviation; what it takes of its bottle and brings is worked out anew. The second person saw what stood there before, and not this. */
function chargedAgain(found: Charged, { amount, unit, text }: Weighed, code: string | null, by: string): Correctable | null {
  const charge = runState.value?.charges.find((one) => one.charge.id === found.charge);
  if (!charge || !reference.value) return null;
  const { complete, deviation, portion } = found;
  const bottle = bottlesOf(charge.charge.material).find((one) => one.id === code) ?? null;
  const before = { ...charge, parts: charge.parts.slice(0, portion - 1) };
  const at = { charge: before, by, secondCheck: false, bottle, material: materialOf(charge.charge), reference: reference.value };
  const more = { complete, ...(deviation === undefined ? {} : { deviation }) };
  const again = takenEntry({ ...at, dish: null }, { net: amount, unit, text }, more);
  return { ...again, bottle: code, lot: code === found.bottle ? found.lot : (bottle?.lot ?? ''), portion };
}
