import { computed, type Figure } from '../quantity/figure.ts';
import { formWords, severalForms } from '../words/form-words.ts';
import type { Share } from './allocate.ts';
import type { Bottle } from './shelf.ts';

/** A line that bottles of several assays cover: what is weighed of them for what is worth so much as it is asked for. */
export interface AsWeighed {
  /** "assay 97 % w/w and neat" */
  readonly words: string;
  /** The same amount as it is weighed, the bottles in the proportion in which they are taken. */
  readonly figure: (asked: Figure<'g' | 'mL'>) => Figure<'g' | 'mL'>;
  /** Weighed ÷ asked for, of one charge. */
  readonly factor: (step: string, operation: string) => number;
}

/**
 * How the shares of a line are weighed where they are of several assays; null where all are alike, where one is a
 * solution, or where one is measured in another unit: then a sum of them would say nothing.
 * @param worth what a share is worth in the line's unit as it is asked for.
 */
export function asWeighed(shares: readonly Share[], unit: 'g' | 'mL', worth: (share: Share) => number | null): AsWeighed | null {
  const bottles = [...new Set(shares.map(({ bottle }): Bottle => bottle))];
  const words = [...new Set(bottles.map(({ form }) => formWords(form)))];
  if (words.length < 2 || bottles.some((one) => one.form.kind !== 'neat' || one.unit !== unit)) return null;
  const ratio = (of: readonly Share[]): number => {
    const asked = of.reduce((sum, one) => sum + (worth(one) ?? Number.NaN), 0);
    return asked > 0 ? of.reduce((sum, one) => sum + one.amount, 0) / asked : 1;
  };
  const all = ratio(shares);
  if (!Number.isFinite(all) || shares.some((one) => worth(one) === null)) return null;
  return {
    words: severalForms(words),
    figure: (asked) => computed(asked.label, asked.value * all, asked.unit, 'as weighed from bottles of several assays', [asked]),
    factor: (step, operation) => ratio(shares.filter((one) => one.step === step && one.operation === operation)),
  };
}
