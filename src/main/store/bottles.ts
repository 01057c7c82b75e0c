import type { Material } from '../../core/matter/material.ts';
import type { BottleRow } from '../../core/port/shelf.ts';
import type { Form } from '../../core/matter/form.ts';
import type { Bottle } from '../../core/shelf/shelf.ts';
import type { Written } from '../../core/shelf/written.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { withoutWater, withWater } from '../../core/shelf/wet-form.ts';
import { fromSmallest, toSmallest, type AmountUnit } from './amounts.ts';
import { canonicalJson } from '../../core/canonical-json.ts';
import type { Database } from './database.ts';
import { appendLine } from './ledger.ts';
import { appendTest } from './bottle-tests.ts';
import { keepMaterial, materialKey } from './materials.ts';
import { Refusal } from './refusal.ts';

/** A bottle as its table holds it, with its material. */
export interface BottleRecord {
  readonly id: number;
  readonly code: string;
  readonly material: number;
  readonly material_data: string;
  readonly form: string;
  readonly unit: AmountUnit;
  readonly amount_left: number;
  readonly lot: string;
  readonly place: string;
  readonly supplier: string;
  readonly received: string | null;
  readonly opened: string | null;
  readonly use_by: string | null;
  readonly held_back: number;
  readonly note: string;
  /** Micrograms. */
  readonly tare: number | null;
  readonly water: number | null;
  readonly price: number | null;
}

export const BOTTLE_COLUMNS = `bottle.id, code, material, material.data AS material_data, form, unit, amount_left, lot, place,
  supplier, received, opened, use_by, held_back, note, tare, water, price`;
const FROM_BOTTLE = `SELECT ${BOTTLE_COLUMNS} FROM bottle JOIN material ON material.id = bottle.material`;

/** The bottle with this label. */
export function readBottle(database: Database, code: string): BottleRecord {
  const row = database.get<BottleRecord>(`${FROM_BOTTLE} WHERE code = ? AND taken_back = 0`, [code]);
  if (!row) throw new Refusal('not found', mainWords.noBottle(code));
  return row;
}

/** Every bottle, or those of some materials, in the order they were entered. */
export function readBottles(database: Database, materials?: ReadonlySet<number>): readonly BottleRecord[] {
  if (!materials) return database.all<BottleRecord>(`${FROM_BOTTLE} WHERE taken_back = 0 ORDER BY bottle.id`);
  return database.all<BottleRecord>(
    `${FROM_BOTTLE} WHERE taken_back = 0 AND material IN (SELECT value FROM json_each(?)) ORDER BY bottle.id`,
    [JSON.stringify([...materials])],
  );
}

/** The bottles of these rows, in the order they were entered. */
export function readBottlesIn(database: Database, rows: readonly number[]): readonly BottleRecord[] {
  return database.all<BottleRecord>(
    `SELECT ${BOTTLE_COLUMNS} FROM json_each(?) AS asked CROSS JOIN bottle ON bottle.id = asked.value
     CROSS JOIN material ON material.id = bottle.material ORDER BY bottle.id`,
    [JSON.stringify(rows)],
  );
}

/** As the shelf list shows it. */
export function bottleRow(record: BottleRecord): BottleRow {
  return {
    id: record.code,
    material: JSON.parse(record.material_data) as Material,
    materialId: materialKey(record.material),
    form: withWater(JSON.parse(record.form) as Form, record.water),
    left: fromSmallest(record.amount_left),
    unit: record.unit,
    ...writtenOn(record),
  };
}

/** What stands on its label: all that may be changed afterwards. */
export function writtenOn(record: BottleRecord): Pick<BottleRow, keyof Written> {
  return {
    lot: record.lot,
    place: record.place,
    supplier: record.supplier,
    received: record.received,
    opened: record.opened,
    useBy: record.use_by,
    heldBack: record.held_back === 1,
    note: record.note,
    tare: record.tare === null ? null : fromSmallest(record.tare),
    water: record.water,
    price: record.price,
  };
}

