import { computed, effect, signal } from '@preact/signals';
import type { BuyOption } from '../../../core/buy/buy-option.ts';
import { type ShoppingInput, type ShoppingLine, shoppingList } from '../../../core/buy/shopping.ts';
import type { ExpiringBottle, LotTrace, OrderRow, PackOffer, PackRow } from '../../../core/port/buy.ts';
import type { ProcedureInput } from '../../../core/port/port.ts';
import type { PlanResult } from '../../../core/plan/result.ts';
import type { Material } from '../../../core/matter/material.ts';
import type { Pack, Supplier } from '../../../core/shelf/pack.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { shoppingWords as words } from '../../../core/words/shopping-words.ts';
import { call, subscribe } from '../../state/connection.ts';
import { inOrder } from '../../state/in-order.ts';
import { lookThroughPlans } from '../../state/other-plans.ts';
import { openPlan, route, shelf } from '../../state/plan-route.ts';
import { planList, reference, settings, shelfChanges } from '../../state/workbook.ts';

export const orders = signal<readonly OrderRow[]>([]);
/** Finished orders, the newest first; null while nobody looks at them. */
export const finishedOrders = signal<readonly OrderRow[] | null>(null);
/** Suppliers something is known of. */
export const suppliers = signal<readonly Supplier[]>([]);
export const packRows = signal<readonly PackRow[]>([]);
export const expiring = signal<readonly ExpiringBottle[] | null>(null);
export const trace = signal<{ readonly asked: string; readonly found: LotTrace } | null>(null);
/** What the last act came to. */
export const buySaid = signal('');

/** Bottles whose date lies within so many days are shown: common practice, no source. */
export const SOON = 60;

/** What the shopping list of a plan's result is made from; null until it is read. */
export function shoppingOf(result: PlanResult): ShoppingInput | null {
  const [ofRoute, lab, tables] = [route.value, settings.value, reference.value];
  if (!ofRoute || !lab || !tables || !('strengthMatchPercent' in lab)) return null;
  const { packs, materials } = orderedPacks.value;
  const stock = { ...shelf.value, materials: { ...shelf.value.materials, ...materials } };
  return { result, route: ofRoute, shelf: stock, settings: lab, reference: tables, onOrder: packs };
}

/** The shopping list of a plan's result; empty until what it needs is read. */
export function linesOf(result: PlanResult): readonly ShoppingLine[] {
  const input = shoppingOf(result);
  return input ? shoppingList(input) : [];
}

/** Packs still to come, with materials of their own names. */
const orderedPacks = computed(() => {
  const materials: Record<string, Material> = {};
  const packs = orders.value.map(({ id, material, pack, count, received, cancelled, plan, planName }) => {
    materials[`order-${id}`] = material;
    return {
      pack: { ...pack, material: `order-${id}` } satisfies Pack,
      count: count - received - cancelled,
      forPlan: plan === openPlan.value?.id ? '' : planName,
    };
  });
  return { materials, packs };
});

/** Reads what the place shows, and follows its changes; gives what ends it. */
export function followBuying(): () => void {
  const ends = [
    subscribe('orders', () => {
      void readOrders();
      void readSuppliers();
    }),
    effect(() => {
      void shelfChanges.value;
      void readExpiring();
    }),
    effect(() => {
      void shelfChanges.value;
      const materials = Object.values(route.value?.materials ?? {});
      void readPacks(materials);
    }),
    effect(() => {
      void [shelfChanges.value, planList.value, openPlan.value?.id];
      void lookThroughPlans();
    }),
  ];
  void readOrders();
  void readSuppliers();
  return () => ends.forEach((end) => end());
}

const inTurn = { orders: inOrder(), suppliers: inOrder(), expiring: inOrder(), packs: inOrder(), trace: inOrder() };

async function readOrders(): Promise<void> {
  const all = finishedOrders.value !== null;
  const answer = await inTurn.orders(call('orders.list', { all }));
  if (!answer) return;
  if (!answer.ok) {
    buySaid.value = troubleWords(answer);
    return;
  }
  const open = (one: OrderRow): boolean => one.count > one.received + one.cancelled;
  orders.value = answer.value.filter(open);
  if (all && finishedOrders.value !== null) finishedOrders.value = answer.value.filter((one) => !open(one));
}

async function readSuppliers(): Promise<void> {
  const answer = await inTurn.suppliers(call('suppliers.list', {}));
  if (answer?.ok) suppliers.value = answer.value;
}

