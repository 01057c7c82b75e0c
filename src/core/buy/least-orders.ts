import { leastCover } from './cover.ts';
import { jointsOf, leastFrom, type SharedPack, sharedCover } from './shared-cover.ts';

/** A pack of one supplier. Money for one is known. */
export interface OrderPack extends SharedPack {
  readonly price: number;
  /** Index of its supplier among those with a least order; null where it has none. */
  readonly supplier: number | null;
}

/** Needs of one material, and the packs that serve them, as `sharedCover` has them. */
export interface OrderGroup {
  readonly needs: readonly number[];
  readonly packs: readonly OrderPack[];
}

export interface OrderChoice {
  /** How many of each pack, by group, in the order given. */
  readonly counts: readonly (readonly number[])[];
  /** Money. */
  readonly cost: number;
  /** No way of keeping the least orders costs less, money; the cost itself where that is proved to be the least. */
  readonly atLeast: number;
}

const MONEY = 1e4;
const FINE = 1e6;
/** States looked at in all, whatever the limits of cost; some tenths of a second. */
const MOST_STATES = 60_000;
/** Sets of suppliers left out are tried up to so many suppliers. */
const MOST_LEFT_OUT = 6;
const MOST_LIMITS = 24;

/** A way to buy what was gone through so far. */
interface State {
  /** At each supplier with a least order, ten-thousandths of money; no more than that order. */
  readonly spent: readonly number[];
  /** What is still open of each joint need of the group. */
  readonly open: readonly number[];
  readonly cost: number;
  /** Quantities, each by what is needed, and packs: who comes first among equals. */
  readonly share: number;
  readonly packs: number;
  readonly before: Taken | null;
}

interface Taken {
  readonly group: number;
  readonly pack: number;
  readonly count: number;
  readonly before: Taken | null;
}

/** A group in whole numbers, the packs that give most for their money first. */
interface Whole {
  readonly packs: readonly {
    readonly at: number;
    readonly amount: number;
    readonly price: number;
    readonly minimum: number;
    readonly supplier: number | null;
  }[];
  readonly joints: ReturnType<typeof jointsOf>;
  /** From one pack on: what is still open costs at least so much. */
  readonly rest: readonly ReturnType<typeof leastFrom>[];
  readonly need: number;
  /** Least cost by itself, whatever the least orders. */
  readonly least: number;
}

/**
 * The packs that cover every group at least cost where an order at a supplier comes to nothing, or to its least order: another
 * supplier, or more than is needed there, whichever costs less. Ties: the least quantity (each material's by its need), then
 * the fewest packs. Every way that costs up to a limit is gone through (two ways that leave the same open and have spent the
 * same are one), and the limit is raised until a way is found: it is then the least. Where that would be too many, a way that
 * is put together simply, and the last limit as what none costs less than.
 * @param least of each supplier, money, > 0. @returns null where a need is served by no pack, or no way was found.
 */
export function withLeastOrders(groups: readonly OrderGroup[], least: readonly number[]): OrderChoice | null {
  if (groups.some(({ needs, packs }) => needs.some((_, at) => !packs.some(({ serves }) => serves.includes(at))))) return null;
  const wholes = groups.map(wholeOf);
  const orders = least.map((one) => Math.round(one * MONEY));
  const floor = wholes.reduce((sum, one) => sum + one.least, 0);
  const simple = simpleWay(wholes, orders);
  const budget = { left: MOST_STATES };
  let known = floor;
  for (let nth = 0; nth < MOST_LIMITS; nth += 1) {
    const limit = nth === 0 ? floor : floor + Math.max(MONEY, floor / 64) * 2 ** (nth - 1);
    const found = search(wholes, orders, Math.min(limit, simple?.cost ?? Infinity), budget);
    if (found === 'too many') break;
    if (found) return choiceOf(groups, found, found.cost);
    known = limit;
  }
  return simple && choiceOf(groups, simple, Math.min(simple.cost, known));
}

/** With each set of suppliers left out: the packs that give most for their money, and more of one kind up to the least order. */
function simpleWay(groups: readonly Whole[], least: readonly number[]): State | null {
  const sets = least.length > MOST_LEFT_OUT ? 1 : 2 ** least.length;
  let best: State | null = null;
  for (let set = 0; set < sets; set += 1) {
    const way = simpleFrom(groups, least, (supplier) => supplier === null || Math.floor(set / 2 ** supplier) % 2 === 0);
    if (way && (!best || compare(way, best) < 0)) best = way;
  }
  return best;
}

function simpleFrom(
  groups: readonly Whole[],
  least: readonly number[],
  from: (supplier: number | null) => boolean,
): State | null {
  let way = startOf(least);
  for (const [group, whole] of groups.entries()) {
    // Each need apart, so that nothing hangs on how a pack is shared out.
    for (const joint of whole.joints.filter(({ single }) => single)) {
      const nth = whole.packs.findIndex(({ supplier }, at) => joint.reaches[at] && from(supplier));
      const pack = whole.packs[nth];
      if (!pack) return null;
      way = bought(way, group, whole, nth, Math.max(pack.minimum, Math.ceil(joint.need / pack.amount)), least);
    }
  }
  const kinds = groups.flatMap((whole, group) => whole.packs.map((pack, nth) => ({ whole, group, pack, nth })));
  for (const [supplier, order] of least.entries()) {
    const open = order - (way.spent[supplier] ?? 0);
    if (open === order || open === 0) continue;
    const more = kinds
      .filter(({ pack }) => pack.supplier === supplier && pack.price > 0)
      .map((one) => ({ ...one, count: Math.max(one.pack.minimum, Math.ceil(open / one.pack.price)) }))
      .toSorted((one, other) => one.count * one.pack.price - other.count * other.pack.price)[0];
    if (more) way = bought(way, more.group, more.whole, more.nth, more.count, least);
  }
  return way;
}

