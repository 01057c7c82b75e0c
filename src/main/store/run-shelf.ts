import type { RunRecord } from '../../core/port/runs.ts';
import type { LedgerLine } from '../../core/port/shelf.ts';
import type { Charged, Product, Recovered, RunEntry } from '../../core/run/entry.ts';
import { brokenMeasurement } from '../../core/shelf/measured.ts';
import { NEAT, type Form } from '../../core/matter/form.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { fromSmallest, toSmallest } from './amounts.ts';
import { editBottles } from './bottle-edits.ts';
import { nextCode, putBottle, readBottle } from './bottles.ts';
import { canonicalJson } from '../../core/canonical-json.ts';
import type { Database } from './database.ts';
import { appendLine, readLedger, undoLine } from './ledger.ts';
import { Refusal } from './refusal.ts';

/** What an entry did to the shelf. */
export interface OnShelf {
  /** As it is written: with the label of the bottle that was filled. */
  readonly entry: RunEntry;
  /** Ledger lines it wrote. */
  readonly lines: readonly number[];
  /** What the person is told of it; empty where there is nothing to say. */
  readonly said: string;
  /** The label of the bottle that a product went into. */
  readonly bottle: string | null;
}

interface Doing {
  readonly database: Database;
  readonly run: RunRecord;
  readonly adjust: boolean;
  readonly at: string;
}

/** Takes from the shelf what an entry used, puts on it what was made, and takes back what it corrects. Only inside a write. */
export function onShelf(database: Database, run: RunRecord, entry: RunEntry, adjust: boolean, at: string): OnShelf {
  const doing: Doing = { database, run, adjust, at };
  if (entry.kind === 'charged') return { entry, bottle: null, ...takeOut(doing, entry) };
  if (isMade(entry)) return putIn(doing, entry);
  // What was spilled was taken from its bottle all the same.
  if (entry.kind === 'correction' && !entry.spilled) return correct(doing, entry);
  return { entry, lines: [], said: '', bottle: null };
}

function takeOut({ database, run, adjust, at }: Doing, entry: Charged): Pick<OnShelf, 'lines' | 'said'> {
  if (entry.bottle === null) return { lines: [], said: '' };
  const bottle = readBottle(database, entry.bottle);
  if (entry.taken === null) return { lines: [], said: mainWords.notFromShelf(entry.bottle) };
  const amount = toSmallest(entry.unit === bottle.unit ? entry.net : entry.taken);
  if (amount === 0) return { lines: [], said: '' };
  const lines: number[] = [];
  const sheet = run.start.sheet.sheet.id;
  const lacking = amount - bottle.amount_left;
  if (lacking > 0) {
    const gone = discardedOn(readLedger(database, bottle.id));
    const words =
      gone !== null
        ? mainWords.bottleDiscarded(entry.bottle, gone)
        : mainWords.bottleHoldsLess(entry.bottle, fromSmallest(bottle.amount_left), bottle.unit, fromSmallest(amount));
    if (!adjust) throw new Refusal('refused', words, [{ at: '/entry/taken', words }]);
    lines.push(
      appendLine(database, { bottle: bottle.id, kind: 'adjusted', change: lacking, reason: mainWords.ledgerPutRight(sheet), at }),
    );
  }
  const material = run.start.sheet.charges.find((one) => one.id === entry.charge)?.name ?? entry.charge;
  const reason = mainWords.usedFor(run.id, sheet, material);
  lines.push(appendLine(database, { bottle: bottle.id, kind: 'used', change: -amount, reason, at }));
  return { lines, said: '' };
}

/** The day a bottle was thrown away; null where it was not. */
function discardedOn(lines: readonly LedgerLine[]): string | null {
  const last = lines.findLast((line) => line.kind !== 'undone' && !line.undone);
  return last?.kind === 'discarded' ? last.at.slice(0, 10) : null;
}

/** What comes out of a run and stands in a bottle of its own: its product, or basis that was got back. */
type Made = Product | Recovered;

