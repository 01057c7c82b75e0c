import { type DecimalMark, formatAmount, formatDecimals, formatSignificant } from '../quantity/format.ts';

const NB = '\u00a0';

/** What of a figure is needed to print it. */
export interface Printable {
  readonly value: number;
  readonly unit: string;
  readonly digits: number;
}

/** Figure → "93.9 mmol", the unit scaled to the size of the amount; the number never parts from its unit. */
export function amountText(figure: Printable | null, mark: DecimalMark): string {
  if (!figure || !Number.isFinite(figure.value)) return '';
  const { text, unit } = formatAmount({ value: figure.value, unit: figure.unit as never, digits: figure.digits }, mark);
  return unit === '' ? text : `${text}${NB}${unit}`;
}

/** A share of a figure, e.g. one batch's part of a step's; dimensionless factor ≥ 0. */
export function share(figure: Printable | null, factor: number): Printable | null {
  return figure && { value: figure.value * factor, unit: figure.unit, digits: figure.digits };
}

/** A reading with the decimals of its device: "39.9 mL". */
export function readingText(value: number, unit: string, decimals: number, mark: DecimalMark): string {
  return `${formatDecimals(value, decimals, mark)}${NB}${unit}`;
}

/** A temperature as written in the route: "95 °C", with a true minus sign. */
export function celsiusText(celsius: number, mark: DecimalMark): string {
  return `${plain(celsius, mark).replace('-', '−')}${NB}°C`;
}

/** A span of temperature: "95–100 °C", or "−5 to 0 °C" where a dash could be read as a minus. */
export function windowText(window: { readonly from: number; readonly to: number }, mark: DecimalMark): string {
  if (window.from === window.to) return celsiusText(window.to, mark);
  const from = plain(window.from, mark).replace('-', '−');
  return window.from < 0 || window.to < 0
    ? `${from} to ${celsiusText(window.to, mark)}`
    : `${from}–${celsiusText(window.to, mark)}`;
}

/** Minutes as a person says them: "45 min", "2.5 h". */
export function durationText(minutes: number, mark: DecimalMark): string {
  return minutes < 120 ? `${plain(minutes, mark)}${NB}min` : `${formatTrimmed(minutes / 60, mark)}${NB}h`;
}

/** A percentage with one unit: "92 %", at most three significant digits, no false zeros. */
export function percentText(percent: number, mark: DecimalMark): string {
  return `${formatTrimmed(percent, mark)}${NB}%`;
}

/** At most three significant digits, trailing zeros dropped: for ratios that were typed. */
export function formatTrimmed(value: number, mark: DecimalMark): string {
  return plain(Number(formatSignificant(value, 3)), mark);
}

function plain(value: number, mark: DecimalMark): string {
  return String(value).replace('.', mark);
}
