import { canonicalJson } from '../../core/canonical-json.ts';
import type { OrderEvent, OrderRow, PackOffer } from '../../core/port/buy.ts';
import type { ProcedureInput } from '../../core/port/port.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { nextCode, putBottle } from './bottles.ts';
import type { Database } from './database.ts';
import { takeBackBottle } from './intakes.ts';
import { keepMaterial } from './materials.ts';
import { materialOf } from './packs.ts';
import { Refusal } from './refusal.ts';

interface OrderTableRow {
  readonly id: number;
  readonly plan: number | null;
  readonly plan_name: string;
  readonly material: number;
  readonly pack: string;
  readonly count: number;
  readonly note: string;
  readonly at: string;
  readonly received: number;
  readonly cancelled: number;
  readonly expected: string | null;
}

/** What was not taken back. */
const STANDS = 'NOT EXISTS (SELECT 1 FROM purchase_undo WHERE purchase_undo.event = event.id)';

const ORDERS = `SELECT purchase.id, purchase.plan, purchase.material, pack, count, note, at,
    coalesce((SELECT name FROM plan_state WHERE plan_state.plan = purchase.plan ORDER BY state DESC LIMIT 1), for_plan) AS plan_name,
    (SELECT coalesce(sum(event.count), 0) FROM purchase_event AS event
      WHERE event.purchase = purchase.id AND event.kind = 'received' AND ${STANDS}) AS received,
    (SELECT coalesce(sum(event.count), 0) FROM purchase_event AS event
      WHERE event.purchase = purchase.id AND event.kind = 'cancelled' AND ${STANDS}) AS cancelled,
    date(at, '+' || json_extract(pack, '$.leadDays') || ' days') AS expected
  FROM purchase`;

/** So many finished orders are shown: the newest. */
export const FINISHED_SHOWN = 200;

/** Orders, the newest first: those that are still open, and so many of the finished ones. */
export function readOrders(database: Database, mostFinished: number): readonly OrderRow[] {
  const rows = database.all<OrderTableRow>(`${ORDERS} ORDER BY purchase.id DESC`);
  const open = (row: OrderTableRow): boolean => row.count > row.received + row.cancelled;
  const finished = new Set(rows.filter((row) => !open(row)).slice(0, mostFinished));
  return rows.filter((row) => open(row) || finished.has(row)).map((row) => orderRow(database, row));
}

function orderRow(database: Database, row: OrderTableRow): OrderRow {
  const events = eventsOf(database, row.id);
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
    planName: row.plan_name,
    note: row.note,
    bottles: events.flatMap((one) => one.bottles),
    events,
  };
}

function eventsOf(database: Database, order: number): readonly OrderEvent[] {
  const rows = database.all<{ id: number; kind: OrderEvent['kind']; count: number; at: string }>(
    `SELECT id, kind, count, at FROM purchase_event AS event WHERE purchase = ? AND ${STANDS} ORDER BY id`,
    [order],
  );
  return rows.map(({ id, kind, count, at }) => {
    const bottles = bottlesOf(database, id);
    const used = bottles.filter((one) => one.touched === 1).map(({ label }) => label);
    return { id, kind, count, on: at.slice(0, 10), bottles: bottles.map(({ label }) => label), used };
  });
}

/** The bottles of an event that are on the shelf (those of a file that was taken back are not), each with whether anything was done with it since: taken, tested, or written on it. */
function bottlesOf(
  database: Database,
  event: number,
): readonly { readonly id: number; readonly label: string; readonly touched: number }[] {
  return database.all(
    `SELECT bottle.id AS id, code AS label,
       (SELECT count(*) FROM ledger WHERE ledger.bottle = bottle.id) > 1
       OR EXISTS (SELECT 1 FROM bottle_test WHERE bottle_test.bottle = bottle.id)
       OR EXISTS (SELECT 1 FROM bottle_edit_line WHERE bottle_edit_line.bottle = bottle.id) AS touched
     FROM purchase_bottle CROSS JOIN bottle ON bottle.id = purchase_bottle.bottle
     WHERE event = ? AND taken_back = 0 ORDER BY bottle.id`,
    [event],
  );
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
    const { form = { kind: 'neat' as const }, amount, unit, supplier, price } = order.pack;
    const bottle = {
      ...described,
      id: code,
      holds: order.material,
      form,
      left: amount,
      unit,
      received: today,
      ...(supplier === undefined ? {} : { supplier }),
      ...(price === undefined ? {} : { price }),
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

/**
 * Takes back that packs came (their bottles leave the shelf by counter-entries) or that they would not come; gives the
 * labels of the bottles. Refused where anything was done with one of them. Only inside a write.
 */
export function undoOrderEvent(database: Database, event: number, at: string): readonly string[] {
  if (!database.get(`SELECT 1 FROM purchase_event AS event WHERE id = ? AND ${STANDS}`, [event])) {
    throw new Refusal('not found', mainWords.noOrderEvent(event));
  }
  const bottles = bottlesOf(database, event);
  const used = bottles.filter(({ touched }) => touched === 1).map(({ label }) => label);
  if (used.length > 0) throw new Refusal('refused', mainWords.receivedWasUsed(used));
  for (const bottle of bottles) takeBackBottle(database, bottle, at);
  database.run('INSERT INTO purchase_undo (event, at) VALUES (?, ?)', [event, at]);
  return bottles.map(({ label }) => label);
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
