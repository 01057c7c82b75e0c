import type { IntakeChange, IntakeRow } from '../../core/port/files.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { undoEdit } from './bottle-edits.ts';
import type { Database } from './database.ts';
import { appendLine, newestInChain, undoLine } from './ledger.ts';
import { Refusal } from './refusal.ts';

/*
 * A file that was taken onto the shelf is one act, and is taken back as one: every line it wrote gets its counter-entry, what
 * it changed on bottles that were there is put back, and the bottles that came with it are shown no longer. Whatever was used
 * or changed since stays as it is and is named. Taking back is undone the same way: counter-entries of the counter-entries.
 */

export interface Written {
  readonly file: string;
  readonly at: string;
  readonly edit: number | null;
  /** Rows of the bottles that came. */
  readonly bottles: readonly number[];
  /** Lines on bottles that were there before. */
  readonly lines: readonly number[];
}

/** Remembers what came of a file; gives its number. Only inside a write. */
export function recordIntake(database: Database, { file, at, edit, bottles, lines }: Written): number {
  const intake = database.run('INSERT INTO intake (file, at) VALUES (?, ?)', [file, at]);
  for (const bottle of bottles) {
    database.run('INSERT INTO intake_bottle (intake, bottle, label) SELECT ?, id, code FROM bottle WHERE id = ?', [
      intake,
      bottle,
    ]);
  }
  for (const line of lines) database.run('INSERT INTO intake_line (intake, ledger) VALUES (?, ?)', [intake, line]);
  event(database, intake, 'written', at, edit);
  return intake;
}

type Kind = 'written' | 'taken back' | 'brought back';

function event(database: Database, intake: number, kind: Kind, at: string, edit: number | null): number {
  return database.run(
    `INSERT INTO intake_event (intake, kind, at, edit, last_line, last_edit, last_test)
     SELECT ?, ?, ?, ?, (SELECT coalesce(max(id), 0) FROM ledger), (SELECT coalesce(max(id), 0) FROM bottle_edit),
       (SELECT coalesce(max(id), 0) FROM bottle_test)`,
    [intake, kind, at, edit],
  );
}

interface LastEvent {
  readonly kind: Kind;
  readonly edit: number | null;
  readonly at: string;
}

function lastEvent(database: Database, intake: number): LastEvent {
  const last = database.get<LastEvent>('SELECT kind, edit, at FROM intake_event WHERE intake = ? ORDER BY id DESC', [intake]);
  if (!last) throw new Refusal('not found', mainWords.noIntake(intake));
  return last;
}

interface OfIntake {
  readonly id: number;
  readonly code: string;
  readonly label: string;
}

/** Bottles of a file on which nothing was done since the event that put them there, and those on which something was. */
function bottlesOf(database: Database, intake: number): { readonly still: OfIntake[]; readonly since: OfIntake[] } {
  const rows = database.all<OfIntake & { touched: number }>(
    `SELECT bottle.id AS id, code, label,
       EXISTS (SELECT 1 FROM ledger WHERE ledger.bottle = bottle.id AND ledger.id > last_line)
       OR EXISTS (SELECT 1 FROM bottle_edit_line WHERE bottle_edit_line.bottle = bottle.id AND bottle_edit_line.edit > last_edit)
       OR EXISTS (SELECT 1 FROM bottle_test WHERE bottle_test.bottle = bottle.id AND bottle_test.id > last_test) AS touched
     FROM intake_bottle CROSS JOIN bottle ON bottle.id = intake_bottle.bottle
     CROSS JOIN intake_event ON intake_event.id = coalesce(
       (SELECT max(event) FROM intake_turned WHERE intake_turned.bottle = bottle.id),
       (SELECT min(id) FROM intake_event AS first WHERE first.intake = ?))
     WHERE intake_bottle.intake = ? AND taken_back = 0 ORDER BY bottle.id`,
    [intake, intake],
  );
  return { still: rows.filter((row) => row.touched === 0), since: rows.filter((row) => row.touched === 1) };
}

