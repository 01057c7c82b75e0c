import { foldName } from '../../core/matter/facts.ts';
import type { Supplier } from '../../core/shelf/pack.ts';
import type { Database } from './database.ts';

/** Suppliers something is known of, by name. */
export function readSuppliers(database: Database): readonly Supplier[] {
  return database.all<Supplier>('SELECT name, least_order AS leastOrder FROM supplier ORDER BY key');
}

/** Keeps the least an order has to come to at a supplier; null: nothing is known of it any more. Only inside a write. */
export function setSupplier(database: Database, name: string, leastOrder: number | null): void {
  const key = foldName(name);
  database.run('DELETE FROM supplier WHERE key = ?', [key]);
  if (leastOrder !== null) {
    database.run('INSERT INTO supplier (key, name, least_order) VALUES (?, ?, ?)', [key, name.trim(), leastOrder]);
  }
}

/** Takes in what a shelf file knows of suppliers; what is known here stays. Only inside a write. */
export function takeInSuppliers(database: Database, suppliers: readonly Supplier[]): void {
  const known = new Set(readSuppliers(database).map(({ name }) => foldName(name)));
  for (const { name, leastOrder } of suppliers) if (!known.has(foldName(name))) setSupplier(database, name, leastOrder);
}
