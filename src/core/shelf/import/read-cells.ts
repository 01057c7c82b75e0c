import * as z from 'zod/mini';
import { parseNumberAlone, parseQuantity, type ParsedQuantity, type ParseProblem } from '../../quantity/parse.ts';
import { UNSEEN } from '../find/search-text.ts';
import { shelfImportWords as words } from '../../words/shelf-import-words.ts';
import type { Cell, ColumnUse } from './table.ts';

export type Read<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly words: string };

const no = (said: string): { readonly ok: false; readonly words: string } => ({ ok: false, words: said });

/** Blanks and minus signs as a keyboard types them. Only for what is read as a number, a unit or a date, never for text. */
export function foldCell(text: string): string {
  return text
    .replaceAll(UNSEEN, '')
    .replaceAll(/[\u00a0\u2000-\u200a\u202f\u205f\u3000]/g, ' ')
    .replaceAll(/[−‒–]/g, '-')
    .replaceAll('μ', 'µ')
    .trim();
}

const GROUPED = { point: /^[+-]?\d{1,3}(,\d{3})+(\.\d*)?(?![\d.,])/, comma: /^[+-]?\d{1,3}(\.\d{3})+(,\d*)?(?![\d.,])/ };
const PLAIN = { point: /^[+-]?(\d+(\.\d*)?|\.\d+)(?![\d.,])/, comma: /^[+-]?(\d+(,\d*)?|,\d+)(?![\d.,])/ };

