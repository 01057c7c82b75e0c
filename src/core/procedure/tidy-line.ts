/**
 * A line as procedures print it, in the spelling the reader knows: every character keeps its place, so that a problem can
 * point at what was typed.
 */

/** The text with a found piece made blank, so that every other character keeps its place. */
export function blanked(text: string, found: RegExpExecArray | null): string {
  if (!found) return text;
  return text.slice(0, found.index) + ' '.repeat(found[0].length) + text.slice(found.index + found[0].length);
}

/**
 * Units as older procedures print them: "20 g.", "50 cc.", "60 cm³", "0.1 mole", "6.5 gms.", "0.1 g-atom", "0.1 gram-mole",
 * a Greek mu for micro.
 */
const OLD_UNITS =
  /(?<=\d\s?)(?:(?:g\.?|gm\.?|gram)[- ]?\s?(?:moles?|mol\.?|atoms?\.?)|(mg|kg|g|ml|mL|l|L|mol|mmol)\.|(mg|milligram)[- ]?atoms?\.?|(gms?|grams?)\.|c\.?c\.?|cm(?:3|³)|moles?)(?=[\s,;)]|$)/g;

/** How it is added, said without a comma before it. */
const MANNER =
  /(?<!freshly|ice)\s(?=(?:dropwise|portion-?wise|in (?:small |several |one )?portions?|slowly|(?:with|under) (?:\p{L}+ )?(?:stirring|cooling)|(?:via|by|through|from) (?:an? )?(?:\p{L}+[- ])?(?:syringe|cannula|funnel|pump)|(?:(?:freshly |re)?distilled|anhydrous|degassed|molten|melted|ice[- ]?cold|cold|hot|warm|boiling|powdered)\s*$)\b)/giu;

/** "(6.5 mL) was added dropwise": what is done with it goes without saying. */
const ADDED = /\s+(?:was|were|is|are)\s+(?:then\s+|slowly\s+)?added(?=[\s,.;]|$)|(?<=\))\s+added(?=[\s,.;]|$)/gi;
/** "To the flask was added …", "To a stirred solution was added …": where to is no part of the name. */
const TO_WHAT = /^\s*(?:to|into)\s[^,;()\d]{1,80}?\s(?:was|were|is|are)\s+(?:then\s+|slowly\s+)?(?:added|charged)\s+/i;
/** A degree of a power with a long dash: "2 mol dm–3". */
const POWER = /(?<=\b(?:dm|cm|L|l|mL|ml|mol|g)\s?)[–−](?=[13](?!\d))/g;

