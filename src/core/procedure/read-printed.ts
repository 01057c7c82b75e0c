import type { Strength } from '../matter/form.ts';
import { type ParseProblem, parseQuantity } from '../quantity/parse.ts';
import { inPlainNumbers } from './plain-numbers.ts';
import { type PrintedNumber, printedNumber, printedRange, timesPrinted } from './printed-number.ts';

/** What one printed entry says: "75 g (46 mL, 0.63 mol)", "3 × 40 mL", "10 % excess", "2100 g of 50 % w/w, d 1.32". */
export interface Printed {
  readonly ok: true;
  /** All portions together, g, mL and mol. */
  readonly grams?: PrintedNumber;
  readonly millilitres?: PrintedNumber;
  readonly moles?: PrintedNumber;
  readonly portions: number;
  /** mol per mol of basis. */
  readonly equivalents?: PrintedNumber;
  /** mol per 100 mol of basis. */
  readonly molePercent?: PrintedNumber;
  /** % over what the equation needs. */
  readonly excessPercent?: PrintedNumber;
  /** g per 100 g of basis. */
  readonly loadingPercent?: PrintedNumber;
  readonly gramsPerGram?: PrintedNumber;
  readonly millilitresPerGram?: PrintedNumber;
  readonly millilitresPerMole?: PrintedNumber;
  /** Solvent "to 0.5 mol/L". */
  readonly toMolesPerLitre?: PrintedNumber;
  /** Made up "to 250 mL" in all, or "to 500 mL/mol". */
  readonly toMillilitres?: PrintedNumber;
  readonly toMillilitresPerMole?: PrintedNumber;
  /** The same in every batch, whatever its size. */
  readonly perBatch: boolean;
  readonly strength?: Strength;
  /** g/mL. */
  readonly density?: PrintedNumber;
}

type Field = Exclude<keyof Printed, 'ok' | 'portions' | 'perBatch' | 'strength'>;
type Found = { -readonly [K in Field]?: PrintedNumber } & { portions: number; perBatch: boolean; strength?: Strength };

const NUMBER = String.raw`[\d.,]+(?:[eE][-−]?\d+)?`;
const RANGE = new RegExp(String.raw`^(${NUMBER})\s*(?:-|–|—|to)\s*(${NUMBER})(?=\s*[^\d\s.,])`);
const PORTIONS = /^\d{1,3}\s*[×xX*]\s*(?=[\d.,])/;
const AROUND = /^(?:(?:about|ca\.?|approx\.?|approximately|of|and|or|to give)\s+|[~≈]\s*)/i;

/** What can stand behind a number besides a unit; the first that fits. */
const RATIOS: readonly { readonly pattern: RegExp; readonly field: Field }[] = [
  { pattern: /^%\s*(?:in\s+)?excess$/i, field: 'excessPercent' },
  { pattern: /^mol(?:e|ar)?[\s-]*%$/i, field: 'molePercent' },
  { pattern: /^(?:wt\.?|weight)[\s-]*%(?:\s+(?:loading|of (?:the )?basis))?$/i, field: 'loadingPercent' },
  { pattern: /^%\s*(?:by\s+weight\s+)?loading$/i, field: 'loadingPercent' },
  { pattern: /^(?:equiv|equivs|equivalent|equivalents|eq)\.?$/i, field: 'equivalents' },
  { pattern: /^g\s*\/\s*g$/, field: 'gramsPerGram' },
  { pattern: /^(?:mL|ml)\s*\/\s*g$|^(?:volumes?|vol\.?|vols\.?|V)$/, field: 'millilitresPerGram' },
  { pattern: /^(?:mL|ml)\s*\/\s*mol$/, field: 'millilitresPerMole' },
];

/**
 * Reads an amount as a procedure prints it. Pieces stand in any order, in brackets or behind commas; a comma straight
 * between digits is a decimal comma.
 * @returns what was found, or the index of the character that is wrong and what is expected there.
 */
export function readPrinted(text: string): Printed | ParseProblem {
  return inPlainNumbers(text, readPlain);
}

function readPlain(text: string): Printed | ParseProblem {
  const found: Found = { portions: 1, perBatch: false };
  for (const piece of piecesOf(text)) {
    const problem = readPiece(piece.text, piece.at, found);
    if (problem) return problem;
  }
  if (Object.keys(found).length === 2 && !found.perBatch)
    return { ok: false, at: 0, words: 'an amount is expected here, such as 75 g (46 mL, 0.63 mol)' };
  return { ok: true, ...found };
}

interface Piece {
  readonly text: string;
  readonly at: number;
}

/** Pieces between brackets, semicolons and commas that do not stand straight between digits; "of 50 % w/w" begins one. */
function piecesOf(text: string): readonly Piece[] {
  const pieces: Piece[] = [];
  const cut = /[();]|,(?!\d)|(?<!\d),|\s(?=of\s)/g;
  let from = 0;
  for (const match of [...text.matchAll(cut), null]) {
    const to = match ? match.index : text.length;
    const raw = text.slice(from, to);
    const lead = raw.length - raw.trimStart().length;
    if (raw.trim() !== '') pieces.push({ text: raw.trim(), at: from + lead });
    from = to + (match ? match[0].length : 0);
  }
  return pieces;
}

