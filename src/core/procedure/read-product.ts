import type { ParseProblem } from '../quantity/parse.ts';
import { inPlainNumbers } from './plain-numbers.ts';
import type { PrintedNumber } from './printed-number.ts';
import { numberIn, type Printed, readPrinted } from './read-printed.ts';
import { chargeLineWords as words } from '../words/charge-line-words.ts';
import { tidyLine } from './tidy-line.ts';

/** A printed product, with the per cent of the yield that is printed in the same line; null where none is. */
export type PrintedProduct = (Printed & { readonly percent: PrintedNumber | null }) | ParseProblem;

const NUMBER = String.raw`\d+(?:[.,]\d+)?`;
const OF_THEORY = String.raw`(?:yield|(?:of\s+)?(?:the\s+)?theor\w+(?:\s+(?:amount|yield|value))?)`;
/** "(64 %)", ", 64 %", "(92 % yield)", "(75–80 per cent)"; a percentage with its basis is an assay, not a yield. */
const PERCENT = new RegExp(
  String.raw`(?<lead>[,;(]?\s*)(?<number>${NUMBER}(?:\s*(?:-|–|—|to)\s*${NUMBER})?)\s*(?:%|per\s?cent)(?!\s*\(?[wvm]\s*/)(?:\s*${OF_THEORY})?(?<tail>\s*\)?)`,
  'i',
);
const LEAD = /^(?:crude|pure|dry|recrystalli[sz]ed|obtained:?|(?:the\s+)?yields?(?:\s+(?:is|was|of))?:?|yielded)\s+/i;
/** "a colorless oil (1.23 g, 92 %)": what it looks like, before its amounts. */
const LOOKS = /^[\p{L}][\p{L}\s-]*(?=\(\s*\d)/u;
/** How pure it is by some measure, which is no yield: "98 % ee", "99.2 area%", ">95:5 dr". */
const PURITY =
  /[,;]\s*[>~≥]?\s*\d+(?:[.,]\d+)?(?:\s*:\s*\d+(?:[.,]\d+)?)?\s*(?:%\s*(?:ee|de|er|dr|purity|pure|HPLC|GC)|area[\s-]*%|ee|er|dr)\b[^,;)]*|[,;]\s*[>~≥]?\s*\d+(?:[.,]\d+)?\s*area[\s-]*%/giu;
/** A yield that is that of several steps: of this one alone it says nothing. */
const STEPS = /(?:over|for|,)\s*(?:the\s+)?(?:\d|two|three|four|five)\s+steps\b/i;
/** What it looks like and how it melts: not an amount. */
const TAIL =
  /(?<=\d\s?(?:mg|kg|g|mL|ml|L|mmol|mol)|\))\s*[,;]?\s*\(?(?:of|as|crude|pure|dry|dried|after|recrystalli[sz]ed|isolated|obtained|m\.?\s?p\.?|b\.?\s?p\.?|lit\.?)\b.*$/i;

/** Reads what is printed of a product: "35–37 g", "0.12 g (0.64 mmol, 64 %)", "86–92 g. (75–80 %) of white crystals". */
export function readPrintedProduct(text: string): PrintedProduct {
  return inPlainNumbers(text, readPlainProduct);
}

function readPlainProduct(text: string): PrintedProduct {
  const tidy = tidyLine(text);
  const blank = (length: number): string => ' '.repeat(length);
  const several = STEPS.exec(tidy);
  if (several) return { ok: false, at: several.index, words: words.severalSteps };
  const plain = tidy.replaceAll(PURITY, (piece) => blank(piece.length));
  const lead = LEAD.exec(plain) ?? LOOKS.exec(plain);
  const from = lead ? blank(lead[0].length) + plain.slice(lead[0].length) : plain;
  const found = PERCENT.exec(from);
  const said = found?.groups?.number === undefined ? null : readPrintedYield(found.groups.number);
  if (said && !said.ok) return { ...said, at: found?.index ?? 0 };
  const rest = found ? withoutPercent(from, found) : from;
  const read = readPrinted(rest.replace(TAIL, (piece) => blank(piece.length)).trimEnd());
  return read.ok ? { ...read, percent: said?.percent ?? null } : read;
}

/** The text without its per cent; a bracket that was opened for more than that stays. */
function withoutPercent(text: string, found: RegExpExecArray): string {
  const { lead = '', tail = '' } = found.groups ?? {};
  const opens = lead.trim() === '(';
  const closes = tail.trim() === ')';
  const kept = (opens && !closes ? '(' : '') + (closes && !opens ? ')' : '');
  return text.slice(0, found.index) + kept.padStart(found[0].length) + text.slice(found.index + found[0].length);
}

const ABOUT = /^\s*(?:yield:?\s*)?(?:(?:about|ca\.?|approx\.?|approximately)\s+|[~≈]\s*)?/i;
const PERCENT_BEHIND = new RegExp(String.raw`\s*(?:%|per\s?cent)?(?:\s*${OF_THEORY})?\s*$`, 'i');

/**
 * Reads a printed yield: "91 %", "91–96 %", "about 80 per cent of theory". At most 100 %; above is a question about drying
 * or assay.
 */
export function readPrintedYield(text: string): { readonly ok: true; readonly percent: PrintedNumber } | ParseProblem {
  return inPlainNumbers(text, readPlainYield);
}

function readPlainYield(text: string): { readonly ok: true; readonly percent: PrintedNumber } | ParseProblem {
  const skip = ABOUT.exec(text)?.[0].length ?? 0;
  const body = text.slice(skip).replace(PERCENT_BEHIND, '');
  const odd = body.replace('to', '  ').search(/[^\d.,\seE–—−-]/);
  if (odd >= 0) return { ok: false, at: skip + odd, words: 'a percentage is expected here, such as 91 % or 91–96 %' };
  const read = numberIn(body, 0);
  if (!read.ok) return { ...read, at: skip + read.at };
  if (read.number.most > 100 || read.number.value === 0)
    return { ok: false, at: skip, words: `a yield needs to be over 0 and at most 100 % (got ${read.number.most} %)` };
  return { ok: true, percent: read.number };
}