/** Takes back what came of a file, wherever it still is as the file left it. Only inside a write. */
export function takeBackIntake(database: Database, intake: number, at: string): IntakeChange {
  const last = lastEvent(database, intake);
  if (last.kind === 'taken back') throw new Refusal('conflict', mainWords.intakeTakenBack);
  const { still, since } = bottlesOf(database, intake);
  for (const bottle of still) takeBackBottle(database, bottle, at);
  const lines = reverse(
    database,
    database.all<Line>(`${LINES} WHERE intake = ? ORDER BY ledger.id DESC`, [intake]),
    at,
    ({ newest, length }) => (length % 2 === 1 ? newest : null),
  );
  const edit = editBack(database, last.edit, at);
  return done(database, intake, 'taken back', at, { bottles: still, lines, edit, left: since.map(({ code }) => code) });
}

/** Brings back what was taken back of a file. Only inside a write. */
export function bringBackIntake(database: Database, intake: number, at: string): IntakeChange {
  const last = lastEvent(database, intake);
  if (last.kind !== 'taken back') throw new Refusal('conflict', mainWords.intakeIsIn);
  const rows = database.all<OfIntake & { free: number; before: number }>(
    `SELECT bottle.id AS id, code, label, NOT EXISTS (SELECT 1 FROM bottle AS other WHERE other.code = label) AS free,
       (SELECT last_line FROM intake_event WHERE id = coalesce(
          (SELECT event FROM intake_turned WHERE intake_turned.bottle = bottle.id ORDER BY event DESC LIMIT 1 OFFSET 1),
          (SELECT min(id) FROM intake_event AS first WHERE first.intake = intake_bottle.intake))) AS before
     FROM intake_bottle CROSS JOIN bottle ON bottle.id = intake_bottle.bottle
     WHERE intake = ? AND taken_back = 1 ORDER BY bottle.id`,
    [intake],
  );
  const back = rows.filter((row) => row.free === 1);
  for (const bottle of back) bringBackBottle(database, bottle, at);
  const lines = reverse(
    database,
    database.all<Line>(`${LINES} WHERE intake = ? ORDER BY ledger.id DESC`, [intake]),
    at,
    ({ newest, length }) => (length % 2 === 0 && writtenAt(database, newest) === last.at ? newest : null),
  );
  const edit = editBack(database, last.edit, at);
  const left = rows.filter((row) => row.free === 0).map(({ label }) => label);
  return done(database, intake, 'brought back', at, { bottles: back, lines, edit, left });
}

interface Turned {
  readonly bottles: readonly OfIntake[];
  readonly lines: ReturnType<typeof reverse>;
  readonly edit: ReturnType<typeof editBack>;
  /** Labels of bottles of the file that stay as they are. */
  readonly left: readonly string[];
}

/** Remembers what was turned; refused where nothing was. */
function done(database: Database, intake: number, kind: Kind, at: string, turned: Turned): IntakeChange {
  const { bottles, lines, edit } = turned;
  const left = [...new Set([...turned.left, ...lines.left, ...edit.left])];
  const changed = edit.bottles + lines.done.length;
  if (bottles.length + changed === 0) throw new Refusal('conflict', mainWords.intakeAllChanged(left));
  const number = event(database, intake, kind, at, edit.edit);
  for (const { id } of bottles) database.run('INSERT INTO intake_turned (bottle, event) VALUES (?, ?)', [id, number]);
  return { bottles: bottles.length, changed, left };
}

/**
 * Takes a bottle off the shelf as if it had never come: every line that counts is countered; what takes out first, so that
 * the bottle is never short in between. Its label is free again. Only inside a write.
 */
export function takeBackBottle(database: Database, { id, label }: Pick<OfIntake, 'id' | 'label'>, at: string): void {
  counter(
    database,
    id,
    at,
    chainsOf(database, id).filter(({ length }) => length % 2 === 1),
  );
  database.run('UPDATE bottle SET taken_back = 1, code = ? WHERE id = ?', [
    freeCode(database, `${label.slice(0, 60)} ~${id}`),
    id,
  ]);
}

/** What was countered when it was taken back: nothing else is newer on it than the event before that. */
function bringBackBottle(database: Database, { id, label, before }: OfIntake & { readonly before: number }, at: string): void {
  const taken = chainsOf(database, id).filter(({ length, newest }) => length % 2 === 0 && newest > before);
  counter(database, id, at, taken);
  database.run('UPDATE bottle SET taken_back = 0, code = ? WHERE id = ?', [label, id]);
}

