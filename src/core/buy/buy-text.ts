import { NEAT } from '../matter/form.ts';
import { amountText } from '../paper/amounts.ts';
import type { FetchLine } from '../plan/result.ts';
import type { PackOffer } from '../port/buy.ts';
import { type DecimalMark, formatAmount, formatDecimals, shownUnit } from '../quantity/format.ts';
import { formWords } from '../words/form-words.ts';
import { shoppingWords as words } from '../words/shopping-words.ts';
import type { Supplier } from '../shelf/pack.ts';
import { type BuyOption, chosenOption } from './buy-option.ts';
import type { ShoppingLine } from './shopping.ts';
import { supplierTotals } from './suppliers.ts';
import type { WithinLeast } from './within-least.ts';

/** Money to two decimals; the currency is the person's own. */
export function moneyText(value: number, mark: DecimalMark): string {
  return formatDecimals(value, 2, mark);
}

/**
 * What has to be there at once, with the decimals of what is short of it, so that it is what is on hand and what is
 * short together: "351.7 mL needed, 250 mL on hand" beside 101.7 mL.
 */
export function needText({ peak, short }: Pick<FetchLine, 'peak' | 'short'>, mark: DecimalMark): string {
  const beside = short && formatAmount(short);
  const { unit, factor } = shownUnit(peak.value, peak.unit);
  if (!beside || beside.unit !== unit) return amountText(peak, mark);
  return `${formatDecimals(peak.value * factor, beside.text.split('.')[1]?.length ?? 0, mark)}\u00a0${unit}`;
}

/** A pack's size as it was typed, never rounded: "2.5 L". @param pack g or mL. */
export function packSizeText({ amount: size, unit }: Pick<PackOffer, 'amount' | 'unit'>, mark: DecimalMark): string {
  const large = size >= 1000;
  const shown = String(Number((large ? size / 1000 : size).toPrecision(12)));
  return `${mark === ',' ? shown.replace('.', ',') : shown}\u00a0${large ? (unit === 'g' ? 'kg' : 'L') : unit}`;
}

/** What is known of a pack besides its size: "68 % w/w, North Ltd, 24.50, in 5 days, at least 2". */
export function packFactsText(pack: PackOffer, named: boolean, mark: DecimalMark): string {
  return listed(', ', [
    named ? formWords(pack.form ?? NEAT) : '',
    pack.supplier ?? '',
    pack.price !== undefined ? moneyText(pack.price, mark) : named ? words.noPrice : '',
    pack.leadDays === undefined ? '' : words.wait(pack.leadDays),
    pack.minimum === undefined ? '' : words.least(pack.minimum),
  ]);
}

/** What an option costs, leaves over and how long it takes, as one line. */
export function coverFactsText({ cover, unit, leadDays, unpriced }: BuyOption, mark: DecimalMark): string {
  if (!cover) return words.notProved;
  return listed(' · ', [
    cover.cost === null ? words.noPrice : words.cost(moneyText(cover.cost, mark)),
    cover.leftOver > 0 ? words.leftOver(amountText({ value: cover.leftOver, unit, digits: 3 }, mark)) : words.nothingLeft,
    leadDays === null ? words.waitUnknown : words.wait(leadDays),
    unpriced === 0 ? '' : words.unpriced(unpriced),
  ]);
}

/** What the list comes to at each supplier: "of it North Ltd 23.40 (least order 50.00: 26.60 below it), South 31.00"; empty where none has a price. */
export function supplierText(lines: readonly ShoppingLine[], mark: DecimalMark, suppliers: readonly Supplier[] = []): string {
  const parts = supplierTotals(lines, suppliers).map(({ supplier, cost, leastOrder, below }) => {
    const sum = words.total.supplier(supplier, moneyText(cost, mark));
    return below > 0 ? words.total.belowLeast(sum, moneyText(leastOrder ?? 0, mark), moneyText(below, mark)) : sum;
  });
  return parts.length === 0 ? '' : words.total.bySupplier(listed(', ', parts));
}

/** What an order of one line does for others: "covers “nitric acid 68 % w/w” as well"; null where it does nothing for them. */
export function sharedText({ also, coveredBy }: ShoppingLine): string | null {
  if (coveredBy) return words.coveredBy(lineText(coveredBy));
  return also.length === 0 ? null : words.coversAlso(listed(', ', also.map(lineText)));
}

/** A line as it stands in the list: “nitric acid 68 % w/w”. */
function lineText({ name, formWords: form }: FetchLine): string {
  return words.line(name, form);
}

/** What a line could be made up from that is bought anyhow, a sentence each; none where it has its own packs. */
export function thinnedTexts({ thinned }: ShoppingLine, mark: DecimalMark): readonly string[] {
  const onOrder = (thinned?.onOrder ?? []).map(({ pack, count }) =>
    words.thinned.onOrder(words.packs(count, packSizeText(pack, mark)), formWords(pack.form ?? NEAT)),
  );
  if (!thinned?.leftOver) return onOrder;
  const { line, option, need } = thinned.leftOver;
  const takes = amountText({ value: need, unit: option.unit, digits: 3 }, mark);
  return [...onOrder, words.thinned.leftOver(takes, option.formWords, lineText(line))];
}

/** An option's packs and what they come to, a line each, for paper. */
export function optionLines(option: BuyOption, mark: DecimalMark): readonly string[] {
  const packs = option.packs.flatMap((pack, at) => {
    const count = option.cover?.counts[at] ?? 0;
    return count === 0
      ? []
      : [listed(', ', [words.packs(count, packSizeText(pack, mark)), packFactsText(pack, option.mixed, mark)])];
  });
  return [...packs, coverFactsText(option, mark)];
}

/** What to buy instead so that every least order is reached, a line each, what it costs first. */
export function withinTexts({ lines, cost, more, doubt }: WithinLeast, mark: DecimalMark): readonly string[] {
  const { suppliers } = words;
  const packs = lines.flatMap((line) => {
    const option = line.toBuy > 0 ? chosenOption(line) : null;
    return option ? [words.withinLine(lineText(line.line), optionLines(option, mark).slice(0, -1).join('; '))] : [];
  });
  const proof = doubt > 0 ? suppliers.withinDoubt(moneyText(doubt, mark)) : suppliers.withinLeast;
  return [`${suppliers.within(moneyText(cost, mark), moneyText(more, mark))}.`, ...packs, proof];
}

function listed(between: string, parts: readonly string[]): string {
  return parts.filter((one) => one !== '').join(between);
}
