import type { ParseProblem } from '../quantity/parse.ts';

/**
 * Numbers as older and other printers set them, in plain figures: "½ mole", "2·5 g", "5 × 10⁻³ mol", "1 250 mL",
 * "half a litre", "95 per cent". Only what can be read in one way; a figure that may belong to the name before it
 * ("Celite 545 100 g") is left, for `groupAsked`.
 */

/** A text, and where each of its characters stood before. */
interface Spelled {
  readonly text: string;
  readonly origin: readonly number[];
}

const UNIT = String.raw`(?:[kmµun]?g|[mµun]?[lL]|c\.?c|cm[3³]|[mµk]?mol|gm|grams?|lit(?:re|er)|millilit|mole|milli|micro|kilo|equiv|eq|vol|M|N|%|per\s?cent|°|min|h(?:ours?|rs?)?)(?![a-z\d]*H2O)`;
const UNIT_AHEAD = String.raw`(?=[\s-]*${UNIT}(?:s|es|\b|(?=[\s.,;)])|$)|[\s-]*%)`;
/** No digit, letter or sign of a formula before it: "CuSO4·5H2O" holds no 4·5. */
const ALONE = String.raw`(?<![\p{L}\d.,·∙⋅•)\]])`;

const FRACTIONS: Readonly<Record<string, string>> = { '½': '5', '¼': '25', '¾': '75', '⅓': '3333', '⅔': '6667', '⅛': '125' };
const FRACTION = new RegExp(String.raw`${ALONE}(?:(\d+)\s?)?([½¼¾⅓⅔⅛])(?!\s*H2O)`, 'gu');
const SLASHED = new RegExp(String.raw`${ALONE}(?:(\d+)\s)?([1-9])\/([2-9]|10|100)${UNIT_AHEAD}`, 'gu');

/** A raised point. */
const RAISED = new RegExp(
  String.raw`${ALONE}(\d+)[·∙⋅•](\d+)(?=\s*(?:[-–—×x*),;]|to\s|$))|${ALONE}(\d+)[·∙⋅•](\d+)${UNIT_AHEAD}`,
  'gu',
);

const SUPERSCRIPT = '⁰¹²³⁴⁵⁶⁷⁸⁹';
/** A power whose sign and digit stand on the line ("10-3") falls, so that it is no range of portions. */
const POWER = new RegExp(
  String.raw`${ALONE}(\d+)(?:[.,·∙⋅•](\d+))?\s*[×x*·∙⋅•]\s*10\s?(?:\^\s?([-−–+]?\d{1,2})|([⁻⁺]?[${SUPERSCRIPT}]{1,2})|([-−–]\d))${UNIT_AHEAD}`,
  'gu',
);

const GAP = String.raw`[\u2009\u202F\u00A0]`;
const GROUPED_THIN = new RegExp(String.raw`${ALONE}([1-9]\d{0,2}(?:${GAP}\d{3})+)(?=[.,]\d|${GAP}|\s|[-–—),;]|\p{L}|%|$)`, 'gu');
const GROUPED_PLAIN = String.raw`([1-9]\d{0,2}(?: \d{3})+)(?=(?:[.,]\d+)?[\s-]*${UNIT}(?:\b|(?=\s)))(?!\s*\S+\s+portions?)`;
const BEGINS = String.raw`(?<=^\s*|[(,;:=×~]\s*|\b(?:of|with|about|approximately|and|add|to)\s|\bca\.?\s)`;
const GROUPED = new RegExp(BEGINS + GROUPED_PLAIN, 'gu');
const ASKED = new RegExp(String.raw`(?<=\s)([1-9]\d{0,2}(?: \d{3})+)(?:[.,]\d+)?[\s-]*(${UNIT})(?:\b|(?=\s))`, 'u');

