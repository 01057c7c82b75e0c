import { alikeKey } from '../../core/matter/alike.ts';
import { foldName } from '../../core/matter/facts.ts';
import type { Material } from '../../core/matter/material.ts';
import { canonicalJson } from '../../core/canonical-json.ts';
import type { Database } from './database.ts';

/** Row id of a material, kept once however many bottles hold it. Only inside a write. */
export function keepMaterial(database: Database, material: Material): number {
  const data = canonicalJson(material);
  const known = database.get<{ id: number }>('SELECT id FROM material WHERE data = ?', [data]);
  if (known) return known.id;
  return database.run('INSERT INTO material (data, name_key, cas) VALUES (?, ?, ?)', [
    data,
    foldName(material.name),
    material.cas ?? null,
  ]);
}

/** How the rest of the program refers to a material of the shelf. */
export function materialKey(id: number): string {
  return `m${id}`;
}

interface MaterialIdentity {
  readonly id: number;
  readonly name_key: string;
  readonly cas: string | null;
}

/** Row ids of the kept materials that may be any of the given ones; core's sameMaterial() looks at their formulas too. By look-up. */
export function matchingMaterials(database: Database, wanted: readonly Material[]): ReadonlySet<number> {
  const kept = database.all<MaterialIdentity>('SELECT id, name_key, cas FROM material');
  const byCas = grouped(kept, (row) => row.cas);
  const byName = grouped(kept, (row) => row.name_key);
  const found = new Set<number>();
  for (const material of wanted) {
    if (material.cas) for (const row of byCas.get(material.cas) ?? []) found.add(row.id);
    for (const row of byName.get(foldName(material.name)) ?? []) {
      if (!material.cas || !row.cas) found.add(row.id);
    }
  }
  return found;
}

/** Row ids of the kept materials that are called nearly as one of the given ones: told beside them, never taken for them. */
export function alikeMaterials(database: Database, wanted: readonly Material[]): ReadonlySet<number> {
  const keys = new Set(wanted.map(({ name }) => alikeKey(name)));
  const kept = database.all<Pick<MaterialIdentity, 'id' | 'name_key'>>('SELECT id, name_key FROM material');
  return new Set(kept.flatMap(({ id, name_key }) => (keys.has(alikeKey(name_key)) ? [id] : [])));
}

function grouped<Row, Key>(rows: readonly Row[], key: (row: Row) => Key): ReadonlyMap<Key, readonly Row[]> {
  const groups = new Map<Key, Row[]>();
  for (const row of rows) {
    const group = groups.get(key(row));
    if (group) group.push(row);
    else groups.set(key(row), [row]);
  }
  return groups;
}
