import { canonicalJson } from '../../core/canonical-json.ts';
import type { ShelfEdit } from '../../core/shelf/shelf-edit.ts';
import type { Written } from '../../core/shelf/written.ts';
import type { Database } from './database.ts';

interface EditRow {
  readonly id: number;
  readonly at: string;
  readonly undoes: number | null;
  readonly code: string;
  readonly before: string;
  readonly after: string;
}

/** Every change of what is written on the bottles of the shelf, as a shelf file holds it, the oldest first. */
export function heldEdits(database: Database): readonly ShelfEdit[] {
  const rows = database.all<EditRow>(
    `SELECT bottle_edit.id AS id, at, undoes, code, before, after
     FROM bottle_edit JOIN bottle_edit_line ON bottle_edit_line.edit = bottle_edit.id
     JOIN bottle ON bottle.id = bottle_edit_line.bottle WHERE taken_back = 0 ORDER BY bottle_edit.id, bottle.id`,
  );
  const edits: { at: string; undoes?: number; bottles: ShelfEdit['bottles'] }[] = [];
  const places = new Map<number, number>();
  for (const { id, at, undoes, code, before, after } of rows) {
    const place = places.get(id) ?? edits.length;
    if (place === edits.length) {
      places.set(id, place);
      const undone = undoes === null ? undefined : places.get(undoes);
      edits.push({ at, ...(undone === undefined ? {} : { undoes: undone }), bottles: [] });
    }
    edits[place]?.bottles.push({
      bottle: code,
      before: JSON.parse(before) as Written,
      after: JSON.parse(after) as Written,
    });
  }
  return edits;
}

/** Takes in the changes of a file's bottles; `rows`: their rows by label. What the bottles say now came with themselves. Only inside a write. */
export function takeInEdits(database: Database, edits: readonly ShelfEdit[], rows: ReadonlyMap<string, number>): void {
  const ids: number[] = [];
  for (const { at, undoes, bottles } of edits) {
    const undone = undoes === undefined ? null : (ids[undoes] ?? null);
    const edit = database.run('INSERT INTO bottle_edit (at, undoes) VALUES (?, ?)', [at, undone]);
    ids.push(edit);
    for (const { bottle, before, after } of bottles) {
      database.run('INSERT INTO bottle_edit_line (edit, bottle, before, after) VALUES (?, ?, ?, ?)', [
        edit,
        rows.get(bottle) ?? 0,
        canonicalJson(before),
        canonicalJson(after),
      ]);
    }
  }
}
