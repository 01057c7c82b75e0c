import { canonicalJson } from '../../core/canonical-json.ts';
import type { Material } from '../../core/matter/material.ts';
import type { PackOffer } from '../../core/port/buy.ts';
import type { ShelfOrder } from '../../core/shelf/order.ts';
import type { Database } from './database.ts';
import { keepMaterial } from './materials.ts';
import { materialOf } from './packs.ts';

type OrderEvents = NonNullable<ShelfOrder['events']>;

interface HeldOrder {
  readonly material: number;
  readonly order: Omit<ShelfOrder, 'material'>;
}

interface EventRow {
  readonly id: number;
  readonly purchase: number;
  readonly kind: 'received' | 'cancelled';
  readonly count: number;
  readonly reason: string;
  readonly at: string;
  readonly taken_back: string | null;
}

/** Every order as a shelf file holds it, the oldest first, each with the row of its material. */
export function heldOrders(database: Database): readonly HeldOrder[] {
  const events = eventsByOrder(database);
  return database
    .all<{ id: number; material: number; pack: string; count: number; note: string; at: string; plan: string }>(
      `SELECT id, material, pack, count, note, at,
         coalesce((SELECT name FROM plan_state WHERE plan_state.plan = purchase.plan ORDER BY state DESC LIMIT 1), for_plan)
           AS plan
       FROM purchase ORDER BY id`,
    )
    .map(({ id, material, pack, count, note, at, plan }) => {
      const came = events.get(id) ?? [];
      return {
        material,
        order: {
          pack: JSON.parse(pack) as PackOffer,
          count,
          ...(note === '' ? {} : { note }),
          at,
          ...(plan === '' ? {} : { forPlan: plan }),
          ...(came.length === 0 ? {} : { events: came }),
        },
      };
    });
}

function eventsByOrder(database: Database): ReadonlyMap<number, OrderEvents> {
  const bottles = new Map<number, string[]>();
  const labels = database.all<{ event: number; label: string }>(
    `SELECT event, code AS label FROM purchase_bottle CROSS JOIN bottle ON bottle.id = purchase_bottle.bottle
     WHERE taken_back = 0 ORDER BY bottle.id`,
  );
  for (const { event, label } of labels) bottles.set(event, [...(bottles.get(event) ?? []), label]);
  const found = new Map<number, OrderEvents>();
  const rows = database.all<EventRow>(
    `SELECT event.id, purchase, kind, count, reason, event.at, undo.at AS taken_back
     FROM purchase_event AS event LEFT JOIN purchase_undo AS undo ON undo.event = event.id ORDER BY event.id`,
  );
  for (const { id, purchase, kind, count, reason, at, taken_back } of rows) {
    const became = taken_back === null ? bottles.get(id) : undefined;
    const one: OrderEvents[number] = {
      kind,
      count,
      ...(reason === '' ? {} : { reason }),
      at,
      ...(became === undefined ? {} : { bottles: became }),
      ...(taken_back === null ? {} : { takenBack: taken_back }),
    };
    found.set(purchase, [...(found.get(purchase) ?? []), one]);
  }
  return found;
}

/**
 * Takes in the orders of a shelf file; one that is there already, to the moment, is that one and is left as it is.
 * `rows`: rows of the file's bottles by label. Only inside a write.
 */
export function takeInOrders(
  database: Database,
  orders: readonly ShelfOrder[],
  materials: Readonly<Record<string, Material>>,
  rows: ReadonlyMap<string, number>,
): void {
  const key = (holds: Material, { pack, count, note = '', at }: Omit<ShelfOrder, 'material'>): string =>
    canonicalJson([holds, pack, count, note, at]);
  const known = new Set(heldOrders(database).map(({ material, order }) => key(materialOf(database, material), order)));
  for (const order of orders) {
    const holds = materials[order.material];
    if (!holds || known.has(key(holds, order))) continue;
    const purchase = database.run(
      'INSERT INTO purchase (plan, material, pack, count, note, at, for_plan) VALUES (NULL, ?, ?, ?, ?, ?, ?)',
      [keepMaterial(database, holds), canonicalJson(order.pack), order.count, order.note ?? '', order.at, order.forPlan ?? ''],
    );
    for (const event of order.events ?? []) takeInEvent(database, purchase, event, rows);
  }
}

function takeInEvent(
  database: Database,
  purchase: number,
  { kind, count, reason = '', at, bottles = [], takenBack }: OrderEvents[number],
  rows: ReadonlyMap<string, number>,
): void {
  const event = database.run('INSERT INTO purchase_event (purchase, kind, count, reason, at) VALUES (?, ?, ?, ?, ?)', [
    purchase,
    kind,
    count,
    reason,
    at,
  ]);
  if (takenBack !== undefined) database.run('INSERT INTO purchase_undo (event, at) VALUES (?, ?)', [event, takenBack]);
  for (const label of bottles) {
    const bottle = rows.get(label);
    if (bottle !== undefined) database.run('INSERT INTO purchase_bottle (event, bottle) VALUES (?, ?)', [event, bottle]);
  }
}
