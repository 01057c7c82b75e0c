import type { Mark } from '../quantity/figure.ts';

/** How a procedure says a temperature without a number. A word, and never a limit. */
export const BATHS = ['room temperature', 'ice bath', 'ice–salt bath', 'dry ice–acetone bath', 'reflux'] as const;
export type Bath = (typeof BATHS)[number];

/** What a bath's word usually comes to, °C. */
export interface Usual {
  readonly from: number;
  readonly to: number;
  readonly source: string;
  readonly mark: Mark | null;
}

const PRACTICE = { source: 'usual meaning of the word', mark: 'common practice, no source' } as const;

/**
 * What the words usually come to. Read: probsee.com, “Cooling bath” (salt and ice −5 to −20 °C, dry ice and acetone −78 °C); a
 * teaching page that gives −21 °C for three parts of ice and one of salt agrees. Reflux is at what boils: no number here.
 */
const USUAL: Readonly<Record<Bath, Usual | null>> = {
  'room temperature': { from: 20, to: 25, ...PRACTICE },
  'ice bath': { from: 0, to: 5, ...PRACTICE },
  'ice–salt bath': { from: -20, to: -5, source: '“Cooling bath”, probsee.com', mark: null },
  'dry ice–acetone bath': { from: -78, to: -78, source: '“Cooling bath”, probsee.com', mark: null },
  reflux: null,
};

/** What a bath's word usually comes to, °C; null for reflux, which is at what boils. Source: as each says. */
export function usualOf(bath: Bath): Usual | null {
  return USUAL[bath];
}

const IN = String.raw`(?:in|on|over|with|using|under)\s+(?:an?\s+|the\s+)?`;
const BATH = String.raw`(?:[\s-]*bath(?:\s+cooling)?)`;
const JOINT = String.raw`\s*(?:[-–/]|and|in|with|\s)\s*`;
const WORDS: readonly (readonly [Bath, string])[] = [
  ['dry ice–acetone bath', String.raw`(?:${IN})?(?:dry[\s-]?ice|solid\s+CO2|CO2)${JOINT}acetone${BATH}?`],
  ['ice–salt bath', String.raw`(?:${IN})?(?:ice${JOINT}(?:(?:common\s+)?salt|NaCl)|salt${JOINT}ice)${BATH}?`],
  ['ice bath', String.raw`(?:${IN})?ice(?:[\s–-]+water)?${BATH}|(?:in|on)\s+ice(?:[\s–-]+water)?`],
  ['room temperature', String.raw`(?:at\s+)?(?:rt|r\.\s?t\.|(?:room|ambient)\s+temp(?:erature|\.)?)`],
  ['reflux', String.raw`(?:at|under)\s+(?:reflux|the\s+boil)|reflux`],
];
const WHOLE = WORDS.map(([bath, words]) => [bath, new RegExp(`^\\s*(?:${words})\\s*$`, 'iu')] as const);

/** In a line, a bath is told from a material ("ice", "acetone") by the word bath, or by what stands before it. */
const WITHIN = (
  [
    ['dry ice–acetone bath', String.raw`(?:${IN})?(?:dry[\s-]?ice|solid\s+CO2|CO2)${JOINT}acetone${BATH}`],
    ['ice–salt bath', String.raw`(?:${IN})?(?:ice${JOINT}(?:(?:common\s+)?salt|NaCl)|salt${JOINT}ice)${BATH}`],
    ['ice bath', String.raw`(?:${IN})?ice(?:[\s–-]+water)?${BATH}`],
    ['room temperature', String.raw`at\s+(?:rt|r\.\s?t\.|(?:room|ambient)\s+temp(?:erature|\.)?)`],
    ['reflux', String.raw`(?:at|under)\s+reflux`],
  ] as const
).map(([bath, words]) => [bath, new RegExp(String.raw`[,;]?\s*\b(?:${words})(?![\p{L}\d])`, 'iu')] as const);

/** Where a line says its bath: "…, in an ice bath", "… at rt"; null where it says none. */
export function bathIn(line: string): { readonly bath: Bath; readonly found: RegExpExecArray } | null {
  for (const [bath, words] of WITHIN) {
    const found = words.exec(line);
    if (found) return { bath, found };
  }
  return null;
}

/** The bath that a text names, whole: "ice bath", "at rt", "in dry ice/acetone"; null where it names none. */
export function readBath(text: string): Bath | null {
  return WHOLE.find(([, words]) => words.test(text))?.[0] ?? null;
}
