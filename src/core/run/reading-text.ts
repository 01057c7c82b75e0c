import type { DecimalMark } from '../quantity/format.ts';
import type { Charged } from './entry.ts';

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

/**
 * What the parts of a charge come to, `36.445 g`; parts in two units stand beside each other.
 * @param parts as they were weighed, in g or mL. @returns number and unit; empty where nothing was taken.
 */
export function takenText(parts: readonly Pick<Charged, 'net' | 'unit' | 'text'>[], mark: DecimalMark): string {
  const units = [...new Set(parts.map((part) => part.unit))];
  return units
    .map((unit) => {
      const own = parts.filter((part) => part.unit === unit);
      const sum = own.reduce((total, part) => total + part.net, 0);
      const decimals = Math.max(...own.map((part) => decimalsOfReading(part.net, part.text)));
      return `${sum.toFixed(decimals).replace('.', mark)} ${unit}`;
    })
    .join(' + ');
}