const isMade = (entry: RunEntry | null | undefined): entry is Made => entry?.kind === 'product' || entry?.kind === 'recovered';

function madeWords({ run }: Doing, one: Made): string {
  const sheet = run.start.sheet.sheet.id;
  return one.kind === 'product' ? mainWords.madeBy(run.id, sheet, one.crop) : mainWords.gotBackBy(run.id, sheet);
}

/** What the bottle holds. A record kept from before names its basis only. */
function holdsOf({ run }: Doing, { kind }: Made) {
  const { product, basis } = run.start.sheet;
  return kind === 'product' ? product.holds : (basis.holds ?? { name: basis.name });
}

/** The last day a product may be used without a test, where the route says how long it keeps. */
function keptUntil({ run, at }: Doing, { kind }: Made): { readonly useBy?: string } {
  const { keeps } = run.start.sheet.product;
  if (kind !== 'product' || !keeps) return {};
  // What keeps less than a day is for the day it was made.
  const hours = keeps.hours < 24 ? 0 : keeps.hours;
  return { useBy: new Date(Date.parse(at) + hours * 3_600_000).toISOString().slice(0, 10) };
}

/** A product that is dry, or whose assay is known, is stock; a wet one is not yet, and nothing is none. */
const isStock = (one: Made): boolean => one.grams > 0 && (!one.wet || one.assayPercent !== null);

const formOf = ({ assayPercent }: Made): Form => (assayPercent === null ? NEAT : { kind: 'neat', assayPercent });

function putIn(doing: Doing, entry: Made): OnShelf {
  const { database, at } = doing;
  if (!isStock(entry)) return { entry: { ...entry, bottle: null }, lines: [], said: '', bottle: null };
  const code = nextCode(database);
  const made = madeWords(doing, entry);
  const left = entry.grams;
  const described = {
    id: code,
    holds: holdsOf(doing, entry),
    form: formOf(entry),
    left,
    unit: 'g' as const,
    received: at.slice(0, 10),
    ...keptUntil(doing, entry),
  };
  const id = putBottle(database, { ...described, lot: made, place: entry.place }, made, at, 'made');
  const lines = readLedger(database, id).map((line) => line.id);
  return { entry: { ...entry, bottle: code }, lines, said: '', bottle: code };
}

type Correction = Extract<RunEntry, { kind: 'correction' }>;

/** Ledger lines of the corrected entry are countered, and those of what it should have said are written. */
function correct(doing: Doing, entry: Correction): OnShelf {
  const { database, run } = doing;
  const versions = run.entries.filter(
    (one) => one.number === entry.of || (one.entry.kind === 'correction' && one.entry.of === entry.of),
  );
  const before = versions.findLast(({ entry: one }) => one.kind !== 'correction' || one.instead !== null)?.entry;
  const was = before?.kind === 'correction' ? before.instead : before;
  const instead = entry.instead;
  if (isMade(was) || isMade(instead)) {
    return correctMade(
      doing,
      entry,
      isMade(was) ? was : null,
      versions.map((one) => one.number),
    );
  }
  const back = takeBack(
    doing,
    versions.map((one) => one.number),
  );
  if (instead?.kind !== 'charged') return { entry, bottle: null, ...back };
  // Where the bottle was measured since, what is in it is known: a new line would take it out twice.
  const measured = back.said !== '' && instead.bottle !== null && was?.kind === 'charged' && was.bottle === instead.bottle;
  const out = measured ? { lines: [], said: '' } : takeOut({ ...doing, database, run }, instead);
  return { entry, bottle: null, lines: [...back.lines, ...out.lines], said: [back.said, out.said].filter(Boolean).join(' ') };
}

interface WrittenLine {
  readonly id: number;
  readonly bottle: number;
  readonly code: string;
}