function counter(database: Database, bottle: number, at: string, chains: readonly Chain[]): void {
  const order = [...chains].sort((one, other) => one.change - other.change);
  for (const { newest, change, reason } of order) {
    appendLine(database, { bottle, kind: 'undone', change: -change, reason, at, undoes: newest });
  }
}

interface Chain {
  /** The newest line of it: the one to undo. */
  readonly newest: number;
  /** Of that line, µg or nL. */
  readonly change: number;
  readonly reason: string;
  /** An odd one counts, an even one is undone. */
  readonly length: number;
}

/** The lines of a bottle, each with its counter-entries. The plus keeps SQLite from walking all lines that undo nothing. */
function chainsOf(database: Database, bottle: number): readonly Chain[] {
  return database.all<Chain>(
    `WITH RECURSIVE chain (id, change, reason, length) AS (
       SELECT id, change, reason, 1 FROM ledger WHERE bottle = ? AND +undoes IS NULL
       UNION ALL SELECT ledger.id, ledger.change, ledger.reason, length + 1 FROM chain JOIN ledger ON ledger.undoes = chain.id)
     SELECT id AS newest, change, reason, length FROM chain
     WHERE NOT EXISTS (SELECT 1 FROM ledger AS later WHERE later.undoes = chain.id) ORDER BY id`,
    [bottle],
  );
}

function freeCode(database: Database, code: string): string {
  return database.get('SELECT 1 FROM bottle WHERE code = ?', [code]) ? freeCode(database, `${code}~`) : code;
}

interface Line {
  readonly line: number;
  readonly bottle: number;
  readonly code: string;
}

const LINES = `SELECT ledger.id AS line, ledger.bottle AS bottle, code
  FROM intake_line CROSS JOIN ledger ON ledger.id = intake_line.ledger CROSS JOIN bottle ON bottle.id = ledger.bottle`;

/** Undoes the line of each chain that is to be undone; where a measurement since stands against it, the bottle is left. */
function reverse(
  database: Database,
  lines: readonly Line[],
  at: string,
  which: (chain: ReturnType<typeof newestInChain>) => number | null,
): { readonly done: readonly number[]; readonly left: readonly string[] } {
  const left: string[] = [];
  const undone = lines.flatMap(({ line, bottle, code }) => {
    const newest = which(newestInChain(database, line));
    if (newest === null) return [];
    try {
      return [undoLine(database, bottle, newest, at)];
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      left.push(code);
      return [];
    }
  });
  return { done: undone, left };
}

function writtenAt(database: Database, line: number): string | undefined {
  return database.get<{ at: string }>('SELECT at FROM ledger WHERE id = ?', [line])?.at;
}

/** Puts back what the last event wrote on bottles; nothing where all of them were changed again. */
function editBack(
  database: Database,
  edit: number | null,
  at: string,
): { readonly edit: number | null; readonly bottles: number; readonly left: readonly string[] } {
  if (edit === null) return { edit, bottles: 0, left: [] };
  try {
    return undoEdit(database, edit, at);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return { edit: null, bottles: 0, left: [] };
  }
}

/** Every file that was taken onto the shelf, the newest first. */
export function readIntakes(database: Database): readonly IntakeRow[] {
  return database
    .all<Omit<IntakeRow, 'isIn'> & { kind: Kind }>(
      `SELECT intake.id AS id, file, intake.at AS at, last.kind AS kind, last.at AS lastAt,
         (SELECT count(*) FROM intake_bottle WHERE intake_bottle.intake = intake.id) AS added,
         (SELECT count(DISTINCT bottle) FROM (
            SELECT bottle FROM intake_line JOIN ledger ON ledger.id = intake_line.ledger WHERE intake_line.intake = intake.id
            UNION SELECT bottle FROM intake_event JOIN bottle_edit_line ON bottle_edit_line.edit = intake_event.edit
              WHERE intake_event.intake = intake.id AND intake_event.kind = 'written')) AS updated
       FROM intake JOIN intake_event AS last
         ON last.id = (SELECT max(id) FROM intake_event WHERE intake_event.intake = intake.id)
       ORDER BY intake.id DESC`,
    )
    .map(({ kind, ...row }) => ({ ...row, isIn: kind !== 'taken back' }));
}
