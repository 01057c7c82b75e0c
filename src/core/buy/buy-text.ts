import { NEAT } from '../matter/form.ts';
import { amountText } from '../paper/amounts.ts';
import type { PackOffer } from '../port/buy.ts';
import { type DecimalMark, formatDecimals } from '../quantity/format.ts';
import { formWords } from '../words/form-words.ts';
import { shoppingWords as words } from '../words/shopping-words.ts';
import type { BuyOption } from './shopping.ts';

/** Money to two decimals; the currency is the person's own. */
export function moneyText(value: number, mark: DecimalMark): string {
  return formatDecimals(value, 2, mark);
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

/** An option's packs and what they come to, a line each, for paper. */
export function optionLines(option: BuyOption, mark: DecimalMark): readonly string[] {
  const packs = option.packs.flatMap((pack, at) => {
    const count = option.cover?.counts[at] ?? 0;
    return count === 0 ? [] : [listed(', ', [words.packs(count, packSizeText(pack, mark)), packFactsText(pack, false, mark)])];
  });
  return [...packs, coverFactsText(option, mark)];
}

function listed(between: string, parts: readonly string[]): string {
  return parts.filter((one) => one !== '').join(between);
}
