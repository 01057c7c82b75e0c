/**
 * A number as it stands in print. It is not one value but every value that is printed so: 0.47 stands for
 * 0.465 … 0.475. Zeros at the end of a whole number may only hold the place, so 200 may also be 195 … 205 or 150 … 250.
 */
export interface PrintedNumber {
  readonly value: number;
  /** What it stands for when every digit counts. */
  readonly low: number;
  readonly high: number;
  /** One unit of the last printed digit: what cutting off instead of rounding can take away. */
  readonly unit: number;
  /** What it stands for where zeros at the end only hold the place; equals low and high otherwise. */
  readonly roundLow: number;
  readonly roundHigh: number;
  /** Ends of a printed range such as 35–37; both are `value` where one number is printed. */
  readonly least: number;
  readonly most: number;
}

/** A computed value with what the numbers it was computed from allow it to be. */
export interface Span {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/**
 * What a number printed with so many significant digits stands for.
 * @param value as printed, > 0 or 0; @param digits significant digits as printed, zeros at the end counted.
 */
export function printedNumber(value: number, digits: number): PrintedNumber {
  const unit = value === 0 ? 1 : 10 ** (Math.floor(Math.log10(value) + 1e-12) - digits + 1);
  const half = unit / 2;
  const zeros = unit === 1 ? placeHolders(value) : 0;
  const wide = (unit * 10 ** zeros) / 2;
  return {
    value,
    low: value - half,
    high: value + half,
    unit,
    roundLow: value - wide,
    roundHigh: value + wide,
    least: value,
    most: value,
  };
}

function placeHolders(value: number): number {
  let zeros = 0;
  for (let rest = value; rest > 0 && rest % 10 === 0; rest /= 10) zeros += 1;
  return zeros;
}

/** A printed range, e.g. 35–37: its middle, and everything its two ends stand for. */
export function printedRange(least: PrintedNumber, most: PrintedNumber): PrintedNumber {
  return {
    value: (least.value + most.value) / 2,
    low: least.low,
    high: most.high,
    unit: Math.max(least.unit, most.unit),
    roundLow: least.roundLow,
    roundHigh: most.roundHigh,
    least: least.value,
    most: most.value,
  };
}

/** The same print in another unit, or over several portions. @param factor > 0. */
export function timesPrinted(one: PrintedNumber, factor: number): PrintedNumber {
  const { value, low, high, unit, roundLow, roundHigh, least, most } = one;
  // 6.02 mmol is 0.00602 mol, not 0.006019999999999999.
  const times = (part: number): number => Number((part * factor).toPrecision(SURE_DIGITS));
  return {
    value: times(value),
    low: times(low),
    high: times(high),
    unit: times(unit),
    roundLow: times(roundLow),
    roundHigh: times(roundHigh),
    least: times(least),
    most: times(most),
  };
}

/** Digits of a product of two doubles that rounding cannot have touched. */
const SURE_DIGITS = 15;

/**
 * How a print stands to what it should be.
 * - `agrees`: rounding the computed value gives the print.
 * - `cut off`: cutting digits off gives it, rounding does not.
 * - `within inputs`: it does not, but the numbers it was computed from are printed too coarsely to tell.
 * - `round number`: only if the zeros at its end hold the place, and it is near.
 * - `differs`: by more than any rounding explains.
 */
export type Agreement = 'agrees' | 'cut off' | 'within inputs' | 'round number' | 'differs';

/** Zeros that only hold the place take a number up or down by a little: 10 mmol are never 6. Common practice, no source. */
const MOST_ROUNDED = 0.05;

/** Rounding noise of the computer, far below any print. */
const NOISE = 1e-9;

/** Holds a printed number against a computed one, aware of what rounding can do to each. Same unit for both. */
export function agreementOf(printed: PrintedNumber, computed: Span): Agreement {
  const slack = NOISE * Math.max(Math.abs(printed.value), Math.abs(computed.value));
  const inside = (low: number, high: number): boolean => computed.value >= low - slack && computed.value <= high + slack;
  if (inside(printed.low, printed.high)) return 'agrees';
  if (printed.least === printed.most && inside(printed.value, printed.value + printed.unit)) return 'cut off';
  if (computed.low <= printed.high + slack && computed.high >= printed.low - slack) return 'within inputs';
  const near = Math.abs(computed.value - printed.value) <= MOST_ROUNDED * Math.abs(printed.value);
  return near && inside(printed.roundLow, printed.roundHigh) ? 'round number' : 'differs';
}

/** A value computed from prints by multiplying and dividing: its span from theirs. Every input > 0. */
export function productSpan(times: readonly Span[], over: readonly Span[] = []): Span {
  const by = (pick: 'value' | 'low' | 'high', other: 'value' | 'low' | 'high'): number =>
    times.reduce((product, one) => product * one[pick], 1) / over.reduce((product, one) => product * one[other], 1);
  return { value: by('value', 'value'), low: by('low', 'high'), high: by('high', 'low') };
}

/** A value taken as exact for this purpose. */
export function exactly(value: number): Span {
  return { value, low: value, high: value };
}

/** Significant digits of a print. */
export function digitsOf(one: PrintedNumber): number {
  return Math.max(1, Math.floor(Math.log10(one.value / one.unit) + 1e-9) + 1);
}
