import { runStep } from '../plan/step/run-step.ts';
import type { PlainRule, Step } from '../route/route.ts';
import { formatSignificant } from '../quantity/format.ts';
import { publishedStep } from './published.ts';
import type { Known } from './printed-amount.ts';
import { expectedYield, sameYield } from './published-yield.ts';
import type { PrintedBasis } from './ratios.ts';
import { type Printed, readPrinted } from './read-printed.ts';
import { readPrintedProduct, readPrintedYield } from './read-product.ts';
import { routeEditWords as words } from '../words/route-edit-words.ts';
import { chargesOf, inside, plain, withRule } from './step-charges.ts';

/**
 * A charge's amount typed as printed: its rule follows, and so do all the others where it is the basis. An empty text
 * takes the print away and leaves the rule. A print that gives no ratio is kept as it stands, beside the old rule.
 */
export function withPrint(step: Step, operation: string, text: string, known: Known): Step {
  const printed = text.trim();
  const isBasis = chargesOf(step).some((one) => one.id === operation && one.rule.kind === 'basis');
  const typed: Step = {
    ...step,
    operations: step.operations.map((one) => {
      if (one.do !== 'charge' || one.id !== operation) return one;
      const { printed: _, ...rest } = one;
      return printed === '' ? rest : { ...rest, printed };
    }),
  };
  return withRatios(typed, known, isBasis ? null : operation);
}

/**
 * The step with the rules, strengths and portions its prints give. @param only one operation, or null for all of them.
 */
export function withRatios(step: Step, known: Known, only: string | null = null): Step {
  const published = publishedStep(step, known);
  return {
    ...step,
    operations: step.operations.map((one) => {
      const found = one.do === 'charge' && (only === null || only === one.id) ? published.charges.get(one.id) : undefined;
      if (!found || one.do !== 'charge') return one;
      const { portions, ...rest } = one;
      const named = found.printed.strength !== undefined || found.printed.density !== undefined;
      return {
        ...rest,
        ...(named ? { form: found.form } : {}),
        ...(found.rule ? { rule: found.rule } : {}),
        ...portionsOf(found.printed, portions),
      };
    }),
  };
}

/**
 * Product and yield typed as printed: the expected yield follows from the mass where the basis has a printed amount,
 * else from the printed per cent. Empty texts are taken away; what gives no yield leaves the step's own, and so does a
 * range that was entered by hand.
 */
export function withYield(step: Step, printed: NonNullable<Step['printed']>, known: Known): Step {
  const { printed: _, ...rest } = step;
  const texts = {
    ...(printed.product?.trim() ? { product: printed.product.trim() } : {}),
    ...(printed.yield?.trim() ? { yield: printed.yield.trim() } : {}),
  };
  const typed: Step = Object.keys(texts).length > 0 ? { ...rest, printed: texts } : rest;
  const expected = yieldOf(typed, known);
  const { yieldSource, ...own } = typed;
  if (expected === null) return yieldSource === words.yieldOfPrint ? own : typed;
  if (rangeByHand(step, known)) return typed;
  return { ...own, yieldPercent: expected, yieldSource: words.yieldOfPrint };
}

/** The yield that a step's print comes to. */
function yieldOf(step: Step, known: Known): Step['yieldPercent'] | null {
  return publishedStep(step, known).yield?.expected ?? saidYield(step.printed ?? {});
}

/** Whether the step expects a range that a person entered: more than one printed mass can tell, so no print takes it away. */
function rangeByHand(step: Step, known: Known): boolean {
  const own = step.yieldPercent;
  return typeof own === 'object' && step.yieldSource !== words.noYield && !sameYield(own, yieldOf(step, known));
}

function saidYield({ product, yield: text }: NonNullable<Step['printed']>): Step['yieldPercent'] | null {
  const read = text === undefined ? null : readPrintedYield(text);
  const made = product === undefined ? null : readPrintedProduct(product);
  const percent = read?.ok ? read.percent : made?.ok ? made.percent : null;
  return percent ? expectedYield(null, null, percent) : null;
}

/** Portions of the print; those of the charge where the print names a ratio only. */
function portionsOf(printed: Printed, own: number | undefined): { readonly portions?: number } {
  if (printed.portions > 1) return { portions: printed.portions };
  const amounts = printed.grams ?? printed.millilitres ?? printed.moles;
  return own !== undefined && !amounts ? { portions: own } : {};
}

/**
 * A charge's ratio typed: its print is written anew for the printed amount of the basis, in the units it had. Without a
 * printed basis, or where the amount cannot be worked out, a print that would no longer be true is taken away.
 */
export function withRatio(step: Step, operation: string, rule: PlainRule, known: Known): Step {
  const charge = chargesOf(step).find((one) => one.id === operation);
  if (!charge || charge.rule.kind === 'basis') return step;
  const changed = withRule(step, operation, inside(charge.rule, rule));
  if (charge.printed === undefined) return changed;
  const { basis } = publishedStep(step, known);
  const text = basis && printFor(changed, operation, basis, known);
  return {
    ...changed,
    operations: changed.operations.map((one) => {
      if (one.do !== 'charge' || one.id !== operation) return one;
      const { printed: _, ...rest } = one;
      return text ? { ...rest, printed: text } : rest;
    }),
  };
}

/** Digits a computed print is written with: more than any balance in a procedure shows. */
const PRINT_DIGITS = 6;

/**
 * What the step's own rule comes to for the printed basis, written as a print: grams, millilitres and moles as the old
 * print named them, else the first that is known. Null where none is.
 */
export function printFor(step: Step, operation: string, basis: PrintedBasis, known: Known): string | null {
  const run = runStep({ step, ...known, basisMoles: basis.moles, batches: 1 }).charges.find((one) => one.charge.id === operation);
  if (!run?.amount) return null;
  const old = run.charge.printed === undefined ? null : readPrinted(run.charge.printed);
  const { grams, millilitres, moles } = run.amount;
  const write = (value: number, unit: string): string => `${trimmed(value)} ${unit}`;
  const portions = run.charge.portions ?? 1;
  const written = (of: Printed | null): readonly string[] => [
    ...(grams.ok && (of === null || of.grams) ? [write(grams.figure.value / portions, 'g')] : []),
    ...(millilitres.ok && (of === null || of.millilitres) ? [write(millilitres.figure.value / portions, 'mL')] : []),
    ...(moles.ok && (of === null || of.moles) ? [write(moles.figure.value / portions, 'mol')] : []),
  ];
  const named = old?.ok ? written(old) : [];
  const parts = named.length > 0 ? named : written(null).slice(0, 1);
  const [first, ...more] = parts;
  if (first === undefined) return null;
  const whole = plain(run.charge.rule).kind === 'per batch' ? `${first} each batch` : first;
  const amount = portions > 1 ? `${portions} × ${whole}` : whole;
  return more.length > 0 && portions === 1 ? `${amount} (${more.join(', ')})` : amount;
}

/** A number without zeros it never earned: 21.0211, 0.1, 250. */
function trimmed(value: number): string {
  const text = formatSignificant(value, PRINT_DIGITS);
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}