/** Blanks or apostrophes between thousands: it may also be two numbers. */
const PARTED = /^[+-]?\d{1,3}(?:[ '’]\d{3})+(?:[.,]\d+)?(?![\d.,])/;

/**
 * A cell whose number is written with a decimal point and nothing between thousands, by what its column says of the
 * decimal sign. Without a word of it `1,234` is left to ask, and so is `1.234` where the column has decimal commas.
 */
function plainNumber(cell: Cell, use: ColumnUse, commas: boolean): Read<string> {
  if (typeof cell === 'number') return { ok: true, value: decimalText(cell) };
  const text = foldCell(cell);
  const parted = PARTED.exec(text)?.[0];
  if (parted !== undefined) return no(words.problems.parted(parted, parted.replaceAll(/[ '’]/g, '')));
  const { decimal } = use;
  if (decimal === undefined) {
    const unclear = commas ? /^[+-]?[1-9]\d{0,2}\.\d{3}(?![\d.,])/.exec(text)?.[0] : undefined;
    return unclear === undefined ? { ok: true, value: text } : no(words.problems.pointOrThousands(unclear));
  }
  if (!/^[+-]?[\d.,]/.test(text)) return { ok: true, value: text };
  const number = PLAIN[decimal].exec(text)?.[0] ?? GROUPED[decimal].exec(text)?.[0];
  if (number === undefined) return no(words.problems.decimalSign(decimal));
  const grouping = decimal === 'point' ? ',' : '.';
  return { ok: true, value: number.replaceAll(grouping, '').replace(',', '.') + text.slice(number.length) };
}

const DECIMAL_COMMA = /^\s*[+−-]?\d+,(\d{1,2}|\d{4,})(?!\d)|^\s*[+−-]?0,\d/;

/** Whether a column's cells show decimal commas, so that a point in it need not be a decimal one. */
export function hasDecimalCommas(cells: Iterable<Cell>): boolean {
  for (const cell of cells) if (typeof cell === 'string' && DECIMAL_COMMA.test(cell)) return true;
  return false;
}

/** A number without an exponent, so that every reader takes it; the very same double when it is read back. */
export function decimalText(value: number): string {
  const text = String(value);
  const found = /^(-?)(\d)(?:\.(\d+))?e([+-]\d+)$/.exec(text);
  if (!found) return text;
  const digits = `${found[2]}${found[3] ?? ''}`;
  const point = 1 + Number(found[4]);
  const plain =
    point <= 0
      ? `0.${'0'.repeat(-point)}${digits}`
      : point >= digits.length
        ? digits + '0'.repeat(point - digits.length)
        : `${digits.slice(0, point)}.${digits.slice(point)}`;
  return `${found[1]}${plain}`;
}

/** A number that stands alone, perhaps with its unit behind it. `negative`: below zero is let through. */
export function readNumberCell(cell: Cell, use: ColumnUse, commas: boolean, unit: RegExp, negative = false): Read<number> {
  const plain = plainNumber(cell, use, commas);
  if (!plain.ok) return plain;
  const bare = plain.value.replace(unit, '');
  const below = negative && bare.startsWith('-');
  const read = parseNumberAlone(below ? bare.slice(1) : bare);
  return read.ok ? { ok: true, value: below ? -read.value : read.value } : no(read.words);
}

/** A quantity with its unit, or a bare number in the unit its column is in. */
export function readQuantityCell(
  cell: Cell,
  use: ColumnUse,
  commas: boolean,
  unit: string,
): Read<{ readonly text: string; readonly quantity: ParsedQuantity | ParseProblem }> {
  const plain = plainNumber(cell, use, commas);
  if (!plain.ok) return plain;
  // "37 %" in a column whose percentages have a basis is a bare number too.
  const number = unit.startsWith('%') ? plain.value.replace(/\s*%$/, '') : plain.value;
  const bare = parseNumberAlone(number).ok;
  if (bare && unit === '') return no(words.problems.needsUnit);
  const text = bare ? `${number} ${unit}` : plain.value;
  return { ok: true, value: { text, quantity: parseQuantity(text) } };
}

const isDay = z.iso.date();
/** Year first, whatever parts it: the day comes last. */
const ISO = /^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})(?:[T ]\d{1,2}:\d{2}(?::\d{2}(?:\.\d+)?)?Z?)?$/;
const DOTTED = /^(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4})$/;
const SLASHED = /^(\d{1,2})[/-](\d{1,2})[/-](\d{4})$/;
const NAMED = /^(\d{1,2})[ .-]+(\p{L}{3,9})\.?[ -]+(\d{4})$/u;
const NAME_FIRST = /^(\p{L}{3,9})\.?\s+(\d{1,2}),?\s+(\d{4})$/u;
/** How the names of months begin, in English, German and French. */
const MONTHS: readonly (readonly string[])[] = [
  ['jan'],
  ['feb', 'fév', 'fev'],
  ['mar', 'mär'],
  ['apr', 'avr'],
  ['may', 'mai'],
  ['jun', 'juin'],
  ['jul', 'juil'],
  ['aug', 'aoû', 'aou'],
  ['sep'],
  ['oct', 'okt'],
  ['nov'],
  ['dec', 'dez', 'déc'],
];

/** 1 … 12 by its name; 0 where it is none. */
function monthNamed(name: string): number {
  const folded = name.normalize('NFC').toLowerCase();
  return 1 + MONTHS.findIndex((starts) => starts.some((start) => folded.startsWith(start)));
}

/** A day as ISO writes it. 03/04/2027 is asked about unless its column says which comes first. */
export function readDateCell(cell: Cell, use: ColumnUse): Read<string> {
  const text = foldCell(String(cell));
  const iso = ISO.exec(text);
  if (iso) return day(iso[1], iso[3], iso[4]);
  const dotted = DOTTED.exec(text);
  if (dotted) return day(dotted[3], dotted[2], dotted[1]);
  const named = NAMED.exec(text);
  if (named && monthNamed(named[2] ?? '') > 0) return day(named[3], String(monthNamed(named[2] ?? '')), named[1]);
  const first = NAME_FIRST.exec(text);
  if (first && monthNamed(first[1] ?? '') > 0) return day(first[3], String(monthNamed(first[1] ?? '')), first[2]);
  const slashed = SLASHED.exec(text);
  if (!slashed) return no(words.problems.day);
  const [one, other] = [Number(slashed[1]), Number(slashed[2])];
  const comesFirst = use.dates ?? (one > 12 ? 'day' : other > 12 ? 'month' : one === other ? 'day' : null);
  if (comesFirst === null) return no(words.problems.dayOrMonth(text));
  return comesFirst === 'day' ? day(slashed[3], slashed[2], slashed[1]) : day(slashed[3], slashed[1], slashed[2]);
}

function day(year = '', month = '', date = ''): Read<string> {
  const value = `${year}-${month.padStart(2, '0')}-${date.padStart(2, '0')}`;
  return isDay.safeParse(value).success ? { ok: true, value } : no(words.problems.noSuchDay(value));
}

const MONTH = /^(?:(\d{4})-(\d{1,2})|(?:(\d{1,2})[/.]|(\p{L}{3,9})\.?[ -])(\d{4}))$/u;

/**
 * The last day of a month that is given without a day, ISO; null for any other text. A use-by date that names only the
 * month means its last day: USP ⟨7⟩ Labeling (from memory).
 */
export function lastDayOfMonth(cell: Cell): string | null {
  const found = MONTH.exec(foldCell(String(cell)));
  const year = Number(found?.[1] ?? found?.[5]);
  const month = found?.[4] === undefined ? Number(found?.[2] ?? found?.[3]) : monthNamed(found[4]);
  if (!found || !(month >= 1 && month <= 12) || year < 1900) return null;
  const days = new Date(Date.UTC(year, month, 0)).getUTCDate();
  return `${year}-${String(month).padStart(2, '0')}-${days}`;
}

const YES = new Set(['yes', 'y', 'true', '1', 'x', 'ja', 'oui', 'wahr', 'vrai']);
const NO = new Set(['no', 'n', 'false', '0', 'nein', 'non', 'falsch', 'faux']);

/** Yes or no, in the words people put into a table. */
export function readTruthCell(cell: Cell): Read<boolean> {
  const text = foldCell(String(cell)).toLowerCase();
  if (YES.has(text)) return { ok: true, value: true };
  return NO.has(text) ? { ok: true, value: false } : no(words.problems.yesOrNo);
}

/** Entries in one cell, parted by semicolons; one of an entry's own is written `\;`. "none" is a list with nothing in it. */
export function listText(entries: readonly string[]): string {
  if (entries.length === 0) return 'none';
  const escaped = entries.map((entry) => entry.replaceAll(/[\\;]/g, String.raw`\$&`));
  return escaped.length === 1 && escaped[0] === 'none' ? String.raw`\none` : escaped.join('; ');
}

/** Reads a list as `listText` writes it. `exact`: blanks around an entry belong to it. */
export function readList(text: string, exact: boolean): readonly string[] {
  if ((exact ? text : text.trim().toLowerCase()) === 'none') return [];
  const entries: string[] = [''];
  for (let at = 0; at < text.length; at += 1) {
    const letter = text[at] ?? '';
    if (letter === '\\' && at + 1 < text.length) {
      at += 1;
      entries.push(`${entries.pop() ?? ''}${text[at] ?? ''}`);
    } else if (letter === ';') {
      entries.push('');
      if (exact && text[at + 1] === ' ') at += 1;
    } else entries.push(`${entries.pop() ?? ''}${letter}`);
  }
  return exact ? entries : entries.map((entry) => entry.trim()).filter((entry) => entry !== '');
}
