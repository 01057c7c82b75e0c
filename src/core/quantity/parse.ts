import { UNCLEAR_UNITS, UNITS, type UnitEntry, unitSymbol } from './units.ts';

export interface ParsedQuantity {
  readonly ok: true;
  /** As typed, in the unit as typed; portions not multiplied in. */
  readonly value: number;
  /** The unit's usual symbol, e.g. "mmol". */
  readonly unit: string;
  readonly entry: UnitEntry;
  /** In the internal unit: g, mL, mol, or the strength's own basis. */
  readonly base: number;
  /** Significant digits as typed. */
  readonly digits: number;
  /** "3 × 40 mL" is 3 portions of 40 mL. */
  readonly portions: number;
}

export interface ParseProblem {
  readonly ok: false;
  /** Index of the character that is wrong. */
  readonly at: number;
  readonly words: string;
}

const NUMBER = /^[+\-−]?(\d+([.,]\d*)?|[.,]\d+)([eE][+\-−]?\d{1,3})?/;
const PORTIONS = /^(\d{1,3})\s*[×xX*]\s*(?=[\d.,])/;
const LONGEST = 60;

/**
 * Reads a quantity as a chemist types it: `12.5 mL`, `250 mg`, `1,5 g`, `0.2 mol`, `15 % w/w`, `3 × 40 mL`.
 * A decimal comma is accepted; a comma that could also group thousands is a question, never a guess.
 * @param takes symbols of the units that make sense where it is typed, e.g. `['mg', 'g']`; every known one without it.
 * @returns the value with its unit, or the index of the character that is wrong and what was expected.
 */
export function parseQuantity(text: string, takes: readonly string[] = []): ParsedQuantity | ParseProblem {
  if (text.length > LONGEST) return problem(LONGEST, 'a quantity needs to be short, such as 25 g');
  const start = text.length - text.trimStart().length;
  const portions = PORTIONS.exec(text.slice(start));
  const from = start + (portions ? portions[0].length : 0);
  const number = parseNumber(text, from);
  if (!number.ok) return number;
  const unit = parseUnit(text, number.end, takes);
  if (!unit.ok) return unit;
  const count = portions ? Number(portions[1]) : 1;
  if (count === 0) return problem(start, 'the number of portions needs to be at least 1');
  const base = number.value * unit.entry.factor;
  if (!Number.isFinite(base)) return problem(from, 'the number is too large');
  return { ok: true, value: number.value, unit: unit.symbol, entry: unit.entry, base, digits: number.digits, portions: count };
}

interface ParsedNumber {
  readonly ok: true;
  readonly value: number;
  readonly digits: number;
  readonly end: number;
}

/**
 * Reads a number that stands alone, such as a yield: `72`, `72,5`. Zero or more, no unit.
 * @returns the value as typed, or the index of the character that is wrong and what was expected.
 */
export function parseNumberAlone(text: string, what = 'a number'): { readonly ok: true; readonly value: number } | ParseProblem {
  const from = text.length - text.trimStart().length;
  const number = parseNumber(text, from, what);
  if (!number.ok) return number;
  const rest = text.slice(number.end);
  if (rest.trim() === '') return { ok: true, value: number.value };
  const at = number.end + rest.length - rest.trimStart().length;
  return problem(at, `only a number is expected here (got “${text.slice(at).trim()}” behind it)`);
}

/** Reads a plain number at `from`: decimal point or comma, no thousands separators, at least zero. */
function parseNumber(text: string, from: number, what = 'an amount'): ParsedNumber | ParseProblem {
  const found = NUMBER.exec(text.slice(from));
  if (!found) return problem(from, 'a number is expected here, such as 25 or 0.2');
  const written = found[0];
  const end = from + written.length;
  if (/^[-−]/.test(written)) return problem(from, `${what} needs to be zero or more (got ${written.replace('-', '−')})`);
  if (/^[1-9]\d{0,2},\d{3}$/.test(written)) {
    return problem(
      from + written.indexOf(','),
      `is ${written} a decimal or thousands? Write ${written.replace(',', '.')} or ${written.replace(',', '')}`,
    );
  }
  if (/^[.,\d]/.test(text.slice(end))) return problem(end, 'one decimal point or comma, and no separators between thousands');
  const value = Number(written.replace(',', '.').replaceAll('−', '-').replace('+', ''));
  if (!Number.isFinite(value)) return problem(from, 'the number is too large');
  return { ok: true, value, digits: significantDigits(written), end };
}

type ParsedUnit = { readonly ok: true; readonly symbol: string; readonly entry: UnitEntry } | ParseProblem;

function parseUnit(text: string, from: number, takes: readonly string[]): ParsedUnit {
  const rest = text.slice(from);
  const at = from + rest.length - rest.trimStart().length;
  const written = rest.trim().replaceAll(/\s+/g, ' ');
  const list = takes.length > 0 ? inWords(takes) : null;
  if (written === '') return problem(text.length, `a unit is expected here${list ? `: ${list}` : ', such as g, mL or mol'}`);
  const symbol = unitSymbol(written);
  const entry = Object.hasOwn(UNITS, symbol) ? UNITS[symbol] : undefined;
  if (list && entry && !takes.includes(symbol)) return problem(at, `this needs ${list} (got ${symbol})`);
  if (entry) return { ok: true, symbol, entry };
  if (list) return problem(at, `“${written}” is not a unit this takes: ${list}`);
  const unclear = Object.hasOwn(UNCLEAR_UNITS, written) ? UNCLEAR_UNITS[written] : undefined;
  return problem(at, unclear ?? `"${written}" is not a unit known here; g, mg, kg, mL, L, mol, mmol, mol/L, % w/w … are`);
}

const inWords = (units: readonly string[]): string =>
  units.length < 2 ? units.join('') : `${units.slice(0, -1).join(', ')} or ${units.at(-1)}`;

function significantDigits(written: string): number {
  const mantissa = written
    .replace(/[eE].*$/, '')
    .replaceAll(/[^\d]/g, '')
    .replace(/^0+/, '');
  return Math.max(1, mantissa.length);
}

function problem(at: number, words: string): ParseProblem {
  return { ok: false, at, words };
}
