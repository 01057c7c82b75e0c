import { weighWords } from '../words/weigh-words.ts';
import type { Figure } from '../quantity/figure.ts';
import type { RunOutcome } from './outcome.ts';

/** Crops apart, g: contained, where there is more than one; and as each was weighed wet, which is not counted. */
export function cropLines({ crops, wet }: Pick<RunOutcome, 'crops' | 'wet'>): readonly { label: string; figure: Figure<'g'> }[] {
  const words = weighWords.product;
  return [
    ...(crops.length < 2 ? [] : crops.map((one) => ({ label: words.crop(one.crop), figure: one.contained }))),
    ...wet.map((one) => ({ label: words.wetCrop(one.crop), figure: one.weighed })),
  ];
}