/** Lines that some entries of a run wrote and that still count, newest first. */
function linesOf({ database, run }: Doing, numbers: readonly number[]): readonly WrittenLine[] {
  return database.all<WrittenLine>(
    `SELECT ledger.id AS id, ledger.bottle AS bottle, bottle.code AS code
     FROM run_ledger JOIN ledger ON ledger.id = run_ledger.ledger JOIN bottle ON bottle.id = ledger.bottle
     WHERE run_ledger.run = ? AND run_ledger.number IN (SELECT value FROM json_each(?)) AND ledger.kind <> 'undone'
       AND NOT EXISTS (SELECT 1 FROM ledger AS later WHERE later.undoes = ledger.id)
     ORDER BY ledger.id DESC`,
    [run.id, JSON.stringify(numbers)],
  );
}

function takeBack(doing: Doing, numbers: readonly number[]): Pick<OnShelf, 'lines' | 'said'> {
  const { database, at } = doing;
  const lines: number[] = [];
  const said: string[] = [];
  for (const { id, bottle, code } of linesOf(doing, numbers)) {
    const ledger = readLedger(database, bottle);
    // What was put right stays: the bottle did hold it.
    if (ledger.find((line) => line.id === id)?.kind === 'adjusted') continue;
    const measured = measuredSince(database, bottle, id);
    if (measured) said.push(mainWords.measuredAfter(code, measured.at.slice(0, 10)));
    else lines.push(undoLine(database, bottle, id, at, measuredSince));
  }
  return { lines, said: said.join(' ') };
}

/**
 * What was measured in a bottle after a line, and would no longer hold without it. A ledger that a run put right was not
 * measured: it only held too little.
 */
function measuredSince(database: Database, bottle: number, line: number): LedgerLine | null {
  const putRight = new Set(
    database
      .all<{ id: number }>(
        `SELECT ledger.id AS id FROM ledger JOIN run_ledger ON run_ledger.ledger = ledger.id
         WHERE ledger.bottle = ? AND ledger.kind = 'adjusted'`,
        [bottle],
      )
      .map((row) => row.id),
  );
  const lines = readLedger(database, bottle).map((one) => (putRight.has(one.id) ? { ...one, kind: 'received' as const } : one));
  return brokenMeasurement(lines, line);
}

/** The bottle stays the same: its first amount is countered and the right one put in its place. */
function correctMade(doing: Doing, entry: Correction, was: Made | null, numbers: readonly number[]): OnShelf {
  const { database, at } = doing;
  const instead = isMade(entry.instead) ? entry.instead : null;
  const code = was?.bottle ?? null;
  if (code === null) {
    if (!instead) return { entry, lines: [], said: '', bottle: null };
    const put = putIn(doing, instead);
    return { ...put, entry: isMade(put.entry) ? { ...entry, instead: put.entry } : entry };
  }
  const bottle = readBottle(database, code);
  const lines: number[] = [];
  const made = instead ?? was;
  const reason = made ? madeWords(doing, made) : '';
  const stays = instead !== null && isStock(instead);
  // The right amount first: what was used of it meanwhile never takes the bottle below zero in between.
  const fresh = stays
    ? appendLine(database, { bottle: bottle.id, kind: 'made', change: toSmallest(instead.grams), reason, at })
    : null;
  if (stays) database.run('UPDATE bottle SET form = ? WHERE id = ?', [canonicalJson(formOf(instead)), bottle.id]);
  if (stays && instead.place !== was?.place) {
    editBottles(database, [bottle], { place: instead.place }, { at, today: at.slice(0, 10) });
  }
  const back = takeBack(doing, numbers);
  if (fresh !== null) lines.push(fresh);
  const written: Correction = instead ? { ...entry, instead: { ...instead, bottle: stays ? code : null } } : entry;
  return { entry: written, lines: [...lines, ...back.lines], said: back.said, bottle: stays ? code : null };
}

/** The run that wrote a ledger line; null where none did. Such a line is taken back only by a correction in its record. */
export function runOfLine(database: Database, line: number): number | null {
  return database.get<{ run: number }>('SELECT run FROM run_ledger WHERE ledger = ?', [line])?.run ?? null;
}
