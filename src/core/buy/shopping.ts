import type { Facts } from '../matter/facts.ts';
import { factsOf } from '../matter/facts.ts';
import { type Form, NEAT, solventOf } from '../matter/form.ts';
import { type Replacement, replaceStrength } from '../matter/replace-strength.ts';
import { gramsPerMillilitre, massFraction } from '../matter/solution.ts';
import { canonicalJson } from '../canonical-json.ts';
import { grouped } from '../grouped.ts';
import { isShort } from './short.ts';
import { packsByMaterial } from '../plan/step-cost.ts';
import type { FetchLine, PlanResult } from '../plan/result.ts';
import type { Settings } from '../plan/settings.ts';
import type { Reference } from '../reference.ts';
import type { Route } from '../route/route.ts';
import { serviceOf } from '../shelf/serve.ts';
import type { Pack, Shelf } from '../shelf/shelf.ts';
import { formWords } from '../words/form-words.ts';
import { type Cover, leastCover } from './cover.ts';

export interface ShoppingInput {
  readonly result: PlanResult;
  readonly route: Route;
  readonly shelf: Shelf;
  readonly settings: Settings;
  readonly reference: Reference;
  /** Packs ordered and not there yet. */
  readonly onOrder: readonly { readonly pack: Pack; readonly count: number }[];
}

/** What a plan is short of, and how to buy it. */
export interface ShoppingLine {
  readonly line: FetchLine;
  /** Of what is short, in the line's unit: already ordered, and still to be bought. */
  readonly onOrder: number;
  readonly toBuy: number;
  /** Best first; those as asked before those of another strength. Empty where no pack is known. */
  readonly options: readonly BuyOption[];
}

/** How a pack stands to what is asked for. Only "as asked" is ever chosen by the program. */
export type PackService = 'as asked' | 'stronger' | 'other strength';

/** Packs of one form that would cover a line. */
export interface BuyOption {
  readonly service: PackService;
  readonly form: Form;
  readonly formWords: string;
  readonly unit: 'g' | 'mL';
  /** What is to be bought, in this form and unit. */
  readonly need: number;
  readonly packs: readonly Pack[];
  /** Null where the packs have no common measure coarse enough: nothing is said to be the least then. */
  readonly cover: Cover | null;
  /** The longest wait among the packs taken, days; null where one of them gives none. */
  readonly leadDays: number | null;
  /** Packs without a price, left out because others have one. */
  readonly unpriced: number;
  /** What another strength changes; null for what is as asked. */
  readonly change: Replacement | null;
}

/** The shopping list of a plan: per material and form the least cover from the packs that are known. Units as the lines have them. */
export function shoppingList(input: ShoppingInput): readonly ShoppingLine[] {
  const packs = packsByMaterial(input);
  const ordered = packsByMaterial({
    route: input.route,
    shelf: { ...input.shelf, packs: input.onOrder.map(({ pack }) => pack) },
  });
  return input.result.fetch.filter(isShort).map((line): ShoppingLine => {
    const material = input.route.materials[line.material];
    const short = line.short?.value ?? 0;
    if (!material) return { line, onOrder: 0, toBuy: short, options: [] };
    const facts = factsOf(material, input.reference);
    const onOrder = onOrderOf(line, facts, ordered.get(line.material) ?? [], input);
    const toBuy = Math.max(0, short - onOrder);
    return { line, onOrder, toBuy, options: optionsOf(line, facts, toBuy, packs.get(line.material) ?? [], input) };
  });
}

/** What the options chosen come to; lines without a known price are counted apart. */
export function shoppingTotal(lines: readonly ShoppingLine[]): { readonly cost: number; readonly unknown: number } {
  const open = lines.filter((one) => one.toBuy > 0);
  const costs = open.map((one) => chosenOption(one)?.cover?.cost ?? null);
  return {
    cost: Math.round(costs.reduce<number>((sum, one) => sum + (one ?? 0), 0) * 1e4) / 1e4,
    unknown: costs.filter((one) => one === null).length,
  };
}

