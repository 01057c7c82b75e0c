import { tooLittleOfSolution } from '../bench/too-little.ts';
import { solventOf } from '../matter/form.ts';
import type { MakeUp } from '../plan/make-up-result.ts';
import type { Settings } from '../plan/settings.ts';
import type { Notice } from '../words/notice.ts';

/** The code under which a part of a solution is called too little to weigh. */
export const TOO_LITTLE = 'too little for a solution';

/**
 * Parts of a make-up that the laboratory's balances do not weigh within the tolerance of a reagent.
 * @param name of the material. @param factor the part of the whole make-up that is made, 0 … 1.
 */
export function tooLittleIn(
  { parts, waterGrams, grams, form, material }: Omit<MakeUp, 'before'>,
  name: string,
  factor: number,
  settings: Settings,
): readonly Notice[] {
  const weighed = [
    { what: form.kind === 'solution' ? solventOf(form) : 'water', figure: waterGrams },
    ...parts.map((part) => ({ what: `${name} ${part.fromWords}`, figure: part.takeGrams })),
  ];
  const whole = { value: grams.value * factor };
  return weighed.flatMap(({ what, figure }): readonly Notice[] => {
    const notice = tooLittleOfSolution(what, { ...figure, value: figure.value * factor }, whole, settings);
    return notice ? [{ ...notice, at: { material } }] : [];
  });
}
