import { coverFactsText, moneyText, packFactsText, packSizeText } from '../../../core/buy/buy-text.ts';
import type { BuyOption } from '../../../core/buy/buy-option.ts';
import { amountText } from '../../../core/paper/amounts.ts';
import type { PackOffer } from '../../../core/port/buy.ts';
import { decimalMark } from '../../parts/locale.ts';

// The texts of the core with the desktop's decimal mark.
export const amount = (value: number, unit: 'g' | 'mL', digits = 3): string => amountText({ value, unit, digits }, decimalMark);
export const money = (value: number): string => moneyText(value, decimalMark);
export const packSize = (pack: Pick<PackOffer, 'amount' | 'unit'>): string => packSizeText(pack, decimalMark);
export const packFacts = (pack: PackOffer, named: boolean): string => packFactsText(pack, named, decimalMark);
export const coverFacts = (option: BuyOption): string => coverFactsText(option, decimalMark);
