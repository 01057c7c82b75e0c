import { canonicalJson } from '../../core/canonical-json.ts';
import type { OrderRow, PackOffer } from '../../core/port/buy.ts';
import type { ProcedureInput } from '../../core/port/port.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { nextCode, putBottle } from './bottles.ts';
import type { Database } from './database.ts';
import { keepMaterial } from './materials.ts';
import { materialOf } from './packs.ts';
import { Refusal } from './refusal.ts';

interface OrderTableRow {
  readonly id: number;
  readonly plan: number | null;
  readonly plan_name: string | null;
  readonly material: number;
  readonly pack: string;
  readonly count: number;
  readonly note: string;
  readonly at: string;
  readonly received: number;
  readonly cancelled: number;
  readonly expected: string | null;
}

const ORDERS = `SELECT purchase.id, purchase.plan, purchase.material, pack, count, note, at,
    (SELECT name FROM plan_state WHERE plan_state.plan = purchase.plan ORDER BY state DESC LIMIT 1) AS plan_name,
    (SELECT coalesce(sum(event.count), 0) FROM purchase_event AS event
      WHERE event.purchase = purchase.id AND event.kind = 'received') AS received,
    (SELECT coalesce(sum(event.count), 0) FROM purchase_event AS event
      WHERE event.purchase = purchase.id AND event.kind = 'cancelled') AS cancelled,
    date(at, '+' || json_extract(pack, '$.leadDays') || ' days') AS expected
  FROM purchase`;

/** Orders, the newest first; only those that are still open, or all. */
export function readOrders(database: Database, all: boolean): readonly OrderRow[] {
  const rows = database.all<OrderTableRow>(`${ORDERS} ORDER BY purchase.id DESC`);
  return rows.filter((row) => all || row.count > row.received + row.cancelled).map((row) => orderRow(database, row));
}

function orderRow(database: Database, row: OrderTableRow): OrderRow {
  const bottles = database.all<{ code: string }>(
    `SELECT bottle.code FROM purchase_event AS event
       JOIN purchase_bottle ON purchase_bottle.event = event.id
       JOIN bottle ON bottle.id = purchase_bottle.bottle
     WHERE event.purchase = ? ORDER BY bottle.id`,
    [row.id],
  );
  return {
    id: row.id,
    material: materialOf(database, row.material),
    pack: JSON.parse(row.pack) as PackOffer,
    count: row.count,
    received: row.received,
    cancelled: row.cancelled,
    ordered: row.at.slice(0, 10),
    expected: row.expected,
    plan: row.plan,
    planName: row.plan_name ?? '',
    note: row.note,
    bottles: bottles.map(({ code }) => code),
  };
}

type Placed = ProcedureInput<'orders.place'>;

/** Marks packs as ordered, all of them or none; gives their rows. Only inside a write. */
export function placeOrders(database: Database, { planId, lines }: Placed, at: string): readonly number[] {
  if (planId !== null && !database.get('SELECT 1 FROM plan WHERE id = ?', [planId])) {
    throw new Refusal('not found', mainWords.orderWithoutPlan);
  }
  return lines.map(({ material, pack, count, note }) =>
    database.run('INSERT INTO purchase (plan, material, pack, count, note, at) VALUES (?, ?, ?, ?, ?, ?)', [
      planId,
      keepMaterial(database, material),
      canonicalJson(pack),
      count,
      note,
      at,
    ]),
  );
}

type Received = ProcedureInput<'orders.receive'>;

/** Puts what came on the shelf, a bottle for each pack, in one write with the order's own line; gives their labels. */
export function receiveOrder(database: Database, { id, bottles }: Received, today: string, at: string): readonly string[] {
  const order = openOrder(database, id, bottles.length);
  const event = addEvent(database, id, 'received', bottles.length, '', at);
  return bottles.map((described) => {
    const code = nextCode(database);
    const { form = { kind: 'neat' as const }, amount, unit, supplier } = order.pack;
    const bottle = {
      ...described,
      id: code,
      holds: order.material,
      form,
      left: amount,
      unit,
      received: today,
      ...(supplier === undefined ? {} : { supplier }),
    };
    const row = putBottle(database, bottle, mainWords.receivedOfOrder(id), at);
    database.run('INSERT INTO purchase_bottle (event, bottle) VALUES (?, ?)', [event, row]);
    return code;
  });
}

/** Says that so many packs of an order will not come. Only inside a write. */
export function cancelOrder(database: Database, id: number, count: number, reason: string, at: string): void {
  openOrder(database, id, count);
  addEvent(database, id, 'cancelled', count, reason, at);
}

function openOrder(database: Database, id: number, count: number): OrderRow {
  const row = database.get<OrderTableRow>(`${ORDERS} WHERE purchase.id = ?`, [id]);
  if (!row) throw new Refusal('not found', mainWords.noOrder(id));
  const open = row.count - row.received - row.cancelled;
  if (count > open) throw new Refusal('refused', mainWords.moreThanOrdered(open, count));
  return orderRow(database, row);
}

function addEvent(
  database: Database,
  purchase: number,
  kind: 'received' | 'cancelled',
  count: number,
  reason: string,
  at: string,
): number {
  return database.run('INSERT INTO purchase_event (purchase, kind, count, reason, at) VALUES (?, ?, ?, ?, ?)', [
    purchase,
    kind,
    count,
    reason,
    at,
  ]);
}
