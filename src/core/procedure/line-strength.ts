import { readPrinted } from './read-printed.ts';

/** The strength in a line, however it is printed; and words in a bracket that say something of the material. */

const NUMBER = String.raw`\d+(?:[.,]\d+)?`;
/** "20 % w/w aqueous solution", "10 wt % Pd" in a bracket: what stands behind the strength goes with it. */
const DISSOLVED = String.raw`(?:\s+(?:aq\.?\s+|aqueous\s+)?(?:solution|soln\.?)(?=\s*[,;)])|\s+aqueous(?=\s*[,;)])|\s*aq\.?(?=[\s,;)])|\s+(?:Pd|Pt|Rh|Ru|Ni)(?=\s*[,;)]))?`;
export const STRENGTH = new RegExp(
  String.raw`(?<!\bto\s|[\d.,\p{L}])(${NUMBER})\s*(?:%\s*\(?[wvm]\s*/\s*[wv]\)?|mol/L|mol\s?L⁻¹|mol\s?(?:L|dm)-[13]|mol/dm3|mol/kg|g/L|M|N)(?=[\s,;)]|$)${DISSOLVED}`,
  'u',
);
/** "10 wt% sodium hydroxide, 50 mL": of what is measured by volume it is a strength; of a solid it is a loading. */
const WEIGHT_PERCENT = new RegExp(
  String.raw`(?<![\d.,\p{L}])(${NUMBER})\s*(?:wt|weight)\.?[\s-]*%(?!\s*(?:loading|of))${DISSOLVED}`,
  'iu',
);
/** "30 wt % in methanol", "12.5 wt% aq.": said to be dissolved, it is a strength beside grams too. */
const SAID_DISSOLVED =
  /(?:wt|weight)\.?[\s-]*%\s*(?:aq\b|aqueous\b|(?:aqueous\s+)?(?:solution|soln)\b|dispersion\b|suspension\b|in\s+\p{L})/iu;
const BY_VOLUME = /\d\s*(?:µL|mL|ml|L|l)(?=[\s,;)]|$)/;

/** "5 wt% Pd/C, 0.5 g": beside grams the metal that the support holds, not a loading. */
const SUPPORTED = /\/\s*(?:C|Al2O3|SiO2|BaSO4|CaCO3)\b|\bon\s+(?:activated\s+)?(?:carbon|charcoal|alumina|silica|kieselguhr)/i;
const BY_MASS = /\d\s*(?:mg|g|kg)(?=[\s,;)]|$)/;

const WORD = String.raw`[\p{L}][\p{L}\d'·-]*`;
/** The solvent of a solution whose strength is named: "2.5 M in hexane", "1 M in CH2Cl2", "60 % w/w dispersion in mineral oil". */
export const SOLVENT = new RegExp(
  String.raw`\s+(?:(?:dispersion|suspension|solution|soln\.?)\s+)?in\s+((?:\d[\d,]*-)?${WORD}(?:\s+${WORD})*?)(?=\s*(?:[,;()]|$|\s\d))`,
  'u',
);

const NAMED_WORDS = String.raw`con(?:c(?:d|entrated)?)?\.|conc|concd|concentrated|fuming|glacial|sat(?:d)?\.?|saturated|dil\.?|diluted?`;
const NAMED = new RegExp(String.raw`^(${NAMED_WORDS})(?:\s+|$)`, 'i');
const NAMED_BEHIND = new RegExp(String.raw`\s(${NAMED_WORDS})$`, 'i');

/** The strength a line gives; a weight per cent only of what is measured by volume, and of a metal on a support. */
export function strengthIn(text: string): RegExpExecArray | null {
  const holds = BY_VOLUME.test(text) || SAID_DISSOLVED.test(text) || (SUPPORTED.test(text) && BY_MASS.test(text));
  return STRENGTH.exec(text) ?? (holds ? WEIGHT_PERCENT.exec(text) : null);
}

const BEFORE_NAME = new RegExp(
  String.raw`^\s*${NUMBER}\s*(?:%\s*\(?[wvm]\s*/\s*[wv]\)?|(?:wt|weight)\.?[\s-]*%|%(?!\s*\(?[wvm]\s*/)|mol/L|mol/kg|g/L|M|N)\s+(?:(?:aq\.?|aqueous)\s+)?(?:(?:solution|soln\.?)\s+of\s+)?(?=\p{L}|\d+-|\()`,
  'iu',
);

/** The strength that stands before a name as it is typed, with nothing behind the name yet: "5 % w/w " of "5 % w/w brine". */
export function strengthBefore(text: string): string {
  return BEFORE_NAME.exec(text)?.[0] ?? '';
}

