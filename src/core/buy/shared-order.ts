import { canonicalJson } from '../canonical-json.ts';
import { grouped } from '../grouped.ts';
import type { Facts } from '../matter/facts.ts';
import { factsOf } from '../matter/facts.ts';
import { NEAT } from '../matter/form.ts';
import type { FetchLine } from '../plan/result.ts';
import type { Reference } from '../reference.ts';
import type { Pack } from '../shelf/pack.ts';
import { formWords } from '../words/form-words.ts';
import { bestAsAsked, type BuyOption, longestWait } from './buy-option.ts';
import type { Cover } from './cover.ts';
import { amountIn, serviceFor } from './pack-service.ts';
import { sharedCover, type SharedPack } from './shared-cover.ts';
import type { ShoppingInput, ShoppingLine } from './shopping.ts';

/**
 * Lines of one material get one order together where that is less than an order for each: the same bottle may serve a charge that
 * asks for a purity and one that does not. The line that asks for most has the order; the others say whose order covers them.
 */
export function withSharedOrders(
  lines: readonly ShoppingLine[],
  packs: ReadonlyMap<string, readonly Pack[]>,
  input: ShoppingInput,
): readonly ShoppingLine[] {
  const open = lines.filter((one) => one.toBuy > 0);
  const shared = new Map<string, ShoppingLine>();
  for (const [material, group] of grouped(open, ({ line }) => line.material)) {
    if (group.length < 2) continue;
    for (const one of sharedBy(group, packs.get(material) ?? [], input)) shared.set(one.line.id, one);
  }
  return lines.map((one) => shared.get(one.line.id) ?? one);
}

/** A pack, and which of the lines it serves. */
export interface Candidate {
  readonly pack: Pack;
  readonly serves: readonly number[];
}

/** The lines that share an order, as they stand then; none where orders apart are no dearer. */
function sharedBy(group: readonly ShoppingLine[], packs: readonly Pack[], input: ShoppingInput): readonly ShoppingLine[] {
  const material = input.route.materials[group[0]?.line.material ?? ''];
  if (!material) return [];
  const facts = factsOf(material, input.reference);
  const fits = (one: ShoppingLine, pack: Pack): boolean => serviceFor(one.line, facts, pack, input) === 'as asked';
  const served = group
    .filter((one) => packs.some((pack) => fits(one, pack)))
    .toSorted((one, other) => (other.line.leastAssayPercent ?? 0) - (one.line.leastAssayPercent ?? 0));
  const fitting = packs.map((pack) => ({ pack, serves: served.flatMap((one, at) => (fits(one, pack) ? [at] : [])) }));
  if (!fitting.some(({ serves }) => serves.length > 1)) return [];
  const known = fitting.filter(({ serves }) => serves.length > 0);
  const priced = known.filter(({ pack }) => pack.price !== undefined);
  const all = priced.length > 0 ? priced : known;
  const option = sharedOption(served, all, facts, input);
  const [leader, ...others] = served;
  if (!option || !leader || !isLess(option, served, facts, input)) return [];
  const withAll = { ...option, unpriced: known.length - all.length };
  return [
    { ...leader, options: [withAll, ...leader.options], also: others.map(({ line }) => line) },
    ...others.map((one) => ({ ...one, coveredBy: leader.line })),
  ];
}

/** What the packs that cover all of the lines come to, in the form and unit of the first; null where that is not known. */
function sharedOption(
  served: readonly ShoppingLine[],
  all: readonly Candidate[],
  facts: Facts,
  { reference }: ShoppingInput,
): BuyOption | null {
  const line = served[0]?.line;
  const counted = countedIn(served, all, facts, reference);
  const cover = counted && sharedCover(counted.needs, counted.packs);
  return line && counted && cover ? togetherOption(line, all, counted.needs, cover) : null;
}

/** Needs and packs by what they are worth of the first line's form and unit; null where that is not known of one. */
export function countedIn(
  served: readonly ShoppingLine[],
  all: readonly Candidate[],
  facts: Facts,
  reference: Reference,
): { readonly needs: readonly number[]; readonly packs: readonly SharedPack[] } | null {
  const line = served[0]?.line;
  if (!line) return null;
  const needs = served.map((one) => amountIn(facts, one.line, line, one.toBuy, reference));
  const worths = all.map(({ pack }) =>
    amountIn(facts, { form: pack.form ?? NEAT, unit: pack.unit }, line, pack.amount, reference),
  );
  // A pack is never taken for more than it is.
  const amounts = worths.map((one) => Math.floor((one ?? 0) * 1e6 + 1e-3) / 1e6);
  if (needs.some((one) => one === null) || amounts.some((one) => one <= 0)) return null;
  const packs = all.map(({ pack, serves }, at) => ({
    amount: amounts[at] ?? 0,
    price: pack.price ?? null,
    minimum: pack.minimum ?? 1,
    serves,
  }));
  return { needs: needs.map(Number), packs };
}

/** Packs that cover several needs together, as an option of the first line's. */
export function togetherOption(line: FetchLine, all: readonly Candidate[], needs: readonly number[], cover: Cover): BuyOption {
  const packs = all.map(({ pack }) => pack);
  const taken = packs.filter((_, at) => (cover.counts[at] ?? 0) > 0);
  const asAsked = canonicalJson(line.form);
  return {
    service: 'as asked',
    form: line.form,
    formWords: [...new Set(taken.map(({ form = NEAT }) => formWords(form)))].join(' + '),
    unit: line.unit,
    need: needs.reduce((sum, one) => sum + one, 0),
    packs,
    cover,
    leadDays: longestWait(packs, cover),
    unpriced: 0,
    change: null,
    mixed: taken.some(({ form = NEAT, unit }) => unit !== line.unit || canonicalJson(form) !== asAsked),
  };
}

/** Whether one order for all is less than one for each: in money, else in what is bought, else in packs. */
function isLess({ cover }: BuyOption, served: readonly ShoppingLine[], facts: Facts, { reference }: ShoppingInput): boolean {
  const line = served[0]?.line;
  const apart = served.map((one) => ({ one, option: bestAsAsked(one.options) }));
  const covers = apart.flatMap(({ option }) => option?.cover ?? []);
  if (!cover || !line) return false;
  if (covers.length < served.length) return true;
  const costOf = (one: Cover): number => one.cost ?? 0;
  const quantity = apart.reduce(
    (sum, { option }) => sum + (amountIn(facts, option ?? line, line, option?.cover?.quantity ?? 0, reference) ?? Infinity),
    0,
  );
  const packs = covers.reduce((sum, one) => sum + one.packs, 0);
  const money = covers.reduce((sum, one) => sum + costOf(one), 0) - costOf(cover);
  if (Math.abs(money) > 1e-6) return money > 0;
  const more = quantity - cover.quantity;
  return Math.abs(more) > 1e-5 ? more > 0 : packs > cover.packs;
}
