import type { ParseProblem } from '../quantity/parse.ts';
import { parseNumberAlone } from '../quantity/parse.ts';
import { routeEditWords as words } from '../words/route-edit-words.ts';
import { put } from './edited.ts';
import type { TypicalHeatRow } from '../reference-rows.ts';
import { readBath } from './bath.ts';
import type { Route, TemperatureWindow } from './route.ts';

/** What a field's text is read with. */
export interface FieldContext {
  readonly route: Route;
  /** The built-in table of typical heats, where a choice of them is offered. */
  readonly typicalHeats?: readonly TypicalHeatRow[];
}

export type Written<T> = { readonly ok: true; readonly value: T } | ParseProblem;

/**
 * One thing of a step or an operation that a person types as text: how it is written, and how a text is read into it.
 * An empty text takes it away where it may be missing.
 */
export interface TextField<T> {
  /** Its words are found by this. */
  readonly name: string;
  readonly kind: 'line' | 'lines' | 'choice';
  /** What a choice offers: value and words. */
  readonly choices?: (of: T, context: FieldContext) => readonly { readonly value: string; readonly words: string }[];
  readonly read: (of: T, context: FieldContext) => string;
  readonly write: (of: T, text: string, context: FieldContext) => Written<T>;
  /** Its words are about the whole line, e.g. hidden for what cannot have it. */
  readonly when?: (of: T) => boolean;
}

/** A refusal that points at the beginning of the text. */
export function wrong(said: string, at = 0): ParseProblem {
  return { ok: false, at, words: said };
}

/** A text kept as it is typed; needed where it may not be empty. */
export function plainField<T extends object, K extends keyof T>(
  name: string,
  key: K,
  kind: 'line' | 'lines',
  needed = false,
): TextField<T> {
  return {
    name,
    kind,
    read: (of) => String(of[key] ?? ''),
    write: (of, text) => {
      const said = text.trim();
      if (said === '') return needed ? wrong(words.needed) : { ok: true, value: put(of, key, undefined) };
      return { ok: true, value: put(of, key, said as T[K]) };
    },
  };
}

/** A number with its bounds; an empty text takes it away. */
export function numberField<T extends object, K extends keyof T>(
  name: string,
  key: K,
  range: { readonly least: number; readonly most: number; readonly unit: string; readonly whole?: boolean },
): TextField<T> {
  return {
    name,
    kind: 'line',
    read: (of) => (of[key] === undefined ? '' : `${String(of[key])}${range.unit === '' ? '' : ` ${range.unit}`}`),
    write: (of, text) => {
      if (text.trim() === '') return { ok: true, value: put(of, key, undefined) };
      const read = readNumber(text, range);
      return read.ok ? { ok: true, value: put(of, key, read.value as T[K]) } : read;
    },
  };
}

/** A number with its unit, which may be left out. */
export function readNumber(
  text: string,
  range: { readonly least: number; readonly most: number; readonly unit: string; readonly whole?: boolean },
): { readonly ok: true; readonly value: number } | ParseProblem {
  const unit = range.unit;
  const bare = text.trimEnd();
  const cut = unit !== '' && bare.toLowerCase().endsWith(unit.toLowerCase()) ? bare.slice(0, -unit.length) : bare;
  const sign = /^\s*[-−]/.test(cut) && range.least < 0 ? -1 : 1;
  const read = parseNumberAlone(sign < 0 ? cut.replace(/[-−]/, ' ') : cut);
  if (!read.ok) return read;
  const value = read.value * sign;
  const inside = value >= range.least && value <= range.most && (!range.whole || Number.isInteger(value));
  return inside ? { ok: true, value } : wrong(words.range(range.least, range.most, unit));
}

const NUMBER = String.raw`[-−]?\d+(?:[.,]\d+)?`;
const WINDOW = new RegExp(String.raw`^\s*(${NUMBER})\s*(?:°?\s*C?\s*(?:-|–|—|to|…)\s*(${NUMBER}))?\s*(?:°\s*C|C|°)?\s*$`);
const decimal = (text: string): number => Number(text.replace(',', '.').replace('−', '-'));

/** A temperature window as it is typed: "20 °C", "0–5 °C", "-10 to 0", or a bath's word: "ice bath". */
export function readWindow(text: string): { readonly ok: true; readonly value: TemperatureWindow } | ParseProblem {
  const bath = readBath(text);
  if (bath) return { ok: true, value: { bath } };
  const found = WINDOW.exec(text);
  if (!found) return wrong(words.window);
  const from = decimal(found[1] ?? '');
  const to = found[2] === undefined ? from : decimal(found[2]);
  if (from > to) return wrong(words.windowRises);
  if (from < -200 || to > 1000) return wrong(words.range(-200, 1000, '°C'));
  return { ok: true, value: { from, to } };
}