const COUNTED: Readonly<Record<string, string>> = {
  a: '1',
  an: '1',
  one: '1',
  two: '2',
  three: '3',
  four: '4',
  five: '5',
  six: '6',
  eight: '8',
  ten: '10',
};
const MEASURE = String.raw`(?=(?:lit(?:re|er)s?|moles?|grams?|kilograms?|equivalents?|volumes?)\b)`;
const HALF = new RegExp(String.raw`\b(?:(?:one[- ])?half(?:\s+an?)?|a\s+half)\s+${MEASURE}`, 'gi');
const COUNT = new RegExp(String.raw`\b(an?|one|two|three|four|five|six|eight|ten)\s+${MEASURE}`, 'gi');
const PER_CENT = /(?<=(?:\d|\bmole?|\bwt\.?|\bweight)\s*)per\s?cent\b\.?/gi;

/** Reads a text in plain figures; a problem's place is that in the text as it was typed. */
export function inPlainNumbers<T extends { readonly ok: boolean }>(
  typed: string,
  read: (text: string) => T | ParseProblem,
): T | ParseProblem {
  const { text, origin } = plain(typed);
  const found = read(text);
  return 'at' in found && !found.ok ? { ...found, at: origin[Math.min(found.at, text.length)] ?? typed.length } : found;
}

/** "1 250 mL" where the first figure may belong to the name before it: what would be one number, and where it stands. */
export function groupAsked(text: string): { readonly at: number; readonly joined: string; readonly apart: string } | null {
  const found = ASKED.exec(text);
  if (!found) return null;
  const [first = '', ...rest] = found[0].trim().split(' ');
  return { at: found.index, joined: first + rest.join('').replace(/(?<=\d)(?=[^\d.,])/, ' '), apart: rest.join(' ') };
}

function plain(typed: string): Spelled {
  const from: Spelled = { text: typed, origin: [...typed.split('').keys(), typed.length] };
  const steps: readonly (readonly [RegExp, (parts: readonly (string | undefined)[]) => string])[] = [
    [POWER, (parts) => shifted(parts[1] ?? '', parts[2] ?? '', power(parts[3] ?? parts[4] ?? parts[5] ?? ''))],
    [RAISED, (parts) => `${parts[1] ?? parts[3] ?? ''}.${parts[2] ?? parts[4] ?? ''}`],
    [FRACTION, ([, whole = '0', sign = '']) => `${whole}.${FRACTIONS[sign] ?? ''}`],
    [
      SLASHED,
      ([, whole = '0', over = '1', under = '1']) => String(Number((Number(whole) + Number(over) / Number(under)).toFixed(4))),
    ],
    [GROUPED_THIN, ([, digits = '']) => digits.replaceAll(/\s/g, '')],
    [GROUPED, ([, digits = '']) => digits.replaceAll(' ', '')],
    [HALF, () => '0.5 '],
    [COUNT, ([, word = '']) => `${COUNTED[word.toLowerCase()] ?? word} `],
    [PER_CENT, () => '%'],
  ];
  return steps.reduce((spelled, [pattern, by]) => respelled(spelled, pattern, by), from);
}

function respelled({ text, origin }: Spelled, pattern: RegExp, by: (parts: readonly (string | undefined)[]) => string): Spelled {
  let made = '';
  const from: number[] = [];
  let last = 0;
  const keep = (to: number): void => {
    made += text.slice(last, to);
    from.push(...origin.slice(last, to));
  };
  for (const found of text.matchAll(pattern)) {
    keep(found.index);
    const spelled = by(found);
    made += spelled;
    from.push(...Array.from(spelled, () => origin[found.index] ?? 0));
    last = found.index + found[0].length;
  }
  keep(text.length);
  return { text: made, origin: [...from, origin.at(-1) ?? 0] };
}

function power(written: string): number {
  const plainDigits = written.replaceAll(/[⁰¹²³⁴-⁹]/g, (sign) => String(SUPERSCRIPT.indexOf(sign)));
  return Number(plainDigits.replace(/[⁻−–]/, '-').replace('⁺', '+'));
}

/** A decimal number times a power of ten, its digits kept: 5.0 and −3 are 0.0050. */
function shifted(whole: string, part: string, by: number): string {
  const digits = whole + part;
  const point = whole.length + by;
  if (point <= 0) return `0.${'0'.repeat(-point)}${digits}`;
  return point >= digits.length ? digits.padEnd(point, '0') : `${digits.slice(0, point)}.${digits.slice(point)}`;
}
