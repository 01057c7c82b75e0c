import { parseNumberAlone, parseQuantity } from '../../../core/quantity/parse.ts';
import { shelfActWords } from '../../../core/words/shelf-act-words.ts';

const words = shelfActWords.fields;

export type ReadMeasure =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly at: number; readonly words: string };

/** Reads what is measured on a bottle or paid for it: grams, a percentage, a price. */
export const readMeasure: Readonly<Record<'tare' | 'water' | 'price', (typed: string) => ReadMeasure>> = {
  tare: readMass,
  water: (typed) => within(typed.replace(/\s*%(\s*w\/w)?\s*$/, ''), 100, words.waterWrong),
  price: (typed) => within(typed, 1e9, words.priceWrong),
};

/** A mass with its unit; a bare number is in grams. */
function readMass(typed: string): ReadMeasure {
  const read = parseQuantity(/^[\s\d.,]+$/.test(typed) ? `${typed.trim()} g` : typed);
  if (!read.ok) return read;
  const grams = read.base * read.portions;
  const right = read.entry.dimension === 'mass' && grams >= 1e-6 && grams <= 1e6;
  return right ? { ok: true, value: grams } : { ok: false, at: 0, words: words.tareWrong };
}

function within(typed: string, most: number, wrong: string): ReadMeasure {
  const read = parseNumberAlone(typed);
  if (!read.ok) return { ok: false, at: read.at, words: wrong };
  return read.value <= most ? { ok: true, value: read.value } : { ok: false, at: 0, words: wrong };
}
