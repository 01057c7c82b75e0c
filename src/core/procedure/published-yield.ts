import { percentYield, theoryGrams } from '../outcome/yield.ts';
import { stoichiometryOf } from '../plan/network/network.ts';
import { computed, entered, type Figure } from '../quantity/figure.ts';
import type { ParseProblem } from '../quantity/parse.ts';
import type { Step, StepYield } from '../route/route.ts';
import { yieldText } from '../words/routes-words.ts';
import { routeEditWords } from '../words/route-edit-words.ts';
import type { Notice } from '../words/notice.ts';
import type { Limiting } from './limiting.ts';
import type { Known } from './printed-amount.ts';
import { agreementOf, digitsOf, exactly, type PrintedNumber, printedNumber } from './printed-number.ts';
import type { PrintedBasis } from './ratios.ts';
import { readPrintedProduct, readPrintedYield } from './read-product.ts';

/** What a procedure prints of its product, and the yield that follows. */
export interface PublishedYield {
  /** Contained product at 100 %, g: by the basis, and by the reagent that limits. */
  readonly theory: Figure<'g'>;
  readonly theoryOfLimiting: Figure<'g'>;
  /** Against the basis; null where no mass is printed. The two are the same for one printed mass. */
  readonly lowest: Figure<'%'> | null;
  readonly highest: Figure<'%'> | null;
  /** What the step should expect: one figure, or the printed range with its middle as the likeliest. */
  readonly expected: StepYield | null;
  readonly productUnreadable: ParseProblem | null;
  readonly yieldUnreadable: ParseProblem | null;
  readonly notices: readonly Notice[];
}

/**
 * The expected yield from the printed mass of product, checked against the printed per cent; where no mass is printed,
 * the printed per cent itself. Null where the basis has no printed amount or the product no molar mass.
 */
export function publishedYield(
  step: Step,
  basis: PrintedBasis | null,
  limiting: Limiting | null,
  known: Known,
): PublishedYield | null {
  const product = known.facts.get(step.product);
  const ratio = stoichiometryOf(step);
  const theory = basis && product ? theoryGrams(basis.moles, ratio, product) : null;
  if (!basis || !product || !theory) return null;
  const printed = step.printed?.product === undefined ? null : readPrintedProduct(step.printed.product);
  const said = step.printed?.yield === undefined ? null : readPrintedYield(step.printed.yield);
  const grams = printed?.ok ? gramsOf(printed, step, known) : null;
  const percent = said?.ok ? said.percent : printed?.ok ? printed.percent : null;
  const assayPercent = step.productAssayPercent ?? null;
  const at = (value: number, of: PrintedNumber): Figure<'%'> =>
    percentYield({ grams: entered(`${product.name} obtained`, value, 'g', 'the procedure', digitsOf(of)), assayPercent }, theory);
  const lowest = grams && at(grams.least, grams);
  const highest = grams && at(grams.most, grams);
  const expected = expectedYield(lowest, highest, percent);
  return {
    theory,
    theoryOfLimiting: theoryBy(limiting, step, theory, known),
    lowest,
    highest,
    expected,
    productUnreadable: printed && !printed.ok ? printed : null,
    yieldUnreadable: said && !said.ok ? said : null,
    notices: withKept(step, expected, lowest && highest ? yieldNotices(step, percent, lowest, highest, theory) : []),
  };
}

/** The printed product as grams as weighed: printed grams, else millilitres through the pure liquid's density. */
function gramsOf(
  printed: { grams?: PrintedNumber; millilitres?: PrintedNumber },
  step: Step,
  known: Known,
): PrintedNumber | null {
  if (printed.grams) return printed.grams;
  const density = known.facts.get(step.product)?.liquidDensity;
  if (!printed.millilitres || !density) return null;
  const { least, most, value } = printed.millilitres;
  const grams = printedNumber(value * density.value, digitsOf(printed.millilitres));
  return { ...grams, least: least * density.value, most: most * density.value };
}

