import type { PassedOverBottle } from '../plan/result.ts';
import { dayWords } from './date-words.ts';

/**
 * Why a bottle was passed over, and what it would be worth: "out of date since 3 Nov 2026; its 60.0 g would be enough".
 * @param left what stands in it, as an amount is written. @param assay its assay, as a number is written.
 */
export function passedOverWords(one: PassedOverBottle, left: string, assay: string): string {
  const worth = one.wouldCover === null ? ` (${left})` : `; its ${left} ${WORTH[one.why][one.wouldCover ? 'enough' : 'not']}`;
  switch (one.why) {
    case 'out of date':
      return `${one.useBy === undefined ? 'out of date' : `past its date, ${dayWords(one.useBy)}`}${worth}`;
    case 'assay too low':
      return `assay too low, ${assay} % w/w`;
    case 'named alike':
      return `entered as “${one.name ?? ''}”, another material: not counted${worth}`;
    case 'other solvent':
      return `in ${one.name ?? ''}, another solvent than asked for: not counted${worth}`;
    case 'other form':
      return `entered as ${one.name ?? ''}, which cannot serve for what is asked: not counted${worth}`;
    case 'strength not said':
      return `entered as ${one.name ?? ''}; the step does not say which strength it asks for, so that nothing is worked out from it${worth}`;
    default:
      return `${one.why}${worth}`;
  }
}

const NOT = { enough: 'would be enough', not: 'alone would not be enough' };
const WORTH: Readonly<Record<PassedOverBottle['why'], { readonly enough: string; readonly not: string }>> = {
  'out of date': { ...NOT, enough: 'would be enough once it is tested or purified' },
  'held back': NOT,
  'assay too low': NOT,
  'named alike': NOT,
  'other solvent': NOT,
  'other form': NOT,
  'strength not said': NOT,
  'unknown strength': {
    enough: 'would be enough if it is as strong as asked for: titrate it',
    not: 'would not be enough at the strength asked for',
  },
};
