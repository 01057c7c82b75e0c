import { readBalanceText } from '../../core/run/balance-text.ts';
import type { Charged, Correctable, Product, RunEntry } from '../../core/run/entry.ts';
import { takenEntry } from '../../core/run/weigh-line.ts';
import { sentence } from '../../core/words/sentences.ts';
import { weighWords as words } from '../../core/words/weigh-words.ts';
import { run, runState } from './run-store.ts';
import { bottlesOf, materialOf } from './weigh-bottles.ts';
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

/** Which entry is wrong: its number, or nothing for the last weighing. What holds no amount can only be taken out. */
export function readWhich(line: string, last: number | null): CorrectionStep {
  const number = line === '' ? last : Number(line);
  const found = number === null ? null : entryNow(number);
  if (number === null || !found) return no(words.noEntry(line));
  switch (found.kind) {
    case 'charged':
    case 'product':
      return { ok: true, ask: { for: 'correct value', of: number } };
    case 'started':
    case 'paused':
    case 'resumed':
    case 'finished':
    case 'correction':
      return no(sentence({ code: 'entry not corrected', values: { number, kind: found.kind } }));
    default:
      return { ok: true, ask: { for: 'correct reason', of: number, instead: null } };
  }
}

/** What a weighing or a product should have said; nothing typed: it should not be there. */
export function readReplacement(line: string, of: number, by: string): CorrectionStep {
  const found = entryNow(of);
  const tables = reference.value;
  if ((found?.kind !== 'charged' && found?.kind !== 'product') || !tables) return no(words.noEntry(String(of)));
  if (line === '') return reasonFor(of, null);
  const read = readBalanceText(line, found.kind === 'charged' ? found.unit : 'g', tables.rows.balanceTexts);
  if (!read.ok) return no(words.refused(sentence(read.why)));
  const weighed = { amount: read.amount, unit: read.unit, text: line };
  return reasonFor(of, found.kind === 'product' ? productAgain(found, weighed) : chargedAgain(found, weighed, by));
}

interface Weighed {
  readonly amount: number;
  readonly unit: 'g' | 'mL';
  readonly text: string;
}

function reasonFor(of: number, instead: Correctable | null): CorrectionStep {
  return { ok: true, ask: { for: 'correct reason', of, instead } };
}

/** The same bottle, portion, checker and deviation; what it takes and brings is worked out anew. */
function chargedAgain(found: Charged, { amount, unit, text }: Weighed, by: string): Correctable | null {
  const charge = runState.value?.charges.find((one) => one.charge.id === found.charge);
  if (!charge || !reference.value) return null;
  const { complete, deviation, checkedBy, bottle: code, portion } = found;
  const bottle = bottlesOf(charge.charge.material).find((one) => one.id === code) ?? null;
  const before = { ...charge, parts: charge.parts.slice(0, portion - 1) };
  const at = { charge: before, by, secondCheck: false, bottle, material: materialOf(charge.charge), reference: reference.value };
  const more = { complete, ...(deviation === undefined ? {} : { deviation }), ...(checkedBy === undefined ? {} : { checkedBy }) };
  const again = takenEntry({ ...at, dish: null }, { net: amount, unit, text }, more);
  return { ...again, bottle: code, lot: found.lot, portion };
}

/** The mass weighed anew; assay and place stay. */
function productAgain(found: Product, { amount, text }: Weighed): Correctable {
  const { tare: _tare, gross: _gross, ...kept } = found;
  return { ...kept, grams: amount, text };
}
