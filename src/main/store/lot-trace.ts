import type { ExpiringBottle, LotTrace, LotUse } from '../../core/port/buy.ts';
import type { RunStart } from '../../core/port/runs.ts';
import type { Form } from '../../core/matter/form.ts';
import type { Material } from '../../core/matter/material.ts';
import { fromSmallest } from './amounts.ts';
import type { Database } from './database.ts';

interface TracedBottle {
  readonly id: number;
  readonly code: string;
  readonly lot: string;
  readonly place: string;
  readonly unit: 'g' | 'mL';
  readonly amount_left: number;
  readonly name: string;
}

const BOTTLES = `SELECT bottle.id, code, lot, place, unit, amount_left, json_extract(material.data, '$.name') AS name
  FROM bottle JOIN material ON material.id = bottle.material`;
const MOST_LINES = 5000;

/**
 * Where the bottles of a lot went, and everything that was made from them, and from that, as far as it goes. A lot is
 * found by its own text or by the label of a bottle, capitals aside. What was taken back is not a use.
 */
export function traceLot(database: Database, lot: string): LotTrace {
  const asked = lot.trim();
  let level: readonly TracedBottle[] =
    asked === ''
      ? []
      : database.all<TracedBottle>(`${BOTTLES} WHERE lower(?) IN (lower(lot), lower(code)) ORDER BY bottle.id`, [asked]);
  const seen = new Set<number>();
  const bottles: LotTrace['bottles'][number][] = [];
  const uses: LotUse[] = [];
  for (let depth = 0; level.length > 0 && uses.length < MOST_LINES; depth += 1) {
    const made: TracedBottle[] = [];
    for (const bottle of level) {
      if (seen.has(bottle.id)) continue;
      seen.add(bottle.id);
      const { code: id, lot: of, name: material, unit, place } = bottle;
      bottles.push({ id, lot: of, material, left: fromSmallest(bottle.amount_left), unit, place, depth });
      for (const use of usesOf(database, bottle)) {
        const filled = use.run === null ? [] : filledBy(database, use.run);
        uses.push(useOf(database, bottle, use, filled, depth));
        made.push(...filled);
      }
    }
    level = made;
  }
  return { bottles, uses: uses.slice(0, MOST_LINES), cut: uses.length >= MOST_LINES };
}

interface UseRow {
  readonly change: number;
  readonly at: string;
  readonly reason: string;
  readonly run: number | null;
}

function usesOf(database: Database, bottle: TracedBottle): readonly UseRow[] {
  return database.all<UseRow>(
    `SELECT change, at, reason, run_ledger.run FROM ledger
       LEFT JOIN run_ledger ON run_ledger.ledger = ledger.id
     WHERE bottle = ? AND kind = 'used'
       AND NOT EXISTS (SELECT 1 FROM ledger AS later WHERE later.undoes = ledger.id)
     ORDER BY ledger.id`,
    [bottle.id],
  );
}

function filledBy(database: Database, run: number): readonly TracedBottle[] {
  return database.all<TracedBottle>(
    `${BOTTLES} WHERE bottle.id IN (
       SELECT ledger.bottle FROM run_ledger JOIN ledger ON ledger.id = run_ledger.ledger
       WHERE run_ledger.run = ? AND ledger.kind = 'made'
         AND NOT EXISTS (SELECT 1 FROM ledger AS later WHERE later.undoes = ledger.id))
     ORDER BY bottle.id`,
    [run],
  );
}

function useOf(
  database: Database,
  bottle: TracedBottle,
  { change, at, reason, run }: UseRow,
  filled: readonly TracedBottle[],
  depth: number,
): LotUse {
  const row =
    run === null ? undefined : database.get<{ data: string; plan: number }>('SELECT data, plan FROM run WHERE id = ?', [run]);
  const start = row ? (JSON.parse(row.data) as RunStart) : null;
  const plan = row
    ? database.get<{ name: string }>('SELECT name FROM plan_state WHERE plan = ? ORDER BY state DESC LIMIT 1', [row.plan])
    : undefined;
  return {
    bottle: bottle.code,
    lot: bottle.lot,
    material: bottle.name,
    amount: fromSmallest(-change),
    unit: bottle.unit,
    at,
    reason,
    run,
    plan: plan?.name ?? '',
    sheet: start?.sheet.sheet.id ?? '',
    made: filled.map(({ code }) => code),
    depth,
  };
}

const MOST_EXPIRING = 500;

/** Bottles not empty whose date is past or lies up to a day, the earliest first; at most 500. */
export function expiringBottles(database: Database, until: string): readonly ExpiringBottle[] {
  const rows = database.all<TracedBottle & { form: string; data: string; use_by: string }>(
    `SELECT bottle.id, code, lot, place, unit, amount_left, form, material.data, use_by
     FROM bottle JOIN material ON material.id = bottle.material
     WHERE use_by <= ? AND amount_left > 0 ORDER BY use_by, bottle.id LIMIT ${MOST_EXPIRING}`,
    [until],
  );
  return rows.map((row) => ({
    id: row.code,
    material: JSON.parse(row.data) as Material,
    form: JSON.parse(row.form) as Form,
    left: fromSmallest(row.amount_left),
    unit: row.unit,
    lot: row.lot,
    place: row.place,
    useBy: row.use_by,
  }));
}
