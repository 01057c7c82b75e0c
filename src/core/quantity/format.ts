import type { Figure } from './figure.ts';

/** What separates the decimals; the display follows the desktop's locale. */
export type DecimalMark = '.' | ',';

/**
 * A number with so many significant digits, without exponent, trailing zeros kept because they are information.
 * Whole numbers larger than the digits are rounded, not padded with false digits beyond what a double holds.
 */
export function formatSignificant(value: number, digits: number, mark: DecimalMark = '.'): string {
  if (!Number.isFinite(value)) return '—';
  if (value === 0) return '0';
  const shown = Math.min(Math.max(1, Math.round(digits)), 15);
  const rounded = Number(value.toPrecision(shown));
  const decimals = Math.max(0, shown - 1 - Math.floor(Math.log10(Math.abs(rounded))));
  return withMark(rounded.toFixed(Math.min(decimals, 20)), mark);
}

/** A number with so many decimals: a reading of a balance or a measure. */
export function formatDecimals(value: number, decimals: number, mark: DecimalMark = '.'): string {
  return withMark((value === 0 ? 0 : value).toFixed(Math.min(Math.max(0, decimals), 20)), mark);
}

/**
 * A large number in a sentence, in groups of three digits from 10 000 on, so that its zeros can be counted: "1 000 000".
 * @param value finite; @returns it with narrow spaces that do not break.
 */
export function groupedDigits(value: number): string {
  const [whole = '', ...rest] = String(value).split('.');
  const grouped = whole.length > 4 ? whole.replaceAll(/\B(?=(?:\d{3})+$)/g, '\u202f') : whole;
  return [grouped, ...rest].join('.');
}

interface Scale {
  readonly unit: string;
  readonly factor: number;
  readonly from: number;
}

/** Shown units by internal unit, smallest first; each is used from its own lower bound on. */
const SCALES: Readonly<Record<string, readonly Scale[]>> = {
  g: [
    { unit: 'ng', factor: 1e9, from: 0 },
    { unit: 'µg', factor: 1e6, from: 1e-7 },
    { unit: 'mg', factor: 1e3, from: 1e-3 },
    { unit: 'g', factor: 1, from: 0.1 },
    { unit: 'kg', factor: 1e-3, from: 1e4 },
    { unit: 't', factor: 1e-6, from: 1e7 },
  ],
  kJ: [
    { unit: 'J', factor: 1e3, from: 0 },
    { unit: 'kJ', factor: 1, from: 0.1 },
    { unit: 'MJ', factor: 1e-3, from: 1e4 },
    { unit: 'GJ', factor: 1e-6, from: 1e7 },
  ],
  mol: [
    { unit: 'nmol', factor: 1e9, from: 0 },
    { unit: 'µmol', factor: 1e6, from: 1e-7 },
    { unit: 'mmol', factor: 1e3, from: 1e-3 },
    { unit: 'mol', factor: 1, from: 1 },
    { unit: 'kmol', factor: 1e-3, from: 1e4 },
  ],
  mL: [
    { unit: 'nL', factor: 1e6, from: 0 },
    { unit: 'µL', factor: 1e3, from: 1e-4 },
    { unit: 'mL', factor: 1, from: 0.1 },
    { unit: 'L', factor: 1e-3, from: 1e4 },
    { unit: 'm³', factor: 1e-6, from: 1e7 },
  ],
};

/** The unit an amount is best shown in, with the factor to it. */
export function shownUnit(value: number, unit: string): { readonly unit: string; readonly factor: number } {
  const scales = SCALES[unit];
  if (!scales || value === 0) return { unit, factor: 1 };
  const size = Math.abs(value);
  return scales.findLast((scale) => size >= scale.from) ?? { unit, factor: 1 };
}

/** Digits shown for a planning figure: what it deserves, at least three, at most four. */
const MOST_SHOWN = 4;

/** A property of a material is shown with all the digits it deserves, up to these. */
const MOST_OF_PROPERTY: Readonly<Record<string, number>> = { 'g/mol': 8, 'g/mL': 4 };

/** A figure as number and unit for the screen, e.g. { text: "93.9", unit: "mmol" }. */
export function formatAmount(
  figure: Pick<Figure, 'value' | 'unit' | 'digits'>,
  mark: DecimalMark = '.',
): { readonly text: string; readonly unit: string } {
  const { unit, factor } = shownUnit(figure.value, figure.unit);
  // What binary arithmetic leaves below 2 is 2: three digits, as for 2 itself.
  const leading = Number(Math.abs(figure.value * factor).toPrecision(12)).toExponential()[0];
  const digits = MOST_OF_PROPERTY[figure.unit] ?? (leading === '1' ? MOST_SHOWN : MOST_SHOWN - 1);
  return { text: formatSignificant(figure.value * factor, Math.min(digits, Math.max(figure.digits, 1)), mark), unit };
}

/** With the reader's decimal mark, and a true minus sign: a hyphen is overlooked on paper. */
function withMark(text: string, mark: DecimalMark): string {
  const signed = text.replace('-', '−');
  return mark === ',' ? signed.replace('.', ',') : signed;
}
