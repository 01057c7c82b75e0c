import type { Facts } from '../matter/facts.ts';
import { factsOf } from '../matter/facts.ts';
import { NEAT } from '../matter/form.ts';
import { replaceStrength } from '../matter/replace-strength.ts';
import { gramsPerMillilitre } from '../matter/solution.ts';
import { canonicalJson } from '../canonical-json.ts';
import { grouped } from '../grouped.ts';
import { isShort } from './short.ts';
import { packsByMaterial } from '../plan/solve/step-cost.ts';
import type { FetchLine, PlanResult } from '../plan/result.ts';
import type { Settings } from '../plan/settings.ts';
import type { Reference } from '../reference.ts';
import type { Route } from '../route/route.ts';
import { onOrderByLine } from './on-order.ts';
import { type BuyOption, chosenOption, longestWait } from './buy-option.ts';
import { amountIn, type PackService, serviceFor } from './pack-service.ts';
import { withSharedOrders } from './shared-order.ts';
import { type Thinned, withThinned } from './thinned.ts';
import type { Pack } from '../shelf/pack.ts';
import type { Shelf } from '../shelf/shelf.ts';
import { formWords } from '../words/form-words.ts';
import { leastCover } from './cover.ts';

export interface ShoppingInput {
  readonly result: PlanResult;
  readonly route: Route;
  readonly shelf: Shelf;
  readonly settings: Settings;
  readonly reference: Reference;
  /** Packs ordered and not there yet. */
  readonly onOrder: readonly { readonly pack: Pack; readonly count: number; readonly forPlan?: string }[];
}

/** What a plan is short of, and how to buy it. */
export interface ShoppingLine {
  readonly line: FetchLine;
  /** Of what is short, in the line's unit: already ordered, and still to be bought. */
  readonly onOrder: number;
  /** Other plans it was ordered for; told, since packs are not held for a plan. */
  readonly orderedFor: readonly string[];
  readonly toBuy: number;
  /** Best first; those as asked before those of another strength. Empty where no pack is known. */
  readonly options: readonly BuyOption[];
  /** Other lines of the material that the first option covers as well: one order for all of them. */
  readonly also: readonly FetchLine[];
  /** The line whose order covers this one too; null where this one has its own. */
  readonly coveredBy: FetchLine | null;
  /** What it could be made up from that is bought anyhow. */
  readonly thinned: Thinned | null;
}

/** The shopping list of a plan: per material and form the least cover from the packs that are known. Units as the lines have them. */
export function shoppingList(input: ShoppingInput): readonly ShoppingLine[] {
  const packs = packsByMaterial(input);
  const ordered = packsByMaterial({
    route: input.route,
    shelf: { ...input.shelf, packs: input.onOrder.map(({ pack }) => pack) },
  });
  const short = input.result.fetch.filter(isShort);
  const orders = onOrderByLine(short, ordered, input);
  const apart = short.map((line): ShoppingLine => {
    const material = input.route.materials[line.material];
    const missing = line.short?.value ?? 0;
    const alone = { also: [], coveredBy: null, thinned: null };
    if (!material) return { line, onOrder: 0, orderedFor: [], toBuy: missing, options: [], ...alone };
    const facts = factsOf(material, input.reference);
    const { onOrder, orderedFor } = orders.get(line.id) ?? { onOrder: 0, orderedFor: [] };
    const toBuy = Math.max(0, missing - onOrder);
    const options = optionsOf(line, facts, toBuy, packs.get(line.material) ?? [], input);
    return { line, onOrder, orderedFor, toBuy, options, ...alone };
  });
  return withThinned(withSharedOrders(apart, packs, input), ordered, input);
}

/** What the options chosen come to; lines without a known price are counted apart. */
export function shoppingTotal(lines: readonly ShoppingLine[]): { readonly cost: number; readonly unknown: number } {
  const open = lines.filter((one) => one.toBuy > 0 && one.coveredBy === null);
  const costs = open.map((one) => chosenOption(one)?.cover?.cost ?? null);
  return {
    cost: Math.round(costs.reduce<number>((sum, one) => sum + (one ?? 0), 0) * 1e4) / 1e4,
    unknown: costs.filter((one) => one === null).length,
  };
}

