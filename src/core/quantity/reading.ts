import { type DecimalMark, formatAmount, formatDecimals, formatSignificant, shownUnit } from './format.ts';

/** The unit a reading of a balance or measure is written in, and how to come to it. */
export interface ReadingUnit {
  readonly unit: string;
  readonly factor: number;
  /** Decimals of the reading in this unit. */
  readonly decimals: number;
}

/** From ten thousand on in kilograms or litres, from ten million on in tonnes or cubic metres: as figures are shown. */
const KILO = 1e4;
const MEGA = 1e7;
/** Of tonnes the kilograms are shown, of cubic metres the litres; of kilograms no more than any balance for them shows. */
const MEGA_DECIMALS = 3;
const MOST_KILO_DECIMALS = 4;

/**
 * @param value g or mL, ≥ 0, as the device shows it; @param decimals those of the device.
 * @returns the unit such an amount is written in, with as many decimals as show the same reading.
 */
export function readingUnit(value: number, unit: 'g' | 'mL', decimals: number): ReadingUnit {
  if (value >= MEGA) return { unit: unit === 'g' ? 't' : 'm³', factor: 1e-6, decimals: MEGA_DECIMALS };
  if (value >= KILO)
    return { unit: unit === 'g' ? 'kg' : 'L', factor: 1e-3, decimals: Math.min(decimals + 3, MOST_KILO_DECIMALS) };
  return { unit, factor: 1, decimals };
}

/** A reading in a unit: "32.025" of 32025 g in kg. */
export function readingIn(value: number, { factor, decimals }: ReadingUnit, mark: DecimalMark = '.'): string {
  return formatDecimals(value * factor, decimals, mark);
}

/** From so many decimals on a reading is written in a smaller unit where it is small: nobody counts zeros. */
const MOST_DECIMALS = 4;

/** Whether a reading has too many decimals to be written in g or mL however small it is. @param decimals those of its reading. */
export function isTiny(decimals: number): boolean {
  return decimals > MOST_DECIMALS;
}

/**
 * A reading with every decimal of its device and no more: "39.9", "mL"; in a smaller unit where there are too many:
 * "51.23", "mg", "3.05", "µg"; in a larger one where it is large: "32.025", "kg". The one rule for what is weighed and
 * measured, on paper and on the screen.
 * @param value g or mL, ≥ 0.
 */
export function readingParts(
  value: number,
  unit: 'g' | 'mL',
  decimals: number,
  mark: DecimalMark,
): { readonly text: string; readonly unit: string } {
  if (isTiny(decimals)) return smallParts(value, unit, decimals, mark);
  const shown = readingUnit(value, unit, decimals);
  return { text: readingIn(value, shown, mark), unit: shown.unit };
}

/** 0.50 mg of a balance that shows 0.01 mg, not 500 µg: a unit that would claim more than the device is passed over. */
function smallParts(value: number, unit: 'g' | 'mL', decimals: number, mark: DecimalMark) {
  const best = shownUnit(value, unit);
  const shift = Math.round(Math.log10(best.factor));
  if (shift <= decimals) return { text: formatDecimals(value * best.factor, decimals - shift, mark), unit: best.unit };
  return { text: formatDecimals(value * 1e3, decimals - 3, mark), unit: unit === 'g' ? 'mg' : 'µL' };
}

/** How many of each unit make a gram or a millilitre. */
const PARTS: Readonly<Record<string, number>> = {
  mg: 1e3,
  µg: 1e6,
  ng: 1e9,
  µL: 1e3,
  nL: 1e6,
  kg: 1e-3,
  L: 1e-3,
  t: 1e-6,
  'm³': 1e-6,
};

/**
 * A figure in g or mL in the unit that a reading beside it is written in: "0.0200 g" beside 0.255 g, "22.8 µg" beside
 * 205 µg, "1.02 kg" beside 31.7 kg.
 * @param digits it deserves; as many as a figure is shown with.
 */
export function figureIn(value: number, unit: 'g' | 'mL', wanted: string, digits: number, mark: DecimalMark): string {
  const factor = PARTS[wanted] ?? 1;
  const most = formatAmount({ value, unit, digits }, mark).text.replaceAll(/[^\d]/g, '').replace(/^0+/, '').length;
  return `${formatSignificant(value * factor, most, mark)}\u00a0${factor === 1 ? unit : wanted}`;
}