/** The option the list proposes: the best of those as asked; null where there is none. */
export function chosenOption({ options }: ShoppingLine): BuyOption | null {
  return options.find((one) => one.service === 'as asked' && one.cover !== null) ?? null;
}

function onOrderOf(line: FetchLine, facts: Facts, packs: readonly Pack[], input: ShoppingInput): number {
  const counts = new Map(input.onOrder.map(({ pack, count }) => [pack, count]));
  return packs.reduce((sum, pack) => {
    if (serviceFor(line, facts, pack, input) !== 'as asked') return sum;
    const one = amountIn(facts, { form: pack.form ?? NEAT, unit: pack.unit }, line, pack.amount, input.reference);
    return sum + (one ?? 0) * (counts.get(pack) ?? 0);
  }, 0);
}

function optionsOf(
  line: FetchLine,
  facts: Facts,
  toBuy: number,
  packs: readonly Pack[],
  input: ShoppingInput,
): readonly BuyOption[] {
  const alike = grouped(packs, (pack) => `${canonicalJson(pack.form ?? NEAT)} ${pack.unit}`);
  const options = [...alike.values()].flatMap((same): readonly BuyOption[] => {
    const [first] = same;
    const service = first ? serviceFor(line, facts, first, input) : null;
    const form = first?.form ?? NEAT;
    const need = first ? amountIn(facts, line, { form, unit: first.unit }, toBuy, input.reference) : null;
    if (!first || service === null || need === null) return [];
    return [optionOf({ service, form, unit: first.unit, need }, same, line, facts, toBuy, input.reference)];
  });
  return options.sort(
    (one, other) =>
      SERVICES.indexOf(one.service) - SERVICES.indexOf(other.service) || worth(one, facts, input) - worth(other, facts, input),
  );
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
  const days = packs.flatMap((pack, at) => ((cover?.counts[at] ?? 0) > 0 ? [pack.leadDays ?? null] : []));
  const figure = { label: `${line.name} to buy`, value: toBuy, digits: 3, from: { kind: 'entered', where: 'short' } } as const;
  return {
    ...one,
    formWords: formWords(one.form),
    packs,
    cover,
    leadDays: days.length === 0 || days.includes(null) ? null : Math.max(...days.map(Number)),
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

/** How a pack stands to a line; null where it is something else, or too impure. */
function serviceFor(line: FetchLine, facts: Facts, pack: Pack, { settings, reference }: ShoppingInput): PackService | null {
  const form = pack.form ?? NEAT;
  if (form.kind === 'unknown' || line.form.kind === 'unknown') return null;
  if (form.kind === 'neat' && (form.assayPercent ?? 100) < (line.leastAssayPercent ?? 0)) return null;
  const bottle = { id: '', material: line.material, form, left: pack.amount, unit: pack.unit };
  const service = serviceOf(bottle, line.form, facts, settings.strengthMatchPercent, reference);
  if (service === 'serves') return 'as asked';
  if (service === 'stronger') return 'stronger';
  const solvents = [form, line.form].flatMap((one) => (one.kind === 'solution' ? [solventOf(one)] : []));
  return new Set(solvents).size === 1 ? 'other strength' : null;
}

interface InForm {
  readonly form: Form;
  readonly unit: 'g' | 'mL';
}

/** How much of one form and unit stands for an amount of another: as much of the active material. Null where it is not known. */
function amountIn(facts: Facts, from: InForm, to: InForm, amount: number, reference: Reference): number | null {
  const sameForm = canonicalJson(from.form) === canonicalJson(to.form);
  if (sameForm && from.unit === to.unit) return amount;
  const grams = (of: InForm): number | null => {
    if (of.unit === 'g') return 1;
    const density = gramsPerMillilitre(facts, of.form, reference);
    return density.ok ? density.figure.value : null;
  };
  const active = (of: InForm): number | null => {
    if (sameForm) return 1;
    const part = massFraction(facts, of.form, reference);
    return part.ok ? part.figure.value : null;
  };
  const [a, b, c, d] = [grams(from), active(from), grams(to), active(to)];
  return a === null || b === null || c === null || d === null || c * d === 0 ? null : (amount * a * b) / (c * d);
}
