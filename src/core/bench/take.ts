import type { Settings } from '../plan/settings.ts';
import type { Figure } from '../quantity/figure.ts';
import { decimalsOf, roundTo } from '../quantity/round.ts';
import type { Take } from '../plan/result.ts';

/** What a device shows and how it is called. */
interface Device {
  readonly name: string;
  readonly readability: number;
}

export interface TakeInput {
  readonly by: 'mass' | 'volume';
  readonly exact: Figure<'g' | 'mL'>;
  /** Accepted range, ± %; null where the amount is only recorded (the basis). */
  readonly tolerancePercent: number | null;
  readonly portions: number;
  /** Moles of active material in the exact amount, and moles of basis it stands against; null where not known. */
  readonly moles: number | null;
  readonly basisMoles: number;
  readonly settings: Settings;
}

/** A balance is chosen so that its readability is at most this part of the accepted range. Common practice, no source. */
const READABILITY_PER_TOLERANCE = 0.1;
/** The same for a measure read by eye. Common practice, no source. */
const READING_PER_TOLERANCE = 0.5;

/**
 * Turns an exact amount into what is weighed or measured: device, target rounded to its readability (portion by
 * portion), accepted range, and moles and equivalents of the rounded target.
 */
export function takeOf(input: TakeInput): Take {
  const { exact, portions } = input;
  const portion = exact.value / portions;
  const tolerance = (input.tolerancePercent ?? input.settings.tolerance.reagentPercent) / 100;
  const device =
    input.by === 'mass' ? balanceFor(portion, tolerance, input.settings) : measureFor(portion, tolerance, input.settings);
  const target = roundTo(roundTo(portion, device.readability) * portions, device.readability);
  const decimals = decimalsOf(device.readability);
  const scale = exact.value > 0 ? target / exact.value : 1;
  const moles = input.moles === null ? null : input.moles * scale;
  const range =
    input.tolerancePercent === null ? null : acceptedRange(exact.value, target, tolerance, device.readability, decimals);
  return {
    by: input.by,
    exact,
    target,
    unit: input.by === 'mass' ? 'g' : 'mL',
    decimals,
    device: device.name,
    low: range?.low ?? null,
    high: range?.high ?? null,
    moles,
    equivalents: moles === null || input.basisMoles === 0 ? null : moles / input.basisMoles,
  };
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
    low: null,
    high: null,
    moles: null,
    equivalents: null,
  };
}

/** The coarsest balance that still shows a tenth of the accepted range; else the finest that carries the load. */
function balanceFor(grams: number, tolerance: number, settings: Settings): Device {
  const able = settings.balances.filter((balance) => balance.largest >= grams).sort((a, b) => b.readability - a.readability);
  const fitting = able.find((balance) => balance.readability <= grams * tolerance * READABILITY_PER_TOLERANCE);
  const largest = [...settings.balances].sort((a, b) => b.largest - a.largest)[0];
  return fitting ?? able.at(-1) ?? largest ?? { name: '', readability: 0.01 };
}

/**
 * The smallest measure that holds the volume and can be read finely enough for the accepted range, the plainer one
 * where two are alike; else the finest that holds it; else the largest, filled more than once.
 */
function measureFor(millilitres: number, tolerance: number, settings: Settings): Device {
  const bySize = [...settings.measures].sort((a, b) => a.nominal - b.nominal || b.readability - a.readability);
  const able = bySize.filter((measure) => measure.nominal >= millilitres);
  const finest = able.reduce<Device | undefined>(
    (best, measure) => (best && best.readability <= measure.readability ? best : measure),
    undefined,
  );
  return (
    able.find((measure) => measure.readability <= millilitres * tolerance * READING_PER_TOLERANCE) ??
    finest ??
    bySize.at(-1) ?? { name: '', readability: 0.1 }
  );
}

/**
 * The accepted range: the tolerance around the exact amount, as far as the device can show it, and never narrower than
 * one reading on either side of the target.
 */
function acceptedRange(
  exact: number,
  target: number,
  tolerance: number,
  readability: number,
  decimals: number,
): { low: number; high: number } {
  const rounded = (value: number): number => Number(Math.max(0, value).toFixed(decimals));
  const low = Math.min(exact * (1 - tolerance), target - readability);
  const high = Math.max(exact * (1 + tolerance), target + readability);
  return { low: rounded(low), high: rounded(high) };
}
