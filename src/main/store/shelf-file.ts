import type { Material } from '../../core/matter/material.ts';
import type { FileProblem } from '../../core/port/result.ts';
import type { LedgerEntry } from '../../core/shelf/ledger-entry.ts';
import type { Pack } from '../../core/shelf/pack.ts';
import type { Bottle, BottleTest, Shelf } from '../../core/shelf/shelf.ts';
import { canonicalJson } from '../../core/canonical-json.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { toSmallest } from './amounts.ts';
import { readBottles, shelfBottle, putBottle } from './bottles.ts';
import { testsByBottle } from './bottle-tests.ts';
import { ledgersByBottle, ledgersOfMade } from './ledger.ts';
import type { Database } from './database.ts';
import { alikeMaterials, matchingMaterials, materialKey } from './materials.ts';
import { heldEdits, takeInEdits } from './edit-file.ts';
import { heldOrders, takeInOrders } from './order-file.ts';
import { putPack, readPacks } from './packs.ts';
import { Refusal } from './refusal.ts';
import { readSuppliers, takeInSuppliers } from './suppliers.ts';
import { tieLedgers } from './ties.ts';

/** The bottles of some materials, and of what is called alike, in every form, as the planner takes them; with the ledger of those that were made. */
export function shelfSnapshot(database: Database, wanted: readonly Material[]): Shelf {
  const materials = new Set([...matchingMaterials(database, wanted), ...alikeMaterials(database, wanted)]);
  const shelf = withTests(shelfOf(database, materials, materialKey), testsByBottle(database, materials));
  const ledgers = ledgersOfMade(database, materials);
  return { ...shelf, bottles: shelf.bottles.map((bottle) => withLedger(bottle, ledgers.get(bottle.id))) };
}

/** The whole shelf as a file: with every bottle its tests, its ledger and what was changed on it, what can be bought and what was ordered. */
export function shelfAsFile(database: Database): Shelf {
  const keys = fileKeys(new Map(readMaterials(database).map((row) => [row.id, row.material.name])));
  const keyOf = (id: number): string => keys.get(id) ?? materialKey(id);
  const orders = heldOrders(database);
  const suppliers = readSuppliers(database);
  const shelf = shelfOf(database, undefined, keyOf, new Set(orders.map(({ material }) => material)));
  const whole = withTests(shelf, testsByBottle(database));
  const ledgers = ledgersByBottle(database);
  const edits = heldEdits(database);
  return {
    ...whole,
    bottles: whole.bottles.map((bottle) => withLedger(bottle, ledgers.get(bottle.id))),
    ...(suppliers.length === 0 ? {} : { suppliers: [...suppliers] }),
    ...(orders.length === 0 ? {} : { orders: orders.map(({ material, order }) => ({ material: keyOf(material), ...order })) }),
    ...(edits.length === 0 ? {} : { edits: [...edits] }),
  };
}

function withLedger(bottle: Bottle, ledger: readonly LedgerEntry[] | undefined): Bottle {
  return ledger ? { ...bottle, ledger: [...ledger] } : bottle;
}

function withTests(shelf: Shelf, tests: ReadonlyMap<string, readonly BottleTest[]>): Shelf {
  const tested = (bottle: Bottle): Bottle => {
    const ofBottle = tests.get(bottle.id);
    return ofBottle ? { ...bottle, tests: [...ofBottle] } : bottle;
  };
  return { ...shelf, bottles: shelf.bottles.map(tested) };
}

function shelfOf(
  database: Database,
  only: ReadonlySet<number> | undefined,
  key: (id: number) => string,
  also: ReadonlySet<number> = new Set(),
): Shelf {
  const bottles = readBottles(database, only);
  const packs = readPacks(database).filter((pack) => !only || only.has(pack.material));
  const used = new Set([...[...bottles, ...packs].map((row) => row.material), ...also]);
  return {
    backweigh: 'shelf',
    version: 1,
    materials: Object.fromEntries(
      readMaterials(database)
        .filter((row) => used.has(row.id))
        .map((row) => [key(row.id), row.material]),
    ),
    bottles: bottles.map((record) => shelfBottle(record, key(record.material))),
    ...(packs.length === 0 ? {} : { packs: packs.map(({ material, pack }) => ({ ...pack, material: key(material) })) }),
  };
}

