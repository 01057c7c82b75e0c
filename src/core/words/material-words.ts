import type { CasDoubt } from '../matter/cas.ts';
import type { StrengthDoubt } from '../matter/strength-doubt.ts';

/** What the built-in tables have to say against a material. */
export const materialWords = {
  casDoubt: ({ owner, against }: CasDoubt) =>
    'named' in against
      ? `this CAS number belongs to ${owner.name}; that of ${against.named.name} is ${against.named.cas}`
      : `this CAS number belongs to ${owner.name}, ${owner.formula}; the formula says ${against.formula}`,
  strengthDoubt: (doubt: StrengthDoubt): string => {
    if ('hydrate' in doubt) {
      return `the formula of ${doubt.hydrate} counts its water already: an assay on the anhydrous basis would take it off twice. Give the assay of what is weighed, or enter the anhydrous material`;
    }
    const { value, most, basis, density } = doubt;
    return density === null
      ? `a strength needs to be at most ${most} ${basis} (got ${value} ${basis})`
      : `a strength needs to be at most that of the pure material, about ${Number(most.toPrecision(3))} ${basis} at ${Number(density.toPrecision(4))} g/mL (got ${value} ${basis})`;
  },
  hazard: {
    shape: 'a hazard statement such as H225, H302+H312 or EUH066 is expected here',
    unknown: (code: string) => `${code} is neither in the CLP list (Annex III, to ATP 22) nor in UN GHS Rev. 10`,
    order: (code: string, right: string) => `these statements are combined as ${right} (got ${code})`,
    notCombined: (code: string, parts: readonly string[]) =>
      `${code} is no combined statement: give ${parts.slice(0, -1).join(', ')} and ${parts.at(-1)} apart`,
    precaution: (code: string) => `${code} is a precaution: only hazard statements (H and EUH) are expected here`,
    unOnly: (code: string) => `${code} is in UN GHS only, not in CLP`,
  },
} as const;
