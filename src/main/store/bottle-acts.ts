import type { Form } from '../../core/matter/form.ts';
import type { Material } from '../../core/matter/material.ts';
import { canonicalJson } from '../../core/canonical-json.ts';
import { revives } from '../../core/shelf/written.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { toSmallest } from './amounts.ts';
import { type BottleRecord, type NewBottle, nextCode, putBottle, readBottle, shelfBottle } from './bottles.ts';
import type { Moment } from './bottle-edits.ts';
import { readTests } from './bottle-tests.ts';
import type { Database } from './database.ts';
import { appendLine } from './ledger.ts';
import { Refusal } from './refusal.ts';
import { firstLineOf, tieLines } from './ties.ts';

interface Split {
  /** g or mL, in the bottle's unit. */
  readonly amount: number;
  readonly place?: string | undefined;
  readonly at: string;
}

/** Parts a bottle in two of the same contents; gives the label of the new one. Only inside a write. */
export function splitBottle(database: Database, code: string, { amount, place, at }: Split): string {
  const record = readBottle(database, code);
  const smallest = toSmallest(amount);
  if (smallest === 0) throw new Refusal('invalid input', mainWords.tooSmall(amount, record.unit));
  const made = nextCode(database);
  const taken = appendLine(database, {
    bottle: record.id,
    kind: 'used',
    change: -smallest,
    reason: mainWords.splitInto(made),
    at,
  });
  const bottle = { ...asItIs(database, record), id: made, left: amount, ...(place === undefined ? {} : { place }) };
  const came = firstLine(database, putBottle(database, withoutVessel(bottle), mainWords.splitFrom(code), at));
  tieLines(database, 'split', taken, came);
  return made;
}

/** A bottle as it was meant to be entered; what is named null is taken off. */
export type Meant = Omit<NewBottle, 'id' | 'received' | 'heldBack' | 'tests'>;

/**
 * Empties a bottle that was entered wrong and receives the right one in its place, in one go; gives the label of the right
 * one. When it came, whether it is held back, and its tests where the contents are the same, carry over. Only inside a
 * write.
 */
export function correctBottle(database: Database, code: string, meant: Meant, { at, today }: Moment): string {
  const record = readBottle(database, code);
  // A date that was typed wrong shows on the day it was entered; later only a test makes an old bottle usable again.
  if (record.received !== today && revives(record.use_by, { useBy: meant.useBy ?? null }, today))
    throw new Refusal('refused', mainWords.staysOutOfDate([code]));
  if (record.amount_left === 0) throw new Refusal('refused', mainWords.correctEmpty(code));
  notInARun(database, record);
  const made = nextCode(database);
  const emptied = appendLine(database, {
    bottle: record.id,
    kind: 'adjusted',
    change: -record.amount_left,
    reason: mainWords.enteredWrong(made),
    at,
  });
  const same = canonicalJson(meant.form) === record.form && canonicalJson(meant.holds) === record.material_data;
  const right: NewBottle = {
    ...meant,
    id: made,
    ...(record.received === null ? {} : { received: record.received }),
    ...(record.held_back === 1 ? { heldBack: true } : {}),
    ...(same ? { tests: [...readTests(database, record.id)] } : {}),
  };
  const came = firstLine(database, putBottle(database, right, mainWords.inPlaceOf(code), at));
  tieLines(database, 'correction', emptied, came);
  return made;
}

/** The record of a run names the bottle it took from, and the one it filled, for ever. */
function notInARun(database: Database, record: BottleRecord): void {
  const found = database.get<{ run: number; kind: string }>(
    `SELECT run_ledger.run AS run, ledger.kind AS kind FROM ledger CROSS JOIN run_ledger ON run_ledger.ledger = ledger.id
     WHERE ledger.bottle = ? AND ledger.kind IN ('used', 'made')
       AND NOT EXISTS (SELECT 1 FROM ledger AS later WHERE later.undoes = ledger.id)
     ORDER BY ledger.id LIMIT 1`,
    [record.id],
  );
  if (!found) return;
  const words =
    found.kind === 'made' ? mainWords.correctMade(record.code, found.run) : mainWords.correctDrawn(record.code, found.run);
  throw new Refusal('refused', words);
}

function asItIs(database: Database, record: BottleRecord): NewBottle {
  const { material: _key, ...bottle } = shelfBottle(record, '');
  const tests = readTests(database, record.id);
  return {
    ...bottle,
    holds: JSON.parse(record.material_data) as Material,
    form: JSON.parse(record.form) as Form,
    ...(tests.length === 0 ? {} : { tests: [...tests] }),
  };
}

/** Another vessel has another tare, was not paid for, and has no note of its own yet. */
function withoutVessel({ tare: _tare, price: _price, note: _note, ...bottle }: NewBottle): NewBottle {
  return bottle;
}

function firstLine(database: Database, bottle: number): number {
  const line = firstLineOf(database, bottle);
  if (line === null) throw new Refusal('invalid input', mainWords.noChange);
  return line;
}

/** What was taken of a bottle to make something else, in that bottle's unit. */
interface Took {
  readonly id: string;
  readonly amount: number;
}

/** Puts a bottle on the shelf and takes what it was made from off its bottles, each line tied to it. Only inside a write. */
export function makeBottle(database: Database, bottle: NewBottle, took: readonly Took[], at: string): void {
  const came = firstLine(database, putBottle(database, bottle, mainWords.countedOnEntry, at));
  for (const { id, amount } of took) {
    const from = readBottle(database, id);
    const smallest = toSmallest(amount);
    if (smallest === 0) throw new Refusal('invalid input', mainWords.tooSmall(amount, from.unit));
    const reason = mainWords.madeInto(bottle.id);
    tieLines(database, 'made', appendLine(database, { bottle: from.id, kind: 'used', change: -smallest, reason, at }), came);
  }
}
