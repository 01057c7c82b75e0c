import { canonicalJson } from '../../core/canonical-json.ts';
import type { BottleEdit } from '../../core/port/shelf.ts';
import type { Form } from '../../core/matter/form.ts';
import { lacksWater } from '../../core/shelf/wet-form.ts';
import { revives, type Written, writtenChange } from '../../core/shelf/written.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { toSmallest } from './amounts.ts';
import { type BottleRecord, readBottle, writtenOn } from './bottles.ts';
import type { Database, SqlValue } from './database.ts';
import { Refusal } from './refusal.ts';

export interface Moment {
  readonly at: string;
  readonly today: string;
}

/**
 * Changes what is written on bottles, all of them or none, and keeps what was there before; gives the entry and how many
 * bottles really changed. Only inside a write.
 */
export function editBottles(
  database: Database,
  records: readonly BottleRecord[],
  change: Written,
  moment: Moment,
): { readonly edit: number | null; readonly bottles: number } {
  return editEach(
    database,
    records.map((record) => ({ record, change })),
    moment,
  );
}

/** The same where every bottle has a change of its own, all of them one entry. Only inside a write. */
export function editEach(
  database: Database,
  wanted: readonly { readonly record: BottleRecord; readonly change: Written }[],
  { at, today }: Moment,
): { readonly edit: number | null; readonly bottles: number } {
  const stale = wanted.filter(({ record, change }) => revives(record.use_by, change, today));
  if (stale.length > 0) throw new Refusal('refused', mainWords.staysOutOfDate(stale.map(({ record }) => record.code)));
  const dry = wanted.find(
    ({ record, change }) => change.water !== undefined && lacksWater(JSON.parse(record.form) as Form, change.water),
  );
  if (dry) throw new Refusal('refused', mainWords.needsWater(dry.record.code));
  const changes = wanted.flatMap(({ record, change }) => {
    const found = writtenChange(writtenOn(record), change);
    return found ? [{ record, ...found }] : [];
  });
  if (changes.length === 0) return { edit: null, bottles: 0 };
  const edit = database.run('INSERT INTO bottle_edit (at, undoes) VALUES (?, NULL)', [at]);
  for (const { record, before, after } of changes) write(database, edit, record.id, before, after);
  return { edit, bottles: changes.length };
}

export interface TakenBack {
  readonly edit: number;
  readonly bottles: number;
  /** Bottles that were changed again since, and stay as they are. */
  readonly left: readonly string[];
}

/** Puts back what an entry changed, as an entry of its own, wherever it still is as the entry left it. Only inside a write. */
export function undoEdit(database: Database, edit: number, at: string): TakenBack {
  const known = database.get<{ undone: number }>(
    'SELECT EXISTS (SELECT 1 FROM bottle_edit AS later WHERE later.undoes = bottle_edit.id) AS undone FROM bottle_edit WHERE id = ?',
    [edit],
  );
  if (!known) throw new Refusal('not found', mainWords.noEdit(edit));
  if (known.undone === 1) throw new Refusal('conflict', mainWords.editUndone);
  const lines = database.all<{ code: string; before: string; after: string }>(
    `SELECT bottle.code AS code, before, after FROM bottle_edit_line CROSS JOIN bottle ON bottle.id = bottle_edit_line.bottle
     WHERE edit = ? ORDER BY bottle.id`,
    [edit],
  );
  const read = lines.map(({ code, before, after }) => ({
    record: readBottle(database, code),
    before: JSON.parse(before) as Written,
    after: JSON.parse(after) as Written,
  }));
  const stands = read.filter(({ record, after }) => writtenChange(writtenOn(record), after) === null);
  const left = read.filter((one) => !stands.includes(one)).map(({ record }) => record.code);
  if (stands.length === 0) throw new Refusal('conflict', mainWords.changedAgain(left));
  const counter = database.run('INSERT INTO bottle_edit (at, undoes) VALUES (?, ?)', [at, edit]);
  for (const { record, before, after } of stands) write(database, counter, record.id, after, before);
  return { edit: counter, bottles: stands.length, left };
}

/** Column of each field, and how its value is kept there. */
const COLUMN: Readonly<Record<keyof Written, string>> = {
  lot: 'lot',
  place: 'place',
  supplier: 'supplier',
  received: 'received',
  opened: 'opened',
  useBy: 'use_by',
  heldBack: 'held_back',
  note: 'note',
  tare: 'tare',
  water: 'water',
  price: 'price',
};

function kept(field: keyof Written, value: string | number | boolean | null): SqlValue {
  if (typeof value === 'boolean') return value ? 1 : 0;
  return field === 'tare' && typeof value === 'number' ? toSmallest(value) : value;
}

function write(database: Database, edit: number, bottle: number, before: Written, after: Written): void {
  const fields = Object.entries(after) as [keyof Written, string | number | boolean | null][];
  const set = fields.map(([field]) => `${COLUMN[field]} = ?`).join(', ');
  database.run(`UPDATE bottle SET ${set} WHERE id = ?`, [...fields.map(([field, value]) => kept(field, value)), bottle]);
  const line = [edit, bottle, canonicalJson(before), canonicalJson(after)];
  database.run('INSERT INTO bottle_edit_line (edit, bottle, before, after) VALUES (?, ?, ?, ?)', line);
}

/** What was changed on a bottle, oldest first. */
export function readEdits(database: Database, bottle: number): readonly BottleEdit[] {
  return database
    .all<{ id: number; at: string; undoes: number | null; undone: number; before: string; after: string; bottles: number }>(
      `SELECT bottle_edit.id AS id, at, undoes, before, after,
         EXISTS (SELECT 1 FROM bottle_edit AS later WHERE later.undoes = bottle_edit.id) AS undone,
         (SELECT count(*) FROM bottle_edit_line AS all_of WHERE all_of.edit = bottle_edit.id) AS bottles
       FROM bottle_edit_line CROSS JOIN bottle_edit ON bottle_edit.id = bottle_edit_line.edit
       WHERE bottle = ? ORDER BY bottle_edit.id`,
      [bottle],
    )
    .map(({ before, after, undone, ...row }) => ({
      ...row,
      undone: undone === 1,
      before: JSON.parse(before) as Written,
      after: JSON.parse(after) as Written,
    }));
}
