import type { DecimalMark } from '../quantity/format.ts';

const NUMBER = /\d+[.,](\d+)/;
/** Units in which a balance's decimals are not those of g or mL. */
const OTHER_SCALE = /(?:mg|kg|µl|μl|\dl|\sl)\b/i;

/**
 * Decimals a weighed amount is shown with: those that were typed, so that 4.00 stays 4.00; never fewer than it needs.
 * @param amount g or mL. @param text as the balance typed it.
 */
export function decimalsOfReading(amount: number, text: string): number {
  const own = String(amount).split('.')[1]?.length ?? 0;
  const written = OTHER_SCALE.test(text) ? 0 : (NUMBER.exec(text)?.[1]?.length ?? 0);
  return Math.min(12, Math.max(own, written));
}

/** A weighed amount as it is shown, without its unit. */
export function weighedText(amount: number, text: string, mark: DecimalMark): string {
  return amount.toFixed(decimalsOfReading(amount, text)).replace('.', mark);
}
