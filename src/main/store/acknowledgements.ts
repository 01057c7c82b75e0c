import { canonicalJson } from '../../core/canonical-json.ts';
import type { Acknowledged, Acknowledgement } from '../../core/caution/acknowledgement.ts';
import type { Database } from './database.ts';
import { readPlan } from './plans.ts';

/** Keeps that a caution was read. Only inside a write. */
export function keepAcknowledgement(database: Database, plan: number, given: Acknowledgement, at: string): Acknowledged {
  readPlan(database, plan);
  const id = database.run('INSERT INTO acknowledgement (plan, data, at) VALUES (?, ?, ?)', [plan, canonicalJson(given), at]);
  return { ...given, id, at };
}

/** What was read of a plan's cautions, oldest first. */
export function listAcknowledgements(database: Database, plan: number): readonly Acknowledged[] {
  readPlan(database, plan);
  return database
    .all<{ id: number; data: string; at: string }>('SELECT id, data, at FROM acknowledgement WHERE plan = ? ORDER BY id', [plan])
    .map(({ id, data, at }) => ({ ...(JSON.parse(data) as Acknowledgement), id, at }));
}