/** Takes a shelf file in, all of it or none of it; gives the rows of the bottles. Only inside a write. */
export function takeInShelf(database: Database, shelf: Shelf, reason: string, at: string): readonly number[] {
  const problems = shelfProblems(database, shelf);
  if (problems.length > 0) throw new Refusal('refused', mainWords.fileProblems(problems.length), problems);
  const rows = new Map<string, number>();
  for (const { material, ...bottle } of shelf.bottles) {
    const holds = shelf.materials[material];
    if (holds) rows.set(bottle.id, putBottle(database, { ...bottle, holds }, reason, at));
  }
  tieLedgers(database, shelf.bottles, rows);
  takeInPacks(database, shelf);
  takeInSuppliers(database, shelf.suppliers ?? []);
  takeInOrders(database, shelf.orders ?? [], shelf.materials, rows);
  takeInEdits(database, shelf.edits ?? [], rows);
  return [...rows.values()];
}

function takeInPacks(database: Database, shelf: Shelf): void {
  const known = packCounts(database);
  for (const { material, ...pack } of shelf.packs ?? []) {
    const holds = shelf.materials[material];
    if (!holds) continue;
    const key = packKey({ ...pack, holds });
    const count = known.get(key) ?? 0;
    // As many as are on the price list already are those; the same file twice lists nothing twice.
    if (count > 0) known.set(key, count - 1);
    else putPack(database, pack, holds);
  }
}

/** How often each pack is on the price list. */
function packCounts(database: Database): Map<string, number> {
  const counts = new Map<string, number>();
  for (const pack of heldPacks(database)) counts.set(packKey(pack), (counts.get(packKey(pack)) ?? 0) + 1);
  return counts;
}

type HeldPack = Omit<Pack, 'material'> & { readonly holds: Material };

/** The same text for packs that the price list keeps alike. */
function packKey({ holds, form, amount, unit, supplier = '', price, leadDays, minimum = 1 }: HeldPack): string {
  return canonicalJson([holds, form ?? null, toSmallest(amount), unit, supplier, price ?? null, leadDays ?? null, minimum]);
}

function shelfProblems(database: Database, shelf: Shelf): readonly FileProblem[] {
  const seen = new Set<string>();
  const problems: FileProblem[] = [];
  for (const [index, { id, material }] of shelf.bottles.entries()) {
    if (seen.has(id)) problems.push({ at: `/bottles/${index}/id`, words: mainWords.bottleTwice(id) });
    else if (database.get('SELECT 1 FROM bottle WHERE code = ?', [id])) {
      problems.push({ at: `/bottles/${index}/id`, words: mainWords.bottleExists(id) });
    }
    seen.add(id);
    if (!Object.hasOwn(shelf.materials, material)) {
      problems.push({ at: `/bottles/${index}/material`, words: mainWords.materialMissing(material) });
    }
  }
  for (const [index, { material }] of (shelf.packs ?? []).entries()) {
    if (!Object.hasOwn(shelf.materials, material)) {
      problems.push({ at: `/packs/${index}/material`, words: mainWords.materialMissing(material) });
    }
  }
  return problems;
}

function readMaterials(database: Database): readonly { readonly id: number; readonly material: Material }[] {
  return database
    .all<{ id: number; data: string }>('SELECT id, data FROM material ORDER BY id')
    .map((row) => ({ id: row.id, material: JSON.parse(row.data) as Material }));
}

/** Every known pack with its material. */
export function heldPacks(database: Database): readonly HeldPack[] {
  const materials = new Map(readMaterials(database).map((row) => [row.id, row.material]));
  return readPacks(database).flatMap(({ material, pack }) => {
    const holds = materials.get(material);
    return holds ? [{ ...pack, holds }] : [];
  });
}

/** Readable keys for a file, made from the names and never the same twice. */
function fileKeys(names: ReadonlyMap<number, string>): ReadonlyMap<number, string> {
  const keys = new Map<number, string>();
  const taken = new Set<string>();
  const next = new Map<string, number>();
  for (const [id, name] of names) {
    const plain = name
      .normalize('NFKD')
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 60);
    const stem = plain === '' ? 'material' : plain;
    let key = stem;
    let number = next.get(stem) ?? 2;
    // A name may itself end in a number: the numbered key can be taken as well.
    for (; taken.has(key); number++) key = `${stem}-${number}`;
    next.set(stem, number);
    taken.add(key);
    keys.set(id, key);
  }
  return keys;
}
