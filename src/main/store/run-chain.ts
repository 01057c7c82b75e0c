import type { RunStart } from '../../core/port/runs.ts';
import type { Charged, RunEntry } from '../../core/run/entry.ts';
import type { Database } from './database.ts';

/** A run that charged, from no bottle, what another run of its plan makes. */
interface RunAfter {
  readonly run: number;
  /** Name of what was carried on. */
  readonly material: string;
  readonly amount: number;
  readonly unit: 'g' | 'mL';
  /** Moment of the first such charge. */
  readonly at: string;
}

/** Later runs of the same plan that charged from no bottle what a run makes, in the order they were begun. */
export function runsAfter(database: Database, run: number): readonly RunAfter[] {
  const own = database.get<{ plan: number; data: string }>('SELECT plan, data FROM run WHERE id = ?', [run]);
  if (!own) return [];
  const { product } = (JSON.parse(own.data) as RunStart).sheet;
  return database
    .all<{ id: number; data: string }>('SELECT id, data FROM run WHERE plan = ? AND id > ? ORDER BY id', [own.plan, run])
    .flatMap(({ id, data }) => {
      const { charges } = (JSON.parse(data) as RunStart).sheet;
      const asked = new Set(charges.filter(({ material }) => material === product.material).map((charge) => charge.id));
      const taken = asked.size === 0 ? [] : chargedFromNoBottle(database, id).filter(({ entry }) => asked.has(entry.charge));
      const [first] = taken;
      if (!first) return [];
      const amount = taken.reduce((sum, { entry }) => sum + (entry.unit === first.entry.unit ? entry.net : 0), 0);
      return [{ run: id, material: product.holds.name, amount, unit: first.entry.unit, at: first.at }];
    });
}

/** What a run charged from no bottle, as it stands after its corrections. */
function chargedFromNoBottle(database: Database, run: number): readonly { readonly entry: Charged; readonly at: string }[] {
  const rows = database.all<{ number: number; at: string; data: string }>(
    'SELECT number, at, data FROM run_entry WHERE run = ? ORDER BY number',
    [run],
  );
  const standing = new Map<number, { entry: RunEntry | null; at: string }>();
  for (const { number, at, data } of rows) {
    const entry = JSON.parse(data) as RunEntry;
    if (entry.kind === 'correction') standing.set(entry.of, { entry: entry.instead, at });
    else standing.set(number, { entry, at });
  }
  return [...standing.values()].flatMap(({ entry, at }) =>
    entry?.kind === 'charged' && entry.bottle === null ? [{ entry, at }] : [],
  );
}
