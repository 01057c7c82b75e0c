import { materialNamed } from '../matter/named.ts';
import { SATURATED_CELSIUS, type Saturated, saturatedInWater, SURPLUS_PERCENT } from '../matter/saturated.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import type { Notice } from '../words/notice.ts';
import type { Demand } from './demand.ts';

/** Mass of solid put in ÷ mass that dissolves. */
export const PUT_IN = 1 + SURPLUS_PERCENT / 100;

/** What the tables say of a line that is asked for as saturated; null of any other. */
export function saturatedOf(demands: readonly Demand[], reference: Reference): Saturated | null {
  const first = demands.find((demand) => demand.saturated);
  return first ? saturatedInWater(first.facts, reference) : null;
}

/** g of solid to put in per g of solution: what dissolves, and the surplus. */
export function withSurplus(fraction: Figure<'g/g'>): Figure<'g/g'> {
  const how = `what dissolves, and ${SURPLUS_PERCENT} % more that stays undissolved`;
  return computed(fraction.label, fraction.value * PUT_IN, 'g/g', how, [fraction]);
}

/**
 * g of a saturated solution whose density is not known: as much water as the volume asked for, and what dissolves in it. The
 * solid takes room too, so that it makes that volume and more.
 */
export function byWater(volume: Figure<'mL'>, fraction: Figure<'g/g'>, reference: Reference): Figure<'g'> | null {
  const density = materialNamed('water', reference)?.density;
  if (!density) return null;
  const grams = (volume.value * density) / (1 - fraction.value);
  return computed(volume.label, grams, 'g', 'as much water as the volume, and what dissolves in it', [volume, fraction]);
}

/** What is said before it is made. @param byDensity whether its mass is that of the volume asked for. */
export function saturatedMakeUp(
  { facts, material }: Demand,
  { grams, source }: Saturated,
  byDensity: boolean,
): readonly Notice[] {
  const values = { material: facts.name, celsius: SATURATED_CELSIUS };
  const say = (code: string, more: Notice['values'] = {}): Notice => ({
    level: 'note',
    code,
    values: { ...values, ...more },
    at: { material },
  });
  const surplus = say('saturated: surplus', { grams, source, percent: SURPLUS_PERCENT });
  return byDensity ? [surplus] : [surplus, say('saturated: no density')];
}