function theoryBy(limiting: Limiting | null, step: Step, theory: Figure<'g'>, known: Known): Figure<'g'> {
  const mass = known.facts.get(step.product)?.molarMass;
  const coefficient = step.equation.makes.find((term) => term.material === step.product)?.coefficient ?? 1;
  if (!limiting || !mass || limiting.first.material === step.basis) return theory;
  const { turnover, name } = limiting.first;
  const how = `what ${name} can turn over × ${coefficient} × molar mass`;
  return computed(theory.label, turnover.value * coefficient * mass.value, 'g', how, [turnover, mass]);
}

/** Digits kept of a yield that goes into a route: more than a procedure can tell, few enough to read. */
const YIELD_DIGITS = 4;

/** The yield a step should expect, %: of printed masses, else of the printed per cent; null where neither is there or it passes 100 %. */
export function expectedYield(
  lowest: Figure<'%'> | null,
  highest: Figure<'%'> | null,
  percent: PrintedNumber | null,
): StepYield | null {
  const from = lowest?.value ?? percent?.least;
  const to = highest?.value ?? percent?.most;
  if (from === undefined || to === undefined || to > 100) return null;
  const kept = (value: number): number => Number(value.toPrecision(YIELD_DIGITS));
  if (kept(from) === kept(to)) return kept(from);
  return { lowest: kept(from), likeliest: kept((from + to) / 2), highest: kept(to) };
}

/** Whether two expected yields are the same, one figure or a range. */
export function sameYield(one: StepYield, other: StepYield | null): boolean {
  return other !== null && yieldText(one) === yieldText(other);
}

/** Says beside a print what the step expects where that was entered otherwise, and is kept. */
function withKept(step: Step, expected: StepYield | null, notices: readonly Notice[]): readonly Notice[] {
  const own = step.yieldPercent;
  if (expected === null || sameYield(own, expected) || step.yieldSource === routeEditWords.noYield) return notices;
  const kept = yieldText(own);
  if (notices.some((one) => one.code === 'printed yield'))
    return notices.map((one) => (one.code === 'printed yield' ? { ...one, values: { ...one.values, kept } } : one));
  const values = { computed: yieldText(expected), kept };
  return [...notices, { level: 'note', code: 'printed yield kept', values, at: { step: step.id } }];
}

function yieldNotices(
  step: Step,
  percent: PrintedNumber | null,
  lowest: Figure<'%'>,
  highest: Figure<'%'>,
  theory: Figure<'g'>,
): readonly Notice[] {
  const at = { step: step.id };
  const over = highest.value > 100;
  const more: readonly Notice[] = over
    ? [{ level: 'caution', code: 'printed yield over', values: { computed: highest.value, theory: theory.value }, at }]
    : [];
  if (!percent) return more;
  const ends: readonly (readonly [number, number])[] =
    percent.least === percent.most && lowest.value !== highest.value
      ? [[percent.value, nearest(percent.value, lowest.value, highest.value)]]
      : [
          [percent.least, lowest.value],
          [percent.most, highest.value],
        ];
  const seen = ends.map(([print, value]) => ({
    print,
    value,
    agreement: agreementOf(sameDigits(print, percent), exactly(value)),
  }));
  const worst = seen.find((one) => one.agreement === 'differs') ?? seen.find((one) => one.agreement === 'cut off');
  if (!worst) return more;
  const values = { printed: worst.print, computed: worst.value };
  return worst.agreement === 'differs'
    ? [...more, { level: 'caution', code: 'printed yield', values, at }]
    : [...more, { level: 'note', code: 'printed yield cut off', values, at }];
}

function sameDigits(value: number, of: PrintedNumber): PrintedNumber {
  const half = of.unit / 2;
  const [low, high] = [value - half, value + half];
  return { value, low, high, unit: of.unit, roundLow: low, roundHigh: high, least: value, most: value };
}

function nearest(value: number, low: number, high: number): number {
  return Math.min(Math.max(value, low), high);
}
