import type { BottleUpdate, ComingBottle, HeldBottle } from '../../core/shelf/import/fate.ts';
import type { Material } from '../../core/matter/material.ts';
import { toSmallest } from './amounts.ts';
import { editEach, type Moment } from './bottle-edits.ts';
import { testsByBottle } from './bottle-tests.ts';
import { type BottleRecord, nextCode, putBottle, readBottle, readBottles, shelfBottle } from './bottles.ts';
import type { Database } from './database.ts';
import { appendLine } from './ledger.ts';

/** Every bottle of the shelf with its material and its tests, in the order they were entered. */
export function heldBottles(database: Database): readonly HeldBottle[] {
  const tests = testsByBottle(database);
  const materials = new Map<number, Material>();
  return readBottles(database).map((record) => {
    const { material: _key, ...bottle } = shelfBottle(record, '');
    const ofBottle = tests.get(bottle.id);
    return { ...bottle, holds: held(materials, record), ...(ofBottle ? { tests: [...ofBottle] } : {}) };
  });
}

/** A material is read once, however many bottles hold it. */
function held(materials: Map<number, Material>, record: BottleRecord): Material {
  const known = materials.get(record.material);
  if (known) return known;
  const material = JSON.parse(record.material_data) as Material;
  materials.set(record.material, material);
  return material;
}

/** Puts a bottle of a file on the shelf; without a label it gets the next free one; gives its row. Only inside a write. */
export function putFromFile(database: Database, bottle: ComingBottle, reason: string, at: string): number {
  return putBottle(database, { ...bottle, id: bottle.id ?? nextCode(database) }, reason, at);
}

/**
 * Writes on bottles what a file says otherwise, as one entry that can be taken back; an amount is recorded as adjusted.
 * Gives that entry and the lines. Only inside a write.
 */
export function updateFromFile(
  database: Database,
  updates: readonly BottleUpdate[],
  reason: string,
  moment: Moment,
): { readonly edit: number | null; readonly lines: readonly number[] } {
  const read = updates.map((update) => ({ ...update, record: readBottle(database, update.label) }));
  const { edit } = editEach(
    database,
    read.map(({ record, written: { waterPercent, ...written } }) => ({
      record,
      change: { ...written, ...(waterPercent === undefined ? {} : { water: waterPercent }) },
    })),
    moment,
  );
  const lines = read.flatMap(({ record, left }) => {
    if (left === undefined) return [];
    const change = toSmallest(left) - record.amount_left;
    return [appendLine(database, { bottle: record.id, kind: 'adjusted', change, reason, at: moment.at })];
  });
  return { edit, lines };
}
