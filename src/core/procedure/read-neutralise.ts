import type { ParseProblem } from '../quantity/parse.ts';
import type { PlainRule } from '../route/route.ts';
import { routeEditWords } from '../words/route-edit-words.ts';

const NUMBER = String.raw`(\d+(?:[.,]\d+)?)`;
const START = /^\s*(?:to\s+)?neutrali[sz]e/i;
const WHOLE = new RegExp(
  String.raw`^\s*(?:to\s+)?neutrali[sz]e\s*,?\s*(?:to\s+)?pH\s*${NUMBER}\s*(?:,?\s*(?:with\s+)?${NUMBER}\s*%(?:\s+excess)?)?\s*$`,
  'i',
);

/** Reads "to neutralise, to pH 7 with 10 % excess"; null where a text says nothing of the kind. */
export function readNeutralise(
  text: string,
): { readonly ok: true; readonly rule: Extract<PlainRule, { kind: 'to neutralise' }> } | ParseProblem | null {
  if (!START.test(text)) return null;
  const found = WHOLE.exec(text);
  const said = (part: string | undefined): number => Number((part ?? '').replace(',', '.'));
  const endPH = said(found?.[1]);
  if (!found || endPH < 2 || endPH > 12) return { ok: false, at: 0, words: routeEditWords.neutralise };
  const excessPercent = said(found[2]);
  if (excessPercent > 1000) return { ok: false, at: 0, words: routeEditWords.neutralise };
  return { ok: true, rule: { kind: 'to neutralise', endPH, ...(excessPercent > 0 ? { excessPercent } : {}) } };
}
