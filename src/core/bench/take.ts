import type { Take } from '../plan/result.ts';
import type { Settings } from '../plan/settings.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import { decimalsOf, lineOf, roundTo, roundUpTo } from '../quantity/round.ts';
import type { MeasureToleranceRow } from '../reference-rows.ts';
import { balanceFor, measureFor } from './device.ts';
import { METERED } from '../words/device-words.ts';
import { smallestNetFigure } from './smallest-mass.ts';
import { stockSolution } from './stock-solution.ts';

export interface TakeInput {
  readonly by: 'mass' | 'volume';
  readonly exact: Figure<'g' | 'mL'>;
  /** Accepted range, ± %; null where the amount is only recorded (the basis). */
  readonly tolerancePercent: number | null;
  readonly portions: number;
  /** Where less would not be safe or would not do: the target is rounded up, and nothing under it is accepted. */
  readonly noLess?: boolean;
  /** Moles of active material in the exact amount, and moles of basis it stands against; null where not known. */
  readonly moles: number | null;
  readonly basisMoles: number;
  readonly settings: Settings;
  /** Tolerances of measures by standard and class. */
  readonly measureTolerances: readonly MeasureToleranceRow[];
  /** Whether a stock solution of it makes sense: of a solvent it does not. */
  readonly dissolves: boolean;
  /** A gas, which goes in through a line: metered, never weighed out. */
  readonly gas?: boolean;
}

/** What a device shows, how it is called, and whether it is fine enough. */
type Device = Pick<Take, 'device' | 'readTwice' | 'standard' | 'deviceTolerance' | 'fills' | 'least' | 'meets'> & {
  readonly readability: number;
};

/** A mass in g that only has to be weighed, in one portion: no equivalents, and no stock solution instead. */
export function takeOfMass(exact: Figure<'g'>, settings: Settings): Take {
  return takeOf({
    by: 'mass',
    exact,
    tolerancePercent: settings.tolerance.reagentPercent,
    portions: 1,
    moles: null,
    basisMoles: 0,
    settings,
    measureTolerances: [],
    dissolves: false,
  });
}

/**
 * Turns an exact amount into what is weighed or measured: device, target rounded to its readability (portion by
 * portion), accepted range, and moles and equivalents of the rounded target. What cannot be weighed within the
 * accepted range is flagged, with the smallest stock solution that can be.
 */
export function takeOf(input: TakeInput): Take {
  const { exact, portions } = input;
  const portion = exact.value / portions;
  const tolerance = toleranceOfTake(input);
  const { readability: shown, ...device } =
    input.by === 'mass' ? weighed(portion, tolerance, input) : measured(portion, tolerance, input);
  const stock =
    device.meets || input.by === 'volume' || !input.dissolves ? null : stockFor(exact, portions, tolerance, input.settings);
  const round = input.noLess ? roundUpTo : roundTo;
  const asShown = round(portion, shown);
  // What goes in as a stock solution is not rounded to a balance that cannot show it; and nothing is rounded to nothing.
  // Rounded up, 6 µg would become the 1 mg that the balance shows first.
  const finer = stock !== null || (portion > 0 && roundTo(portion, shown) === 0);
  const readability = finer ? Math.min(shown, threeDigits(portion)) : shown;
  const each = finer ? round(portion, readability) : asShown;
  const target = roundTo(each * portions, readability);
  const decimals = decimalsOf(readability);
  const scale = exact.value > 0 ? target / exact.value : 1;
  const moles = input.moles === null ? null : input.moles * scale;
  const around = { exact: exact.value, target, tolerance, readability, decimals, meets: device.meets };
  const range = input.tolerancePercent === null ? null : acceptedRange(around, input.noLess ?? false);
  return {
    by: input.by,
    exact,
    target,
    unit: input.by === 'mass' ? 'g' : 'mL',
    decimals,
    ...device,
    low: range?.low ?? null,
    high: range?.high ?? null,
    tolerancePercent: tolerance * 100,
    moles,
    equivalents: moles === null || input.basisMoles === 0 ? null : moles / input.basisMoles,
    stock,
  };
}

/** Accepted relative deviation; what is only recorded is still weighed as finely as any reagent. */
export function toleranceOfTake(input: Pick<TakeInput, 'tolerancePercent' | 'settings'>): number {
  const percent = input.tolerancePercent ?? input.settings.tolerance.reagentPercent;
  return Math.max(percent, 1e-6) / 100;
}

function weighed(portion: number, tolerance: number, { settings, gas }: TakeInput): Device {
  if (gas) return { ...NO_DEVICE, device: METERED, readability: portion > 0 ? threeDigits(portion) : 1, meets: true };
  const { balance, meets } = balanceFor(portion, tolerance, settings);
  return {
    device: balance.name,
    readTwice: false,
    readability: balance.readability,
    standard: '',
    deviceTolerance: null,
    fills: 1,
    least: smallestNetFigure(balance, tolerance),
    meets: meets || portion === 0,
  };
}

function measured(portion: number, tolerance: number, { settings, measureTolerances }: TakeInput): Device {
  const found = measureFor(portion, tolerance, settings, measureTolerances);
  if (!found) return { ...NO_DEVICE, readability: 0.1, meets: portion === 0 };
  return {
    device: found.measure.name,
    readTwice: found.kind === 'burette',
    // What delivers its whole nominal volume has one mark; anything else is set to a line.
    readability: found.readability === found.measure.nominal ? found.readability : lineOf(found.readability),
    standard: found.measure.standard ?? '',
    deviceTolerance: found.tolerance,
    fills: found.fills,
    least: null,
    meets: found.meets || portion === 0,
  };
}

const NO_DEVICE = { device: '', readTwice: false, standard: '', deviceTolerance: null, fills: 1, least: null } as const;

/** The step of the third significant digit. */
function threeDigits(value: number): number {
  return Number((10 ** (Math.floor(Math.log10(value)) - 2)).toPrecision(1));
}

function stockFor(exact: Figure<'g' | 'mL'>, portions: number, tolerance: number, settings: Settings): Take['stock'] {
  const wanted = computed(exact.label, exact.value / portions, 'g', 'one portion', [exact]);
  return stockSolution(wanted, tolerance, settings, portions);
}

/** An amount that cannot be given yet, because its volume or mass is not known. */
export function unknownTake(): Take {
  return {
    by: 'unknown',
    exact: null,
    target: 0,
    unit: 'g',
    decimals: 0,
    device: '',
    readTwice: false,
    standard: '',
    deviceTolerance: null,
    fills: 1,
    least: null,
    meets: true,
    low: null,
    high: null,
    tolerancePercent: 0,
    moles: null,
    equivalents: null,
    stock: null,
  };
}

interface Around {
  readonly exact: number;
  readonly target: number;
  readonly tolerance: number;
  readonly readability: number;
  readonly decimals: number;
  readonly meets: boolean;
}

/**
 * The accepted range: the tolerance around the exact amount, as far as the device can show it, and always with the target
 * in it. Where no less may be used it begins at the target and leaves one reading above it; where no device is fine enough,
 * which is said, it is as wide as one reading on either side.
 */
function acceptedRange(around: Around, noLess: boolean): { low: number; high: number } {
  const { exact, target, tolerance, readability, decimals, meets } = around;
  const below = meets ? target : target - readability;
  const above = meets && !noLess ? target : target + readability;
  const rounded = (value: number): number => Number(Math.max(0, value).toFixed(decimals));
  const low = noLess ? target : Math.min(exact * (1 - tolerance), below);
  const high = Math.max(exact * (1 + tolerance), above);
  return { low: rounded(low), high: rounded(high) };
}