/** A strength in the spelling the amounts' reader knows. */
export function tidyStrength(text: string): string {
  const tidy = text
    .replaceAll(/[()\s]+/g, ' ')
    .replace(/\bm\s*\/\s*/, 'w/')
    .replace(/\s*(?:aq\.?|aqueous|(?:Pd|Pt|Rh|Ru|Ni)(?=\s*$))?(?:\s+(?:solution|soln\.?))?\s*$/i, '')
    .replace(/(?:wt|weight)\.?[\s-]*%/i, '% w/w')
    .trim();
  const parts = /^([\d.,]+)\s*(.*)$/.exec(tidy);
  const unit = (parts?.[2] ?? '')
    .replaceAll(/\s*\/\s*/g, '/')
    // What a normal solution holds of a mole depends on the material: `normalIn` says that it has to be looked up.
    .replace(/^[MN]$/, 'mol/L')
    .replace(/^mol(?: ?L⁻¹| ?L-1| ?dm-3|\/dm3)$/, 'mol/L');
  return `${parts?.[1] ?? ''} ${unit}`;
}

/** The normality a strength is given as: "6 N"; null for any other. */
export function normalIn(strength: string): number | null {
  const found = new RegExp(String.raw`^(${NUMBER})\s*N$`).exec(strength.replace(/\s*aq\.?$/i, '').trim());
  return found ? Number((found[1] ?? '').replace(',', '.')) : null;
}

/** A strength that is only named, in one word: "concentrated", "saturated"; null where the words name none. */
export function namedWord(said: string): string | null {
  const word = NAMED.exec(said)?.[1];
  if (word === undefined) return null;
  if (/^sat/i.test(word)) return 'saturated';
  if (/^dil/i.test(word)) return 'dilute';
  return /^con/i.test(word) ? 'concentrated' : word.toLowerCase();
}

/** "conc. sulfuric acid", "sulfuric acid conc.": the name alone, and the strength it names. */
export function withoutNamed(name: string): { readonly name: string; readonly word: string | null } {
  const before = NAMED.exec(name);
  if (before && before[0].length < name.length) return { name: name.slice(before[0].length), word: namedWord(before[0]) };
  const behind = NAMED_BEHIND.exec(name);
  return behind ? { name: name.slice(0, behind.index), word: namedWord(behind[1] ?? '') } : { name, word: null };
}

export interface Asides {
  readonly text: string;
  /** "conc.", "anhydrous", "turnings", "sat. aq.". */
  readonly said: readonly string[];
  /** "4:1" of a mixture: part of its name. */
  readonly parts: string | null;
}

const BRACKET = /\(([^()]*)\)/g;

/** Words in a bracket beside an amount: "H2SO4 (conc., 2.7 mL)", "Mg (turnings, 0.24 g)", "MeOH/H2O (4:1, 50 mL)". */
export function withoutAsides(line: string): Asides {
  const said: string[] = [];
  let parts: string | null = null;
  const text = line.replaceAll(BRACKET, (whole, inside: string, at: number) => {
    const pieces = inside.split(/([,;](?!\d)|(?<!\d),)/);
    const isAside = pieces.map((piece, i) => i % 2 === 0 && asideOf(piece));
    const behind = /\d\s*(?:mg|kg|g|µL|mL|ml|L|mmol|mol)\s+$/.test(line.slice(0, at));
    const alone = pieces.length === 1 && !behind && !DRYNESS.test(inside.trim()) && namedWord(inside.trim()) === null;
    if (alone || !isAside.includes(true)) return whole;
    const kept = pieces.map((piece, i) => {
      if (!isAside[i]) return i % 2 === 1 && isAside[i - 1] ? ' '.repeat(piece.length) : piece;
      if (PARTS.test(piece.trim())) parts = piece.trim();
      else if (BY_WHAT.test(piece.trim())) return ' '.repeat(piece.length);
      else said.push(piece.trim());
      return ' '.repeat(piece.length);
    });
    return kept.every((piece) => piece.trim() === '') ? ' '.repeat(whole.length) : `(${kept.join('')})`;
  });
  return { text, said, parts };
}

const PARTS = /^\d+(?:\.\d+)?\s*:\s*\d+(?:\.\d+)?(?::\d+)?(?:\s*v\s*\/\s*v)?$/;
/** "(9:1, v/v)": what the parts before it are parts of. */
const BY_WHAT = /^(?:by\s+)?[vw]\s*\/\s*[vw]$/i;
const DRYNESS = /^(?:anhydrous|dry|dried)$/i;

/** Whether a piece of a bracket is words, not an amount or a strength: two letters at least, and no figure but "4:1". */
function asideOf(piece: string): boolean {
  const text = piece.trim();
  if (PARTS.test(text) || BY_WHAT.test(text)) return true;
  return /\p{L}{2}/u.test(text) && !/\d/.test(text) && !/^(?:in|of)\s/i.test(text) && !readPrinted(text).ok;
}
