import type { Material } from '../../core/matter/material.ts';
import type { FileProblem } from '../../core/port/result.ts';
import type { LedgerEntry } from '../../core/shelf/ledger-entry.ts';
import type { Bottle, BottleTest, Pack, Shelf } from '../../core/shelf/shelf.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { readBottles, shelfBottle, putBottle } from './bottles.ts';
import { testsByBottle } from './bottle-tests.ts';
import { ledgersByBottle } from './ledger.ts';
import type { Database } from './database.ts';
import { matchingMaterials, materialKey } from './materials.ts';
import { putPack, readPacks } from './packs.ts';
import { Refusal } from './refusal.ts';

/** The bottles of some materials in every form, as the planner takes them. */
export function shelfSnapshot(database: Database, wanted: readonly Material[]): Shelf {
  const materials = matchingMaterials(database, wanted);
  return withTests(shelfOf(database, materials, materialKey), testsByBottle(database));
}

/** The whole shelf as a file: with every bottle its tests and its ledger. */
export function shelfAsFile(database: Database): Shelf {
  const names = new Map(readMaterials(database).map((row) => [row.id, row.material.name]));
  const keys = fileKeys(names);
  const shelf = shelfOf(database, undefined, (id) => keys.get(id) ?? materialKey(id));
  const whole = withTests(shelf, testsByBottle(database));
  const ledgers = ledgersByBottle(database);
  return { ...whole, bottles: whole.bottles.map((bottle) => withLedger(bottle, ledgers.get(bottle.id))) };
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

function shelfOf(database: Database, only: ReadonlySet<number> | undefined, key: (id: number) => string): Shelf {
  const bottles = readBottles(database, only);
  const packs = readPacks(database).filter((pack) => !only || only.has(pack.material));
  const used = new Set([...bottles, ...packs].map((row) => row.material));
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

/** Takes a shelf file in, all of it or none of it; gives the number of bottles. Only inside a write. */
export function takeInShelf(database: Database, shelf: Shelf, reason: string, at: string): number {
  const problems = shelfProblems(database, shelf);
  if (problems.length > 0) throw new Refusal('refused', mainWords.fileProblems(problems.length), problems);
  for (const { material, ...bottle } of shelf.bottles) {
    const holds = shelf.materials[material];
    if (holds) putBottle(database, { ...bottle, holds }, reason, at);
  }
  for (const pack of shelf.packs ?? []) {
    const holds = shelf.materials[pack.material];
    if (holds) putPack(database, pack, holds);
  }
  return shelf.bottles.length;
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
export function heldPacks(database: Database): readonly (Omit<Pack, 'material'> & { readonly holds: Material })[] {
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
  for (const [id, name] of names) {
    const plain = name
      .normalize('NFKD')
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 60);
    const key = plain === '' || taken.has(plain) ? `${plain === '' ? 'material' : plain}-${id}` : plain;
    taken.add(key);
    keys.set(id, key);
  }
  return keys;
}