async function readExpiring(): Promise<void> {
  const answer = await inTurn.expiring(call('lots.expiring', { days: SOON }));
  if (answer?.ok) expiring.value = answer.value;
}

async function readPacks(materials: readonly Material[]): Promise<void> {
  const answer = await inTurn.packs(call('packs.list', { materials: [...materials] }));
  if (answer?.ok) packRows.value = answer.value;
}

/** Calls a procedure and says what came of it; true where it went well. */
async function act<
  N extends 'packs.add' | 'packs.remove' | 'suppliers.set' | 'orders.place' | 'orders.cancel' | 'orders.receive',
>(name: N, input: ProcedureInput<N>, said: string): Promise<boolean> {
  const answer = await call(name, input);
  removedPack.value = null;
  buySaid.value = answer.ok ? said : troubleWords(answer);
  return answer.ok;
}

export function addPack(material: Material, pack: PackOffer): Promise<boolean> {
  return act('packs.add', { material, pack }, words.said.added);
}

/** The pack that was taken off the price list last, to be put back. */
export const removedPack = signal<Pick<PackRow, 'material' | 'pack'> | null>(null);

export async function removePack({ id, material, pack }: PackRow): Promise<void> {
  if (await act('packs.remove', { id }, words.said.removed)) removedPack.value = { material, pack };
}

/** Puts the pack that was taken off last on the price list again. */
export async function putPackBack(): Promise<void> {
  const back = removedPack.value;
  removedPack.value = null;
  if (back && !(await addPack(back.material, back.pack))) removedPack.value = back;
}

/** Keeps the least an order has to come to at a supplier; null where there is no such thing. */
export function keepLeastOrder(name: string, leastOrder: number | null): Promise<boolean> {
  return act('suppliers.set', { name, leastOrder }, words.said.leastOrder);
}

export interface ToOrder {
  readonly line: ShoppingLine;
  readonly option: BuyOption;
}

/** Marks what the options take as ordered, all of it in one write. */
export async function placeOrders(wanted: readonly ToOrder[], result: PlanResult): Promise<void> {
  const lines = wanted.flatMap(({ line, option }) => {
    const material = route.value?.materials[line.line.material];
    const steps = new Set([line.line, ...line.also].flatMap(({ uses }) => uses.map((use) => use.step)));
    const note = result.steps.flatMap((step) => (steps.has(step.id) ? [`${step.number} · ${step.title}`] : [])).join('; ');
    return option.packs.flatMap(({ material: _key, ...pack }, at) => {
      const count = option.cover?.counts[at] ?? 0;
      return count > 0 && material ? [{ material, pack, count, note: note.slice(0, 300) }] : [];
    });
  });
  if (lines.length === 0) return;
  await act('orders.place', { planId: openPlan.value?.id ?? null, lines }, words.said.ordered(lines.length));
}

/** Puts packs of an order on the shelf, each as a bottle. */
export async function receiveOrder(id: number, bottles: ProcedureInput<'orders.receive'>['bottles']): Promise<boolean> {
  const answer = await call('orders.receive', { id, bottles });
  buySaid.value = answer.ok ? words.said.received(answer.value.bottles.join(', ')) : troubleWords(answer);
  return answer.ok;
}

/** Looks at the finished orders, or no longer. */
export function showFinished(shown: boolean): void {
  if (shown === (finishedOrders.value !== null)) return;
  finishedOrders.value = shown ? [] : null;
  if (shown) void readOrders();
}

/** Takes back that packs came, with their bottles, or that they would not. */
export async function undoOrder(event: number): Promise<void> {
  const answer = await call('orders.undo', { event });
  buySaid.value = answer.ok ? words.said.takenBack(answer.value.bottles.join(', ')) : troubleWords(answer);
}

export function cancelOrder(id: number, count: number): Promise<boolean> {
  return act('orders.cancel', { id, count, reason: words.orders.cancelReason }, words.said.cancelled);
}

/** Looks where a lot went. */
export async function traceLot(asked: string): Promise<void> {
  const lot = asked.trim();
  if (lot === '') return;
  const answer = await inTurn.trace(call('lots.trace', { lot }));
  if (!answer) return;
  if (answer.ok) trace.value = { asked: lot, found: answer.value };
  else buySaid.value = troubleWords(answer);
}