function wholeOf({ needs, packs }: OrderGroup): Whole {
  const order = packs.map((_, at) => at).sort((a, b) => rate(packs[a]) - rate(packs[b]) || a - b);
  const sorted = order.flatMap((at) => packs[at] ?? []);
  const whole = sorted.map(({ amount, price, minimum = 1, supplier }, nth) => ({
    at: order[nth] ?? 0,
    amount: Math.round(amount * FINE),
    price: Math.round(price * MONEY),
    minimum,
    supplier,
  }));
  const joints = jointsOf(needs, sorted);
  const rest = [...whole, null].map((_, from) => leastFrom(whole, joints, from));
  const [need = 0, ...others] = needs;
  const alone = (others.length === 0 ? leastCover(need, packs) : sharedCover(needs, packs))?.cost ?? null;
  const open = joints.map(({ need }) => need);
  const least = alone === null ? (rest[0]?.(open)?.[0] ?? 0) : Math.round(alone * MONEY);
  return { packs: whole, joints, rest, need: needs.reduce((sum, one) => sum + one * FINE, 0), least };
}

const rate = (pack: OrderPack | undefined): number => (pack ? pack.price / pack.amount : Infinity);

const startOf = (least: readonly number[]): State => ({
  spent: least.map(() => 0),
  open: [],
  cost: 0,
  share: 0,
  packs: 0,
  before: null,
});

/** The best of all ways that cost no more than a limit. */
function search(
  groups: readonly Whole[],
  least: readonly number[],
  limit: number,
  budget: { left: number },
): State | null | 'too many' {
  let states: readonly State[] = [startOf(least)];
  for (const [group, whole] of groups.entries()) {
    const later = groups.slice(group + 1).reduce((sum, one) => sum + one.least, 0);
    states = states.map((state) => ({ ...state, open: whole.joints.map(({ need }) => need) }));
    for (const nth of whole.packs.keys()) {
      const after = new Map<string, State>();
      for (const state of states) {
        for (const one of withPack(state, group, whole, nth, least, limit)) {
          budget.left -= 1;
          if (budget.left < 0) return 'too many';
          if (boundOf(one, whole, nth + 1, later, least) > limit) continue;
          const key = `${one.spent.join()}|${one.open.join()}`;
          const there = after.get(key);
          if (!there || compare(one, there) < 0) after.set(key, one);
        }
      }
      states = [...after.values()];
    }
  }
  const kept = states.filter(({ spent }) => spent.every((one, at) => one === 0 || one === least[at]));
  return kept.reduce<State | null>((best, one) => (best && compare(best, one) <= 0 ? best : one), null);
}

/** A state with none of a pack, and with as many of it as may be of use: to cover, or to reach its supplier's least order. */
function* withPack(
  state: State,
  group: number,
  whole: Whole,
  nth: number,
  least: readonly number[],
  limit: number,
): Iterable<State> {
  yield state;
  const pack = whole.packs[nth];
  if (!pack) return;
  const { amount, price, minimum, supplier } = pack;
  const open = state.open.reduce((most, one, at) => (whole.joints[at]?.reaches[nth] ? Math.max(most, one) : most), 0);
  const order = supplier === null ? 0 : (least[supplier] ?? 0) - (state.spent[supplier] ?? 0);
  const most = Math.max(minimum, Math.ceil(open / amount), price > 0 ? Math.ceil(order / price) : 0);
  for (let count = minimum; count <= most && state.cost + count * price <= limit; count += 1) {
    yield bought(state, group, whole, nth, count, least);
  }
}

/** A state with so many more of a pack. */
function bought(state: State, group: number, whole: Whole, nth: number, count: number, least: readonly number[]): State {
  const { at = 0, amount = 0, price = 0, supplier = null } = whole.packs[nth] ?? {};
  return {
    spent: state.spent.map((one, by) => (by === supplier ? Math.min(least[by] ?? 0, one + count * price) : one)),
    open: state.open.map((one, joint) => (whole.joints[joint]?.reaches[nth] ? Math.max(0, one - count * amount) : one)),
    cost: state.cost + count * price,
    share: state.share + (count * amount) / whole.need,
    packs: state.packs + count,
    before: { group, pack: at, count, before: state.before },
  };
}

/** What a way comes to at least: what is open still costs something, and an order that was begun has to reach its least. */
function boundOf({ cost, spent, open }: State, whole: Whole, from: number, later: number, least: readonly number[]): number {
  const rest = whole.rest[from]?.(open)?.[0];
  if (rest === undefined) return Infinity;
  const begun = spent.reduce((sum, one, at) => sum + (one > 0 ? (least[at] ?? 0) - one : 0), 0);
  return cost + Math.max(rest + later, begun);
}

function compare(one: State, other: State): number {
  const share = one.share - other.share;
  return one.cost - other.cost || (Math.abs(share) > 1e-9 ? share : 0) || one.packs - other.packs;
}

function choiceOf(groups: readonly OrderGroup[], { cost, before }: State, atLeast: number): OrderChoice {
  const counts = groups.map(({ packs }) => packs.map(() => 0));
  for (let taken = before; taken; taken = taken.before) {
    const of = counts[taken.group];
    if (of) of[taken.pack] = (of[taken.pack] ?? 0) + taken.count;
  }
  return { counts, cost: cost / MONEY, atLeast: atLeast / MONEY };
}
