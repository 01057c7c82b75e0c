import type { LotTrace } from '../port/buy.ts';
import type { PlanResult } from '../plan/result.ts';
import { formWords } from '../words/form-words.ts';
import { NEAT } from '../matter/form.ts';
import { shoppingWords as words } from '../words/shopping-words.ts';
import { foldName } from '../matter/facts.ts';
import type { Supplier } from '../shelf/pack.ts';
import { sharedText } from './buy-text.ts';
import { chosenOption } from './buy-option.ts';
import type { ShoppingLine } from './shopping.ts';

export type Cell = string | number;

/** The shopping list as rows of a table file, the heads first: a row a pack kind; numbers stay numbers. */
export function shoppingRows(
  lines: readonly ShoppingLine[],
  result: PlanResult,
  suppliers: readonly Supplier[] = [],
): readonly (readonly Cell[])[] {
  const least = new Map(suppliers.map(({ name, leastOrder }) => [foldName(name), leastOrder]));
  return [words.csvColumns, ...lines.flatMap((one) => rowsOf(one, result, least))];
}

function rowsOf(one: ShoppingLine, result: PlanResult, least: ReadonlyMap<string, number>): readonly (readonly Cell[])[] {
  const { line } = one;
  const steps = new Set(line.uses.map((use) => use.step));
  const uses = result.steps.filter((step) => steps.has(step.id)).map((step) => `${step.number} ${step.title}`);
  const cas = result.materials[line.material]?.cas ?? '';
  const head = [line.name, cas, line.formWords, rounded(one.toBuy), line.unit];
  const option = chosenOption(one);
  const taken = (option?.packs ?? []).flatMap((pack, at) => {
    const count = option?.cover?.counts[at] ?? 0;
    return count === 0 ? [] : [{ pack, count }];
  });
  if (taken.length === 0) return [[...head, sharedText(one) ?? '', '', '', '', '', '', '', '', '', '', '', uses.join('; ')]];
  return taken.map(({ pack, count }, at) => [
    ...head,
    formWords(pack.form ?? NEAT),
    count,
    pack.amount,
    pack.unit,
    pack.supplier ?? '',
    pack.price ?? '',
    pack.price === undefined ? '' : rounded(pack.price * count),
    at === 0 ? (option?.cover?.leftOver ?? '') : '',
    pack.leadDays ?? '',
    pack.minimum ?? '',
    least.get(foldName(pack.supplier ?? '')) ?? '',
    uses.join('; '),
  ]);
}

/** Where a lot went, as rows of a table file, the heads first. */
export function lotRows({ uses }: LotTrace): readonly (readonly Cell[])[] {
  return [
    words.lot.csvColumns,
    ...uses.map((use) => [
      use.at.slice(0, 10),
      use.bottle,
      use.lot,
      use.material,
      use.amount,
      use.unit,
      use.carriedFrom === null ? use.reason : words.lot.carried(use.carriedFrom),
      use.run === null ? '' : words.lot.run(use.plan, use.sheet, use.run),
      use.made.join('; '),
      use.depth,
    ]),
  ];
}

function rounded(value: number): number {
  return Number(value.toPrecision(9));
}
