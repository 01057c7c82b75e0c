import type { Governed } from '../plan/amounts.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import type { Notice } from '../words/notice.ts';
import type { Facts } from './facts.ts';
import { materialNamed } from './named.ts';
import { SATURATED_CELSIUS, type Saturated, SURPLUS_PERCENT } from './saturated.ts';
import { gramsPerMillilitre, massFraction } from './solution.ts';

/** Mass of solid put in ÷ mass that dissolves. */
export const PUT_IN = 1 + SURPLUS_PERCENT / 100;

/** What is put in for what dissolves, of a strength or of a mass. @param whole all that is dissolved, where a part of it is there before. */
export function withSurplus<U extends 'g' | 'g/g'>(figure: Figure<U>, whole = figure.value): Figure<U> {
  const how = `what dissolves, and ${SURPLUS_PERCENT} % more that stays undissolved`;
  return computed(figure.label, figure.value + (PUT_IN - 1) * whole, figure.unit, how, [figure]);
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

/** The amount of a saturated solution as it can be made: a volume of unknown density by mass, any other as it is. */
export function amountToMake(facts: Facts, { form }: Saturated, amount: Governed, reference: Reference): Governed {
  if (amount.by !== 'mL' || gramsPerMillilitre(facts, form, reference).ok) return amount;
  const fraction = massFraction(facts, form, reference);
  const figure = fraction.ok ? byWater(amount.figure, fraction.figure, reference) : null;
  return figure ? { by: 'g', figure } : amount;
}

/** What is said before it is made. @param byDensity whether its volume is known. */
export function saturatedNotices({ name }: Facts, { grams, source }: Saturated, byDensity: boolean): readonly Notice[] {
  const say = (code: string, more: Notice['values'] = {}): Notice => ({
    level: 'note',
    code,
    values: { material: name, celsius: SATURATED_CELSIUS, ...more },
    at: {},
  });
  const surplus = say('saturated: surplus', { grams, source, percent: SURPLUS_PERCENT });
  return byDensity ? [surplus] : [surplus, say('saturated: no density')];
}