/** A temperature window as it is typed: one temperature, from … to, or the word of a bath. */
export function windowText(window: TemperatureWindow | undefined): string {
  if (!window) return '';
  if ('bath' in window) return window.bath;
  return window.from === window.to ? `${window.from} °C` : `${window.from} to ${window.to} °C`;
}

/** Minutes as typed: "30 min", "1.5 h", "30". */
export function readMinutes(text: string): { readonly ok: true; readonly value: number } | ParseProblem {
  const found = /^\s*(\d+(?:[.,]\d+)?)\s*(min(?:utes?)?|h(?:ours?|rs?)?|d(?:ays?)?)?\s*$/i.exec(text);
  if (!found) return wrong(words.minutes);
  const unit = (found[2] ?? 'm').slice(0, 1).toLowerCase();
  const value = decimal(found[1] ?? '') * (unit === 'h' ? 60 : unit === 'd' ? 1440 : 1);
  return value > 0 && value <= 1e6 ? { ok: true, value } : wrong(words.minutes);
}

/** Minutes as they are typed, hours where they are whole or half ones. */
export function minutesText(minutes: number | undefined): string {
  if (minutes === undefined) return '';
  return minutes >= 120 && minutes % 30 === 0 ? `${minutes / 60} h` : `${minutes} min`;
}

const KNOWN = /^\s*(\S.*?)\s+at\s+(\d+(?:[.,]\d+)?)\s*(g|kg|mg)(?:\s+of basis)?\s*$/;

/** An addition that went well, as typed: "60 min at 10 g". */
export function readKnownAddition(
  text: string,
): { readonly ok: true; readonly value: { minutes: number; basisGrams: number } } | ParseProblem {
  const found = KNOWN.exec(text);
  const time = found ? readMinutes(found[1] ?? '') : null;
  const factor = { g: 1, kg: 1000, mg: 0.001 }[found?.[3] ?? ''];
  const basisGrams = Number((decimal(found?.[2] ?? '') * (factor ?? Number.NaN)).toPrecision(12));
  if (!time?.ok || !(basisGrams >= 1e-6 && basisGrams <= 1e9)) return wrong(words.knownAddition);
  return { ok: true, value: { minutes: time.value, basisGrams } };
}

/** A known addition as it is typed. */
export function knownAdditionText(known: { readonly minutes: number; readonly basisGrams: number } | undefined): string {
  return known ? `${minutesText(known.minutes)} at ${known.basisGrams} g` : '';
}

/** A number or a text with what belongs to it: "0.3 g: film in the flask". */
export function readGramsAndReason(
  text: string,
): { readonly ok: true; readonly value: { grams: number; reason: string } } | ParseProblem {
  const found = /^\s*(\d+(?:[.,]\d+)?)\s*(g|kg|mg)\s*[:,;–—-]\s*(\S.*?)\s*$/.exec(text);
  const factor = { g: 1, kg: 1000, mg: 0.001 }[found?.[2] ?? ''];
  const grams = decimal(found?.[1] ?? '') * (factor ?? Number.NaN);
  return found && grams > 0 ? { ok: true, value: { grams, reason: found[3] ?? '' } } : wrong(words.gramsAndReason);
}

const LIMIT = new RegExp(
  String.raw`^\s*(?:never\s+)?(?:(above|below)\s+)?(${NUMBER})\s*(?:°\s*C|C|°)?\s*[:,;–—]\s*(\S.*?)\s*$`,
  'i',
);

/** A limit as typed: "above 10 °C: stop the addition and cool". */
export function readLimit(
  text: string,
): { readonly ok: true; readonly value: { celsius: number; side?: 'above' | 'below'; action: string } } | ParseProblem {
  const found = LIMIT.exec(text);
  const celsius = decimal(found?.[2] ?? 'x');
  if (!found || !(celsius >= -200 && celsius <= 1000)) return wrong(words.limit);
  const side = found[1]?.toLowerCase();
  const action = found[3] ?? '';
  return { ok: true, value: side === 'below' || side === 'above' ? { celsius, side, action } : { celsius, action } };
}

/** A limit as it is typed, with its side where it names one. */
export function limitText(
  limit: { readonly celsius: number; readonly side?: 'above' | 'below' | undefined; readonly action: string } | undefined,
): string {
  return limit ? `${limit.side ? `${limit.side} ` : ''}${limit.celsius} °C: ${limit.action}` : '';
}