function optionsOf(
  line: FetchLine,
  facts: Facts,
  toBuy: number,
  packs: readonly Pack[],
  input: ShoppingInput,
): readonly BuyOption[] {
  const alike = grouped(packs, (pack) => `${canonicalJson(pack.form ?? NEAT)} ${pack.unit}`);
  const single = [...alike.values()].flatMap((same): readonly BuyOption[] => {
    const [first] = same;
    const service = first ? serviceFor(line, facts, first, input) : null;
    const form = first?.form ?? NEAT;
    const need = first ? amountIn(facts, line, { form, unit: first.unit }, toBuy, input.reference) : null;
    if (!first || service === null || need === null) return [];
    return [optionOf({ service, form, unit: first.unit, need }, same, line, facts, toBuy, input.reference)];
  });
  const asAsked = single.filter((one) => one.service === 'as asked');
  const mixed = asAsked.length > 1 ? mixedOption(asAsked, line, facts, toBuy, input) : null;
  return [...(mixed ? [mixed] : []), ...single].sort(
    (one, other) =>
      SERVICES.indexOf(one.service) - SERVICES.indexOf(other.service) || worth(one, facts, input) - worth(other, facts, input),
  );
}

/**
 * Packs of several assays, strengths within the margin, or units together, each counted by what it is worth of what is
 * asked for; null where that is not known of one of them, or it takes packs of one form only: that is an option of its own.
 */
function mixedOption(
  alike: readonly BuyOption[],
  line: FetchLine,
  facts: Facts,
  toBuy: number,
  { reference }: ShoppingInput,
): BuyOption | null {
  const all = alike.flatMap((one) => one.packs.map((pack) => ({ pack, of: one })));
  const priced = all.some(({ pack }) => pack.price !== undefined) ? all.filter(({ pack }) => pack.price !== undefined) : all;
  const worths = priced.map(({ pack }) =>
    amountIn(facts, { form: pack.form ?? NEAT, unit: pack.unit }, line, pack.amount, reference),
  );
  // A pack is never taken for more than it is.
  const amounts = worths.map((one) => Math.floor((one ?? 0) * 1e6 + 1e-3) / 1e6);
  if (amounts.some((one) => one <= 0)) return null;
  const cover = leastCover(
    toBuy,
    priced.map(({ pack }, at) => ({ amount: amounts[at] ?? 0, price: pack.price ?? null, minimum: pack.minimum ?? 1 })),
  );
  const taken = new Set(priced.flatMap(({ of }, at) => ((cover?.counts[at] ?? 0) > 0 ? [of] : [])));
  if (!cover || taken.size < 2) return null;
  const packs = priced.map(({ pack }) => pack);
  return {
    service: 'as asked',
    form: line.form,
    formWords: [...taken].map((one) => one.formWords).join(' + '),
    unit: line.unit,
    need: toBuy,
    packs,
    cover,
    leadDays: longestWait(packs, cover),
    unpriced: all.length - priced.length,
    change: null,
    mixed: true,
  };
}

const SERVICES: readonly PackService[] = ['as asked', 'stronger', 'other strength'];

/** Money where it is known, else (far behind) the grams that would be bought. */
function worth({ cover, form, unit }: BuyOption, facts: Facts, { reference }: ShoppingInput): number {
  if (!cover) return Infinity;
  if (cover.cost !== null) return cover.cost;
  const density = unit === 'g' ? null : gramsPerMillilitre(facts, form, reference);
  return 1e12 + cover.quantity * (density?.ok ? density.figure.value : 1);
}

function optionOf(
  one: Pick<BuyOption, 'service' | 'form' | 'unit' | 'need'>,
  same: readonly Pack[],
  line: FetchLine,
  facts: Facts,
  toBuy: number,
  reference: Reference,
): BuyOption {
  const priced = same.filter((pack) => pack.price !== undefined);
  const packs = priced.length > 0 ? priced : same;
  const cover = leastCover(
    one.need,
    packs.map((pack) => ({ amount: pack.amount, price: pack.price ?? null, minimum: pack.minimum ?? 1 })),
  );
  const figure = { label: `${line.name} to buy`, value: toBuy, digits: 3, from: { kind: 'entered', where: 'short' } } as const;
  return {
    ...one,
    formWords: formWords(one.form),
    packs,
    cover,
    leadDays: longestWait(packs, cover),
    mixed: false,
    unpriced: same.length - packs.length,
    change:
      one.service === 'as asked' || toBuy === 0
        ? null
        : replaceStrength(
            facts,
            {
              form: line.form,
              amount:
                line.unit === 'g'
                  ? { by: 'g', figure: { ...figure, unit: 'g' } }
                  : { by: 'mL', figure: { ...figure, unit: 'mL' } },
            },
            one.form,
            reference,
          ),
  };
}
