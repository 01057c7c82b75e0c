import { moneyText, needText, optionLines, sharedText, supplierText, thinnedTexts, withinTexts } from '../buy/buy-text.ts';
import { chosenOption } from '../buy/buy-option.ts';
import { type ShoppingLine, shoppingTotal } from '../buy/shopping.ts';
import type { WithinLeast } from '../buy/within-least.ts';
import { isShort } from '../buy/short.ts';
import type { Supplier } from '../shelf/pack.ts';
import { buyWords } from '../words/bench-words.ts';
import { shoppingWords } from '../words/shopping-words.ts';
import type { FetchLine } from '../plan/result.ts';
import { paperWords as words } from '../words/paper-words.ts';
import { amountText } from './amounts.ts';
import { onHandText } from './on-hand-text.ts';
import { type PaperContext, startOf, stepOf } from './context.ts';
import { passedOverText } from './passed-over-text.ts';
import type { BuyingLineEntry, BuyingPaper } from './paper.ts';

/** What the plan is short of, line by line in the plan's order, with the packs that cover it where they are known. */
export function buyingPaper(
  context: PaperContext,
  shopping: readonly ShoppingLine[] = [],
  suppliers: readonly Supplier[] = [],
  within: WithinLeast | null = null,
): BuyingPaper {
  const { result } = context;
  return {
    backweigh: 'paper',
    version: 1,
    kind: 'buying list',
    size: context.size,
    title: words.buy.title(result.name),
    plan: result.name,
    route: result.route,
    asOf: result.asOf,
    ...startOf(context),
    lines: result.fetch.filter(isShort).map((line, at) => buyingEntry(line, at + 1, context, shopping)),
    ...totalOf(shopping, context, suppliers),
    ...(within ? { within: [...withinTexts(within, context.mark)] } : {}),
  };
}

function totalOf(
  shopping: readonly ShoppingLine[],
  { mark }: PaperContext,
  known: readonly Supplier[],
): Pick<BuyingPaper, 'total'> {
  const { cost, unknown } = shoppingTotal(shopping);
  if (!shopping.some((one) => (chosenOption(one)?.cover?.cost ?? null) !== null)) return {};
  const { total } = shoppingWords;
  const suppliers = supplierText(shopping, mark, known);
  return {
    total: [
      total.title,
      total.cost(moneyText(cost, mark)),
      suppliers === '' ? '' : `(${suppliers})`,
      unknown === 0 ? '' : `(${total.unknown(unknown)})`,
    ]
      .join(' ')
      .trim(),
  };
}

/** What is still to be bought of a line: the packs proposed, or that it is on order. */
function buyLines(line: FetchLine, shopping: readonly ShoppingLine[], { mark }: PaperContext): Pick<BuyingLineEntry, 'buy'> {
  const one = shopping.find((each) => each.line.id === line.id);
  if (!one) return {};
  const ordered =
    one.onOrder > 0
      ? [shoppingWords.onOrder(amountText({ value: one.onOrder, unit: line.unit, digits: 4 }, mark), one.orderedFor)]
      : [];
  const option = one.toBuy > 0 ? chosenOption(one) : null;
  const other = one.toBuy > 0 && !one.coveredBy && !one.thinned?.leftOver ? otherLines(one, mark) : [];
  const shared = sharedText(one);
  return {
    buy: [
      ...ordered,
      ...(option ? optionLines(option, mark) : other),
      ...(shared === null ? [] : [shared]),
      ...thinnedTexts(one, mark),
    ],
  };
}

/** Where no pack is as asked for: the best of those known, and that it is another strength. */
function otherLines({ options }: ShoppingLine, mark: PaperContext['mark']): readonly string[] {
  const other = options.find((one) => one.service !== 'as asked' && one.cover !== null);
  return other
    ? [shoppingWords.onlyOther(shoppingWords.service[other.service](other.formWords)), ...optionLines(other, mark)]
    : [];
}

function buyingEntry(line: FetchLine, number: number, context: PaperContext, shopping: readonly ShoppingLine[]): BuyingLineEntry {
  const { result, mark } = context;
  return {
    ...buyLines(line, shopping, context),
    number,
    material: line.name,
    form: line.formWords,
    cas: result.materials[line.material]?.cas ?? '',
    // What has to be there at once: of it the shelf's is taken off.
    need: needText(line, mark),
    onHand: onHandText(line, mark),
    short: amountText(line.short, mark),
    why: line.comesBack
      ? buyWords.toBegin
      : line.passedOver
          .map((bottle) => `${bottle.lot === '' ? words.noLot : words.lot(bottle.lot)}: ${passedOverText(bottle, mark)}`)
          .join('. '),
    uses: usesText(line, result),
  };
}

function usesText(line: FetchLine, result: PaperContext['result']): string {
  const steps = [...new Set(line.uses.map((use) => use.step))].map((id) => stepOf(result, id));
  return steps
    .sort((a, b) => a.number - b.number)
    .map((step) => words.buy.step(step.number, step.title))
    .join('; ');
}