function readPiece(whole: string, start: number, found: Found): ParseProblem | null {
  const around = AROUND.exec(whole);
  const at = start + (around?.[0].length ?? 0);
  let text = whole.slice(around?.[0].length ?? 0).replace(/\s+in all$/, '');
  const batch = /\s*(?:each|per|a)\s+batch$/i.exec(text);
  if (batch) {
    found.perBatch = true;
    text = text.slice(0, batch.index);
  }
  const density = /^d(?:ensity)?\s*=?\s*(?=[\d.,])/i.exec(text);
  if (density) return keep('density', numberIn(text.replace(/\s*g\s*\/\s*mL$/, ''), density[0].length), at, found);
  const upTo = /^(?:up\s+)?to\s+(?=[\d.,])/i.exec(text);
  const body = text.slice(upTo?.[0].length ?? 0);
  const bodyAt = at + (upTo?.[0].length ?? 0);
  const ratio = /^(.*?[\d.,])\s*([^\d\s.,].*)$/.exec(body);
  const field = ratio && RATIOS.find(({ pattern }) => pattern.test(ratio[2] ?? ''))?.field;
  if (ratio && /^(?:mL|ml)\s*\/\s*mmol$/.test(ratio[2] ?? ''))
    return keep(upTo ? 'toMillilitresPerMole' : 'millilitresPerMole', perMillimole(ratio[1] ?? ''), bodyAt, found);
  if (ratio && field === 'millilitresPerMole' && upTo)
    return keep('toMillilitresPerMole', numberIn(ratio[1] ?? '', 0), bodyAt, found);
  if (ratio && field && !upTo) return keep(field, numberIn(ratio[1] ?? '', 0), bodyAt, found);
  return readAmount(body, bodyAt, upTo !== null, found);
}

/** "5 mL/mmol" is 5000 mL/mol. */
function perMillimole(text: string): NumberReading {
  const read = numberIn(text, 0);
  return read.ok ? { ok: true, number: timesPrinted(read.number, 1000) } : read;
}

function readAmount(text: string, at: number, upTo: boolean, found: Found): ParseProblem | null {
  const times = PORTIONS.exec(text)?.[0] ?? '';
  const range = RANGE.exec(text.slice(times.length));
  const read = parseQuantity(
    range ? times + text.slice(text.indexOf(range[2] ?? '', times.length + (range[1] ?? '').length)) : text,
  );
  if (!read.ok) return { ...read, at: at + Math.min(read.at, text.length) };
  const { dimension } = read.entry;
  const factor = read.entry.factor * read.portions;
  const last = timesPrinted(printedNumber(read.value, read.digits), factor);
  const first = range ? numberIn(range[1] ?? '', 0) : null;
  if (first && !first.ok) return { ...first, at: at + first.at };
  if (first && first.number.value * factor >= last.value) return { ok: false, at, words: 'the two ends of a range need to rise' };
  const number = first ? printedRange(timesPrinted(first.number, factor), last) : last;
  if (read.portions > 1) found.portions = read.portions;
  if (dimension === 'strength') return readStrength(read.entry.base, read.value, number, upTo, at, found);
  const field = dimension === 'mass' ? 'grams' : dimension === 'volume' ? (upTo ? 'toMillilitres' : 'millilitres') : 'moles';
  return keep(field, { ok: true, number }, at, found);
}

function readStrength(
  basis: string,
  value: number,
  number: PrintedNumber,
  upTo: boolean,
  at: number,
  found: Found,
): ParseProblem | null {
  if (upTo && basis === 'mol/L') return keep('toMolesPerLitre', { ok: true, number }, at, found);
  if (found.strength) return { ok: false, at, words: 'one strength is enough' };
  if (basis === 'eq/L') return { ok: false, at, words: 'give the strength in mol/L here' };
  found.strength = { value, basis: basis as Strength['basis'] };
  return null;
}

export type NumberReading = { readonly ok: true; readonly number: PrintedNumber } | ParseProblem;

/** A plain number, or a range of two, from `skip` on. */
export function numberIn(text: string, skip: number): NumberReading {
  const body = text.slice(skip);
  const range = RANGE.exec(`${body} x`);
  const one = (part: string, lead: number): NumberReading => {
    const read = parseQuantity(`${part} g`);
    if (!read.ok) return { ...read, at: lead + Math.min(read.at, part.length) };
    return { ok: true, number: printedNumber(read.value, read.digits) };
  };
  if (!range) return one(body, skip);
  const least = one(range[1] ?? '', skip);
  const most = one(range[2] ?? '', skip + body.lastIndexOf(range[2] ?? ''));
  if (!least.ok) return least;
  if (!most.ok) return most;
  if (least.number.value >= most.number.value) return { ok: false, at: skip, words: 'the two ends of a range need to rise' };
  return { ok: true, number: printedRange(least.number, most.number) };
}

function keep(field: Field, read: NumberReading, at: number, found: Found): ParseProblem | null {
  if (!read.ok) return { ...read, at: at + read.at };
  if (found[field]) return { ok: false, at, words: 'this is said already' };
  if (read.number.value === 0) return { ok: false, at, words: 'an amount needs to be more than zero' };
  found[field] = read.number;
  return null;
}