/** As a shelf file and the planner's snapshot hold it; what is empty is left out. */
export function shelfBottle(record: BottleRecord, material: string): Bottle {
  return {
    id: record.code,
    material,
    form: withWater(JSON.parse(record.form) as Form, record.water),
    left: fromSmallest(record.amount_left),
    unit: record.unit,
    ...(record.lot === '' ? {} : { lot: record.lot }),
    ...(record.place === '' ? {} : { place: record.place }),
    ...(record.supplier === '' ? {} : { supplier: record.supplier }),
    ...(record.received === null ? {} : { received: record.received }),
    ...(record.opened === null ? {} : { opened: record.opened }),
    ...(record.use_by === null ? {} : { useBy: record.use_by }),
    ...(record.held_back === 1 ? { heldBack: true } : {}),
    ...(record.note === '' ? {} : { note: record.note }),
    ...(record.tare === null ? {} : { tare: fromSmallest(record.tare) }),
    ...(record.water === null ? {} : { waterPercent: record.water }),
    ...(record.price === null ? {} : { price: record.price }),
  };
}

/** What is known of a bottle when it comes to the shelf. */
export type NewBottle = Omit<Bottle, 'material'> & { readonly holds: Material };

/** Puts a bottle on the shelf with its first ledger line; gives its row. Only inside a write. */
export function putBottle(
  database: Database,
  bottle: NewBottle,
  reason: string,
  at: string,
  kind: 'received' | 'made' = 'received',
): number {
  const amount = toSmallest(bottle.left);
  if (amount === 0 && bottle.left > 0) throw new Refusal('invalid input', mainWords.tooSmall(bottle.left, bottle.unit));
  const material = keepMaterial(database, bottle.holds);
  const { lot = '', place = '', supplier = '', note = '' } = bottle;
  const described = [bottle.id, material, canonicalJson(withoutWater(bottle.form)), bottle.unit, lot, place, supplier];
  const dated = [bottle.received ?? null, bottle.opened ?? null, bottle.useBy ?? null];
  const measured = [
    bottle.tare === undefined ? null : toSmallest(bottle.tare),
    bottle.waterPercent ?? null,
    bottle.price ?? null,
  ];
  const id = database.run(
    `INSERT INTO bottle (code, material, form, unit, lot, place, supplier, received, opened, use_by, held_back, note,
       tare, water, price)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    [...described, ...dated, bottle.heldBack ? 1 : 0, note, ...measured],
  );
  if (bottle.ledger) putLedger(database, id, bottle.ledger);
  else if (amount > 0) appendLine(database, { bottle: id, kind, change: amount, reason, at });
  for (const test of bottle.tests ?? []) appendTest(database, id, test, at);
  return id;
}

/** The ledger a bottle brings along, line by line as it was. Only inside a write. */
function putLedger(database: Database, bottle: number, ledger: NonNullable<Bottle['ledger']>): void {
  const lines: number[] = [];
  for (const { undoes, change, into: _tiedLater, ...entry } of ledger) {
    const taken = undoes === undefined ? undefined : lines[undoes];
    const line = { ...entry, bottle, change: toSmallest(change), ...(taken === undefined ? {} : { undoes: taken }) };
    lines.push(appendLine(database, line));
  }
}

/** A label no bottle carries yet. Only inside a write. */
export function nextCode(database: Database): string {
  const newest = database.get<{ id: number }>('SELECT coalesce(max(id), 0) AS id FROM bottle')?.id ?? 0;
  for (let number = newest + 1; ; number++) {
    const code = `B-${number}`;
    // A scanner that types capitals only does not tell b-7 from B-7.
    if (!database.get('SELECT 1 FROM bottle WHERE code IN (?, ?)', [code, code.toLowerCase()])) return code;
  }
}
