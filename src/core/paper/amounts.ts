import { type DecimalMark, formatAmount } from '../quantity/format.ts';
import { isTiny, readingIn, readingParts, readingUnit } from '../quantity/reading.ts';
import type { TemperatureWindow } from '../route/route.ts';
import { bathText } from '../words/bath-words.ts';

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

/** A reading of a device, in the unit that suits its size; the number never parts from it. */
export function readingText(value: number, unit: 'g' | 'mL', decimals: number, mark: DecimalMark): string {
  const shown = readingParts(value, unit, decimals, mark);
  return `${shown.text}${NB}${shown.unit}`;
}

/**
 * An accepted range: "39.5–40.3", with its unit where that is not the one of the target.
 * @param one the target itself, whose unit it is read beside; of portions, one of them.
 */
export function rangeText(
  low: number,
  high: number,
  one: { readonly unit: 'g' | 'mL'; readonly decimals: number; readonly target: number },
  mark: DecimalMark,
): string {
  const { unit, decimals } = one;
  const shown = readingUnit(one.target, unit, decimals);
  const show = (value: number): string =>
    isTiny(decimals) ? readingText(value, unit, decimals, mark) : readingIn(value, shown, mark);
  return `${show(low)}–${show(high)}`;
}

/** A temperature as written in the route: "95 °C", with a true minus sign. */
export function celsiusText(celsius: number, mark: DecimalMark): string {
  return `${plain(celsius, mark)}${NB}°C`;
}

/** A span of temperature: "95–100 °C", or "−5 to 0 °C" where a dash could be read as a minus; a bath by its word. */
export function windowText(window: TemperatureWindow, mark: DecimalMark): string {
  if ('bath' in window) return bathText(window.bath, (from, to) => windowText({ from, to }, mark));
  if (window.from === window.to) return celsiusText(window.to, mark);
  const from = plain(window.from, mark);
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
  return plain(Number(value.toPrecision(3)), mark);
}

function plain(value: number, mark: DecimalMark): string {
  return String(value).replace('-', '−').replace('.', mark);
}