const UNIT = String.raw`(?:mg|g|ml|mL|L|cc|cm3|cm³)`;
const COUNTED: Readonly<Record<string, number>> = { two: 2, three: 3, four: 4, five: 5, six: 6 };
const COUNT = String.raw`\d{1,3}|two|three|four|five|six`;
/** "3 portions of 3.1 g", "three times with 50 mL", "two 25-mL portions": so many times. */
const TIMES = new RegExp(
  String.raw`\b(${COUNT})\s+(?:(?:portions?|parts)\s+of|times(?:\s+with)?)\s+(?=\d)|\b(two|three|four|five|six)\s+(?=\d+(?:\.\d+)?[\s-]*${UNIT}\b)`,
  'gi',
);
/** "50 mL water twice", "ether (30 mL) three times": so many times, behind all of it. */
const TIMES_BEHIND = new RegExp(
  String.raw`^(.*?)(?<![×x*]\s*)(?<![\d.,])(\d[\d.,]*\s*${UNIT}\b)([^\d]*?)[\s,]+(twice|thrice|(?:two|three|four|five|six|\d{1,2})\s+times|[×x]\s?\d{1,2})\s*$`,
  'i',
);
/** "10 mL × 2": the portions behind the amount. */
const BEHIND = new RegExp(String.raw`(\d[\d.,]*\s*${UNIT})(\s*[×x*]\s*)(\d{1,2})(?=\s*(?:[,;)]|$))`, 'g');
/** "9.4 mL = 10.2 g", "9.31 g/0.1 mol", "(= 0.1 mol)": another amount of the same material. */
const EQUALS =
  /(?<=\d\s?(?:mg|g|µL|mL|ml|L|mmol|mol)\s?)(?:[=≙≡]|\/(?=\s*[\d.,]+\s*(?:mg|g|µL|mL|ml|L|mmol|mol|equiv|eq)\b))(?=\s*\d)|(?<=\(\s*)[=≙≡](?=\s*\d)/g;
const HYPHEN = new RegExp(String.raw`(?<=\d)-(?=${UNIT}\b)`, 'g');
const PORTIONS_BEHIND = new RegExp(String.raw`(?<=\d\s?${UNIT}\.?)\s+(?:portions?|each)(?=\s*(?:of\b|[,;)]|$))`, 'g');

/** "twice", "three times", "× 2": how often. */
function timesIn(said: string): string {
  const word = said.toLowerCase();
  if (word === 'twice') return '2';
  if (word === 'thrice') return '3';
  const [first = ''] = word.split(/\s+/);
  return String(COUNTED[first] ?? /\d+/.exec(word)?.[0] ?? '1');
}

/** The same text, every character at its place. */
export function tidyLine(text: string): string {
  return text
    .replaceAll('μ', 'µ')
    .replace(TO_WHAT, (found) => ' '.repeat(found.length))
    .replaceAll(POWER, '-')
    .replaceAll(TIMES, (found, first?: string, second?: string) => {
      const count = first ?? second ?? '';
      return `${COUNTED[count.toLowerCase()] ?? count} ×`.padEnd(found.length);
    })
    .replaceAll(HYPHEN, ' ')
    .replace(TIMES_BEHIND, (found, head: string, amount: string, rest: string, times: string) =>
      `${head}${timesIn(times)} × ${amount}${rest}`.padEnd(found.length),
    )
    .replaceAll(BEHIND, (_, amount: string, sign: string, count: string) => `${count}${sign}${amount}`)
    .replaceAll(EQUALS, ',')
    .replaceAll(PORTIONS_BEHIND, (found) => ' '.repeat(found.length))
    .replaceAll(OLD_UNITS, (found, unit?: string, milli?: string, gram?: string) =>
      (unit ?? (milli ? 'mmol' : gram ? 'g' : found.startsWith('c') ? 'mL' : 'mol')).padEnd(found.length),
    )
    .replaceAll(ADDED, (found) => ','.padEnd(found.length))
    .replaceAll(MANNER, ',')
    .replaceAll(/\(\s*aq\.?\s*\)/gi, (found) => ' '.repeat(found.length));
}

const NUMBER = String.raw`\d+(?:[.,]\d+)?`;
const PER_VOLUME = String.raw`g\s*(?:\/\s*(?:mL|ml|cm3|cm³)|(?:mL|ml|cm)\s*(?:-1|⁻¹|-3|⁻³|−3))`;
const DENSITY = new RegExp(
  String.raw`(?:[,;(]\s*(?:d(?:ensity)?\b\.?|d(?=\d))|[,;(\s]\s*(?:sp(?:ecific|\.)?\s*gr(?:avity|\.)?|relative density|rel\.\s?density))\s*(?:of\s*|=\s*)?(${NUMBER})(?:\s*${PER_VOLUME})?\s*(?:\)|(?=[,;)]|$)|(?=\s\d))`,
  'i',
);

/** A density that is printed with the amount, and the text without it. */
export function withoutDensity(text: string): { readonly text: string; readonly density: string | null } {
  const found = DENSITY.exec(text);
  // A bracket that is opened for it alone is closed with it; else its bracket stays.
  if (!found || (found[0].startsWith('(') && !found[0].endsWith(')'))) return { text, density: null };
  const kept = found[0].endsWith(')') && !found[0].startsWith('(') ? ')' : '';
  const blank = ' '.repeat(found[0].length - kept.length) + kept;
  return { text: text.slice(0, found.index) + blank + text.slice(found.index + found[0].length), density: found[1] ?? null };
}
