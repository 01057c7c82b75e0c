import type { ParseProblem } from '../quantity/parse.ts';
import { chargeLineWords as words } from '../words/charge-line-words.ts';
import { bathIn } from '../route/bath.ts';
import type { TemperatureWindow } from '../route/route.ts';
import { blanked } from './tidy-line.ts';

/** How warm and how long, as a line says it; what is not a number of minutes or degrees stays in its words. */
export interface Conditions {
  readonly ok: true;
  /** The line without them, every other character at its place. */
  readonly text: string;
  readonly temperature: TemperatureWindow | null;
  readonly overMinutes: number | null;
  readonly said: readonly string[];
}

const NUMBER = String.raw`\d+(?:[.,]\d+)?`;
const HOURS = String.raw`h(?:ours?|rs?)?`;
const MINUTES = String.raw`min(?:utes?|s)?`;
const WHILE = String.raw`[,;]?\s*\b(?:over|during|within|in)\s+(?:a period of\s+)?(?:about\s+|ca\.?\s+)?`;
const OVER = new RegExp(
  String.raw`${WHILE}(${NUMBER})\s*(${MINUTES}|${HOURS})\b\.?(?:\s*(?:and\s+)?(\d+)\s*${MINUTES}\b\.?)?`,
  'i',
);
const OVER_HALF = new RegExp(String.raw`${WHILE}(half an|an|one)\s+hour\b`, 'i');
/** Between two times: which of them is meant is the person's choice, so it stays as it is said. */
const OVER_SPAN = new RegExp(String.raw`${WHILE}${NUMBER}\s*(?:-|–|to)\s*${NUMBER}\s*(?:${MINUTES}|${HOURS})\b\.?`, 'i');
const DEGREES = String.raw`[-−–]?\d+(?:[.,]\d+)?`;
const AT = new RegExp(String.raw`[,;]?\s*\bat\s+(${DEGREES})(?:\s*°?\s*C?\s*(?:-|–|to)\s*(${DEGREES}))?\s*°?\s*C\b`, 'i');
const BARE_AT = new RegExp(String.raw`[,;]\s*(${DEGREES})(?:\s*°?\s*C?\s*(?:-|–|to)\s*(${DEGREES}))?\s*°\s*C\b`);
/** "hot water (90 °C, 100 mL)", "water 100 mL (90 °C)". */
const IN_BRACKET = new RegExp(
  String.raw`(?<=\(\s*)(${DEGREES})(?:\s*°?\s*C?\s*(?:-|–|to)\s*(${DEGREES}))?\s*°\s*C\s*,?(?=[\s)\d])`,
);
/** "petroleum ether (40–60 °C, 100 mL)", "hexanes (b.p. 65–70 °C)", "dried at 150 °C": what it is, not how warm it goes in. */
const BOILS = new RegExp(
  String.raw`(?<=\b(?:petrol(?:eum)?(?:[\s-](?:ether|spirit|benzin\w*))?|light petroleum|ligroin|naphtha)\s*[,(]?\s*)(?:b\.?\s?p\.?\s*)?${DEGREES}\s*°?\s*C?\s*(?:-|–|to)\s*${DEGREES}\s*°\s*C?,?|\bb\.?\s?p\.?\s*${DEGREES}(?:\s*°?\s*C?\s*(?:-|–|to)\s*${DEGREES})?\s*°\s*C?,?`,
  'i',
);
const DRIED = new RegExp(
  String.raw`[,;(]?\s*\b(?:(?:oven|flame)[\s-])?(?:dried|activated|calcined|fused|stored|kept)\s+(?:\p{L}+\s+){0,3}at\s+${DEGREES}\s*°?\s*C\b(?:\s+(?:for|under|in)\s+[^,;()]*)?`,
  'iu',
);
/** "(MW 93.13, 9.31 g)", "M = 93.13 g/mol": what a mole weighs is kept in its words, for the formula says it. */
const MOLAR_MASS = new RegExp(
  String.raw`(?<=[,;(]\s*)(?:(?:M\.?\s?W\.?|F\.?\s?W\.?|M\.?\s?Wt\.?|mol(?:ar|ecular|\.)?\s(?:wt\.?|weight|mass)|Mr|RMM)\s*[=:]?|M\s*=)\s*${NUMBER}(?:\s*g\s*(?:/\s*mol\b|mol\s?(?:[-–−]1|⁻¹)))?\s*[,;]?`,
  'i',
);
const BELOW = new RegExp(String.raw`[,;]?\s*\b(?:below|above|under|not above)\s+${DEGREES}\s*°?\s*C\b`, 'i');
const ROOM = String.raw`(?:rt\b|r\.\s?t\.|(?:room|ambient) temperature\b|the boil\b|boiling\b|reflux\b)`;
const AT_ROOM = new RegExp(String.raw`[,;]?\s*\b(?:at|(?:then |warmed |and warmed )?to|under)\s+${ROOM}`, 'i');
const COUNT = String.raw`(?:\d+|two|three|four|five|six|eight|ten)`;
const IN_PORTIONS = new RegExp(String.raw`[,;]?\s*\b(?:in|as)\s+${COUNT}\s+(?:equal\s+)?portions?\b`, 'i');

/** Reads them, or says where a temperature window does not rise. */
export function conditionsIn(line: string): Conditions | ParseProblem {
  let text = line;
  const said: string[] = [];
  const say = (pattern: RegExp): void => {
    const found = pattern.exec(text);
    if (!found) return;
    said.push(found[0].replace(/^[\s,;(]+/, '').replace(/[\s,;]+$/, ''));
    text = blanked(text, found);
  };
  const boils = BOILS.exec(text);
  text = blanked(text, boils);
  if (boils) said.push(`b.p. ${boils[0].replace(/^\s*b\.?\s?p\.?\s*/i, '').replace(/[\s,]+$/, '')}`);
  say(MOLAR_MASS);
  say(DRIED);
  say(IN_PORTIONS);
  say(OVER_SPAN);
  const half = OVER_HALF.exec(text);
  text = blanked(text, half);
  const over = half ? null : OVER.exec(text);
  text = blanked(text, over);
  const at = AT.exec(text) ?? BARE_AT.exec(text) ?? IN_BRACKET.exec(text);
  const temperature = at ? windowOf(at[1] ?? '', at[2]) : null;
  if (at && temperature && temperature.from > temperature.to) return { ok: false, at: at.index, words: words.window };
  text = blanked(text, at);
  say(BELOW);
  const bath = temperature ? null : bathIn(text);
  text = blanked(text, bath?.found ?? null);
  say(AT_ROOM);
  const overMinutes = half ? (/half/i.test(half[1] ?? '') ? 30 : 60) : over ? minutes(over) : null;
  return { ok: true, text, temperature: temperature ?? (bath && { bath: bath.bath }), overMinutes, said };
}

const decimal = (text: string): number => Number(text.replace(',', '.').replace(/[−–]/, '-'));

function windowOf(from: string, to: string | undefined): { readonly from: number; readonly to: number } {
  return { from: decimal(from), to: decimal(to ?? from) };
}

/** "30 min", "1.5 h", "1 h 30 min". */
function minutes([, value = '', unit = '', more]: RegExpExecArray): number {
  return decimal(value) * (/^h/i.test(unit) ? 60 : 1) + Number(more ?? 0);
}
