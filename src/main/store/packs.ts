import { canonicalJson } from '../../core/canonical-json.ts';
import type { Form } from '../../core/matter/form.ts';
import type { Material } from '../../core/matter/material.ts';
import type { PackOffer, PackRow } from '../../core/port/buy.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { fromSmallest, toSmallest } from './amounts.ts';
import type { Database } from './database.ts';
import { keepMaterial, matchingMaterials } from './materials.ts';
import { Refusal } from './refusal.ts';

interface PackTableRow {
  readonly id: number;
  readonly material: number;
  readonly form: string | null;
  readonly amount: number;
  readonly unit: 'g' | 'mL';
  readonly supplier: string;
  readonly price: number | null;
  readonly lead_days: number | null;
  readonly minimum: number;
}

/** Puts a pack on the price list; gives its row. Only inside a write. */
export function putPack(database: Database, pack: PackOffer, holds: Material): number {
  const amount = toSmallest(pack.amount);
  if (amount === 0) throw new Refusal('invalid input', mainWords.tooSmall(pack.amount, pack.unit));
  return database.run(
    'INSERT INTO pack (material, form, amount, unit, supplier, price, lead_days, minimum) VALUES (?, ?, ?, ?, ?, ?, ?, ?)',
    [
      keepMaterial(database, holds),
      pack.form ? canonicalJson(pack.form) : null,
      amount,
      pack.unit,
      pack.supplier ?? '',
      pack.price ?? null,
      pack.leadDays ?? null,
      pack.minimum ?? 1,
    ],
  );
}

/** Every pack with the row of its material, in the order they were entered. */
export function readPacks(
  database: Database,
): readonly { readonly id: number; readonly material: number; readonly pack: PackOffer }[] {
  const rows = database.all<PackTableRow>(
    'SELECT id, material, form, amount, unit, supplier, price, lead_days, minimum FROM pack ORDER BY id',
  );
  return rows.map(({ id, material, form, amount, unit, supplier, price, lead_days, minimum }) => ({
    id,
    material,
    pack: {
      amount: fromSmallest(amount),
      unit,
      ...(form === null ? {} : { form: JSON.parse(form) as Form }),
      ...(supplier === '' ? {} : { supplier }),
      ...(price === null ? {} : { price }),
      ...(lead_days === null ? {} : { leadDays: lead_days }),
      ...(minimum === 1 ? {} : { minimum }),
    },
  }));
}

/** Packs of some materials. */
export function packsOf(database: Database, wanted: readonly Material[]): readonly PackRow[] {
  const found = matchingMaterials(database, wanted);
  return readPacks(database)
    .filter((row) => found.has(row.material))
    .map(({ id, material, pack }) => ({ id, pack, material: materialOf(database, material) }));
}

/** Takes a pack off the price list. Only inside a write. */
export function removePack(database: Database, id: number): void {
  if (!database.get('SELECT 1 FROM pack WHERE id = ?', [id])) throw new Refusal('not found', mainWords.noPack);
  database.run('DELETE FROM pack WHERE id = ?', [id]);
}

/** The material of a row. */
export function materialOf(database: Database, id: number): Material {
  const row = database.get<{ data: string }>('SELECT data FROM material WHERE id = ?', [id]);
  if (!row) throw new Error(`a material needs its row (got ${id})`);
  return JSON.parse(row.data) as Material;
}
