import type { Facts } from '../matter/facts.ts';
import { chargeLineWords as words } from '../words/charge-line-words.ts';
import { agreementOf, exactly, type PrintedNumber, productSpan, type Span } from './printed-number.ts';
import type { PrintedBasis } from './ratios.ts';
import { type Printed, readPrinted } from './read-printed.ts';

/**
 * "85 wt% KOH, 6.60 g": a weight per cent beside grams is what the material holds, or what it is of the basis (a loading).
 * The print itself tells which, where only one of the two fits its moles or the grams of the basis.
 */
export type WeightPercent = { readonly ok: true; readonly printed: string } | { readonly ok: false; readonly words: string };

const WEIGHT_PERCENT = /(?:wt|weight)\.?[\s-]*%/i;
const SAYS_LOADING = /%\s*(?:by\s+weight\s+)?(?:loading|of\b)/i;

/**
 * @param text the print as it was read; @param own it is the basis' own line; @param basis the printed basis, null where it
 * has none. @returns the print, with a strength where that is what it means; or the question which of the two is meant.
 */
export function weightPercentMeant(text: string, facts: Facts, own: boolean, basis: PrintedBasis | null): WeightPercent {
  const printed = readPrinted(text);
  const given: WeightPercent = { ok: true, printed: text };
  if (!printed.ok || !printed.loadingPercent || !printed.grams || !WEIGHT_PERCENT.test(text) || SAYS_LOADING.test(text)) {
    return given;
  }
  const strength: WeightPercent = { ok: true, printed: text.replace(WEIGHT_PERCENT, '% w/w') };
  const percent = printed.loadingPercent;
  if (percent.value > 100) return given;
  if (own) return strength;
  const [assay, loading] = [holdsSo(printed, facts, percent), isSoMuch(printed, basis, percent)];
  if (assay !== loading) return assay ? strength : given;
  // What has no moles is a support or a mixture: nothing would follow from what it holds.
  if (!facts.molarMass || !basis?.grams) return given;
  return { ok: false, words: words.whichWeightPercent(facts.name, percent.value) };
}

/** Whether the printed moles are those of so much of the grams, and not those of all of them. */
function holdsSo({ grams, moles }: Printed, { molarMass }: Facts, percent: PrintedNumber): boolean {
  if (!grams || !moles || !molarMass) return false;
  const mass = exactly(molarMass.value);
  const part = timesHundredth(percent);
  return fits(moles, productSpan([grams, part], [mass])) && !fits(moles, productSpan([grams], [mass]));
}

/** Whether the grams are so much of the basis. */
function isSoMuch({ grams }: Printed, basis: PrintedBasis | null, percent: PrintedNumber): boolean {
  const whole = basis?.printed?.grams ?? (basis?.grams ? exactly(basis.grams.value) : null);
  return grams !== undefined && whole !== null && fits(percent, hundredTimes(productSpan([grams], [whole])));
}

function fits(printed: PrintedNumber, computed: Span): boolean {
  const agreement = agreementOf(printed, computed);
  return agreement !== 'differs' && agreement !== 'round number';
}

const hundredTimes = ({ value, low, high }: Span): Span => ({ value: value * 100, low: low * 100, high: high * 100 });
const timesHundredth = ({ value, low, high }: Span): Span => ({ value: value / 100, low: low / 100, high: high / 100 });
