import type { ParseProblem } from '../quantity/parse.ts';
import type { ChargeRule, PlainRule, Step } from '../route/route.ts';
import { neutraliseText, ratioDigits } from '../words/routes-words.ts';
import { readNeutralise } from './read-neutralise.ts';
import { saidRule } from './ratios.ts';
import { readPrinted } from './read-printed.ts';
import { plain } from './step-charges.ts';

/** A ratio as it is typed: "1.2 equiv", "4 mL/g", "0.05 g/g", "to 0.5 mol/L", "up to 500 mL/mol", "20 mL each batch". */
export function ratioText(rule: ChargeRule): string {
  const one = plain(rule);
  switch (one.kind) {
    case 'basis':
      return 'basis';
    case 'equivalents':
      return `${ratioDigits(one.equivalents)} equiv`;
    case 'mass ratio':
      return `${ratioDigits(one.gramsPerGram)} g/g`;
    case 'volumes':
      return `${ratioDigits(one.millilitresPerGram)} mL/g`;
    case 'molar volume':
      return `${ratioDigits(one.millilitresPerMole)} mL/mol`;
    case 'to concentration':
      return `to ${ratioDigits(one.molesPerLitre)} mol/L`;
    case 'make up to':
      return `up to ${ratioDigits(one.millilitresPerMole)} mL/mol`;
    case 'per batch':
      return `${ratioDigits(one.amount)} ${one.unit} each batch`;
    case 'to neutralise':
      return neutraliseText(one);
  }
}

/** The one number of a rule; 1 for the basis. */
export function ratioNumber(rule: PlainRule): number {
  switch (rule.kind) {
    case 'basis':
      return 1;
    case 'equivalents':
      return rule.equivalents;
    case 'mass ratio':
      return rule.gramsPerGram;
    case 'volumes':
      return rule.millilitresPerGram;
    case 'molar volume':
    case 'make up to':
      return rule.millilitresPerMole;
    case 'to concentration':
      return rule.molesPerLitre;
    case 'per batch':
      return rule.amount;
    case 'to neutralise':
      return rule.endPH;
  }
}

/** Reads a ratio as `ratioText` writes it, and "5 mol %", "10 % excess", "5 wt %", "10 volumes" besides. */
export function readRatio(
  text: string,
  step: Step,
  material: string,
): { readonly ok: true; readonly rule: PlainRule } | ParseProblem {
  const neutral = readNeutralise(text);
  if (neutral) return neutral;
  const printed = readPrinted(text);
  if (!printed.ok) return printed;
  const said = saidRule(printed, step, material, null);
  if (said?.ok) return { ok: true, rule: said.rule };
  const excess = printed.excessPercent !== undefined;
  const words = excess
    ? 'an excess is over what the equation needs, and the equation does not use this material'
    : 'a ratio is expected here, such as 1.2 equiv, 5 mol %, 4 mL/g or to 0.5 mol/L';
  return { ok: false, at: 0, words };
}
