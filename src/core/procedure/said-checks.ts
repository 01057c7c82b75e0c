import type { Figure } from '../quantity/figure.ts';
import type { Step } from '../route/route.ts';
import type { Notice, Place } from '../words/notice.ts';
import { agreementOf, type PrintedNumber, productSpan, type Span } from './printed-number.ts';
import { type ChargedAmount, neededPerMole, type PrintedBasis, ratioOf, type RuleKind } from './ratios.ts';
import { ratioNumber } from './ratio-text.ts';
import type { Printed } from './read-printed.ts';

/** A ratio that is printed beside an amount, held against what the amounts come to. */
export interface SaidPrint {
  readonly printed: Printed;
  readonly basis: PrintedBasis | null;
  readonly step: Step;
  readonly material: string;
  readonly amount: ChargedAmount;
  readonly equivalents: Figure<''> | null;
  readonly at: Place;
}

type Field = 'equivalents' | 'molePercent' | 'loadingPercent' | 'gramsPerGram' | 'millilitresPerGram';

/** How each printed ratio follows from the number of a rule. */
const SAID: readonly { readonly field: Field; readonly unit: string; readonly kind: RuleKind; readonly factor: number }[] = [
  { field: 'equivalents', unit: 'equiv', kind: 'equivalents', factor: 1 },
  { field: 'molePercent', unit: 'mol %', kind: 'equivalents', factor: 100 },
  { field: 'loadingPercent', unit: 'wt %', kind: 'mass ratio', factor: 100 },
  { field: 'gramsPerGram', unit: 'g/g', kind: 'mass ratio', factor: 1 },
  { field: 'millilitresPerGram', unit: 'mL/g', kind: 'volumes', factor: 1 },
];

/**
 * A printed ratio beside a printed amount: a caution where neither the amounts nor the printed moles of the two, as finely
 * as they are printed, come to it. The ratio in use is the printed one.
 */
export function saidChecks(said: SaidPrint): readonly Notice[] {
  const { printed, basis, amount, at } = said;
  if (!basis || !(printed.grams ?? printed.millilitres ?? printed.moles)) return [];
  const values = { material: amount.name };
  const ratios = SAID.flatMap(({ field, unit, kind, factor }): readonly Notice[] => {
    const print = printed[field];
    if (!print) return [];
    const found = ratioOf(kind, amount, basis);
    // Told only where the printed amount took the place of the printed ratio.
    const unseen = kind === 'equivalents' && !amount.moles && basis.grams !== null;
    if (!found.ok)
      return unseen ? [{ level: 'note', code: 'ratio by amount', values: { ...values, printed: print.value, unit }, at }] : [];
    const computed = ratioNumber(found.rule) * factor;
    if (agrees(print, spanOf(computed, said)) || agrees(print, byMoles(said, kind, factor))) return [];
    if (field === 'equivalents')
      return [{ level: 'caution', code: 'printed equivalents', values: { ...values, printed: print.value, computed }, at }];
    return [{ level: 'caution', code: 'printed ratio', values: { ...values, printed: print.value, computed, unit }, at }];
  });
  return [...ratios, ...excessCheck(said)];
}

function excessCheck(said: SaidPrint): readonly Notice[] {
  const { printed, equivalents, step, material, amount, at } = said;
  const needed = neededPerMole(step, material);
  const print = printed.excessPercent;
  if (!print || !equivalents || needed === null) return [];
  const span = spanOf(equivalents.value / needed, said);
  const excess = { value: 100 * (span.value - 1), low: 100 * (span.low - 1), high: 100 * (span.high - 1) };
  if (agrees(print, excess)) return [];
  const values = { material: amount.name, printed: print.value, computed: excess.value, unit: '% excess' };
  return [{ level: 'caution', code: 'printed ratio', values, at }];
}

function agrees(print: PrintedNumber, span: Span | null): boolean {
  return span !== null && agreementOf(print, span) !== 'differs';
}

/** What a ratio of two printed amounts may be, as finely as both are printed. */
function spanOf(value: number, { printed, basis }: SaidPrint): Span {
  const wide = relative(printed) + relative(basis?.printed);
  return { value, low: value * (1 - wide), high: value * (1 + wide) };
}

function relative(printed: Printed | undefined): number {
  const one = printed?.grams ?? printed?.millilitres ?? printed?.moles;
  return one && one.value > 0 ? (one.high - one.low) / (2 * one.value) : 0;
}

/** The ratio of the printed moles themselves: a procedure rounds them before it counts equivalents. */
function byMoles({ printed, basis }: SaidPrint, kind: RuleKind, factor: number): Span | null {
  const [own, of] = [printed.moles, basis?.printed?.moles];
  if (kind !== 'equivalents' || !own || !of) return null;
  const span = productSpan([own], [of]);
  return { value: span.value * factor, low: span.low * factor, high: span.high * factor };
}
