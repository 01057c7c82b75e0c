import { moneyText, optionLines } from '../buy/buy-text.ts';
import { chosenOption, type ShoppingLine, shoppingTotal } from '../buy/shopping.ts';
import { isShort } from '../buy/short.ts';
import { shoppingWords } from '../words/shopping-words.ts';
import type { FetchLine } from '../plan/result.ts';
import { paperWords as words } from '../words/paper-words.ts';
import { amountText } from './amounts.ts';
import { type PaperContext, stepOf } from './context.ts';
import type { BuyingLineEntry, BuyingPaper } from './paper.ts';

/** What the plan is short of, line by line in the plan's order, with the packs that cover it where they are known. */
export function buyingPaper(context: PaperContext, shopping: readonly ShoppingLine[] = []): BuyingPaper {
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
    lines: result.fetch.filter(isShort).map((line, at) => buyingEntry(line, at + 1, context, shopping)),
    ...totalOf(shopping, context),
  };
}

function totalOf(shopping: readonly ShoppingLine[], { mark }: PaperContext): Pick<BuyingPaper, 'total'> {
  const { cost, unknown } = shoppingTotal(shopping);
  if (!shopping.some((one) => (chosenOption(one)?.cover?.cost ?? null) !== null)) return {};
  const { total } = shoppingWords;
  return {
    total: [total.title, total.cost(moneyText(cost, mark)), unknown === 0 ? '' : `(${total.unknown(unknown)})`].join(' ').trim(),
  };
}

/** What is still to be bought of a line: the packs proposed, or that it is on order. */
function buyLines(line: FetchLine, shopping: readonly ShoppingLine[], { mark }: PaperContext): Pick<BuyingLineEntry, 'buy'> {
  const one = shopping.find((each) => each.line.id === line.id);
  if (!one) return {};
  const ordered =
    one.onOrder > 0 ? [shoppingWords.onOrder(amountText({ value: one.onOrder, unit: line.unit, digits: 3 }, mark))] : [];
  const option = one.toBuy > 0 ? chosenOption(one) : null;
  return { buy: [...ordered, ...(option ? optionLines(option, mark) : [])] };
}

function buyingEntry(line: FetchLine, number: number, context: PaperContext, shopping: readonly ShoppingLine[]): BuyingLineEntry {
  const { result, mark } = context;
  return {
    ...buyLines(line, shopping, context),
    number,
    material: line.name,
    form: line.formWords,
    cas: result.materials[line.material]?.cas ?? '',
    need: amountText(line.need, mark),
    onHand: amountText(line.onHand, mark),
    short: amountText(line.short, mark),
    why: [...new Set(line.passedOver.map((bottle) => words.buy.passedOver[bottle.why]))].join('; '),
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
