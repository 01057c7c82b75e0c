import type { Form } from '../matter/form.ts';
import type { PackOffer } from '../port/buy.ts';
import { parseNumberAlone, type ParseProblem, parseQuantity } from '../quantity/parse.ts';
import { readForm } from '../route/operation-fields.ts';
import { shoppingWords } from '../words/shopping-words.ts';

const words = shoppingWords.packText;
const FIRST = /^(.*?)(?:\s+of\s+(.+?))?(?:\s+(?:at|@)\s+(\S+))?$/;
const DAYS = /^(\d+)\s*days?$/i;
const LEAST = /^at\s+least\s+(\d+)$/i;

type Writable = { -readonly [K in keyof PackOffer]: PackOffer[K] };
type Read = { readonly ok: true; readonly value: PackOffer } | ParseProblem;

/**
 * Reads a pack as it is typed: "500 g at 24.50, North Ltd, 5 days, at least 2"; "2.5 L of 68 % w/w at 12". What comes
 * behind the first comma stands in any order; a decimal comma has no space behind it.
 * @param usual the form of a pack that names none; null where it has to be named. @returns amounts in g or mL, or where the text is wrong and why.
 */
export function readPack(text: string, usual: Form | null): Read {
  const parts = split(text);
  const [first, ...rest] = parts;
  if (!first) return wrong(0, words.amount);
  const read = readAmount(first, usual);
  if (!read.ok) return read;
  const pack: Writable = { ...read.value };
  for (const { text: part, at } of rest) {
    const [days, least] = [DAYS.exec(part), LEAST.exec(part)];
    if (days) {
      if (Number(days[1]) > 3650) return wrong(at, words.days);
      pack.leadDays = Number(days[1]);
    } else if (least) {
      if (!(Number(least[1]) >= 1 && Number(least[1]) <= 10_000)) return wrong(at, words.minimum);
      pack.minimum = Number(least[1]);
    } else if (pack.supplier === undefined) pack.supplier = part.slice(0, 300);
    else return wrong(at, words.supplier(part));
  }
  return { ok: true, value: pack };
}

interface Part {
  readonly text: string;
  readonly at: number;
}

function split(text: string): readonly Part[] {
  let from = 0;
  return text.split(/,\s+|;/).flatMap((piece) => {
    const trimmed = piece.trim();
    const at = text.indexOf(trimmed, from);
    from = at + piece.length;
    return trimmed === '' ? [] : [{ text: trimmed, at }];
  });
}

function readAmount({ text, at }: Part, usual: Form | null): Read {
  const found = FIRST.exec(text);
  const quantity = parseQuantity(found?.[1] ?? '');
  if (!quantity.ok) return wrong(at + quantity.at, words.amount);
  const unit = ({ mass: 'g', volume: 'mL', amount: null, strength: null } as const)[quantity.entry.dimension];
  const amount = Number(quantity.base.toPrecision(12));
  if (unit === null || quantity.portions !== 1 || !(amount > 0 && amount <= 1e9)) return wrong(at, words.amount);
  const form = found?.[2] === undefined ? null : readForm(found[2]);
  if (form && !form.ok) return wrong(at + text.indexOf(found?.[2] ?? ''), form.words);
  const price = found?.[3] === undefined ? null : parseNumberAlone(found[3]);
  if (price && !(price.ok && price.value >= 0 && price.value <= 1e9))
    return wrong(at + text.lastIndexOf(found?.[3] ?? ''), words.price);
  const named = form?.value ?? usual;
  if (named === null) return wrong(at, words.form);
  return {
    ok: true,
    value: { amount, unit, ...(named.kind === 'unknown' ? {} : { form: named }), ...(price?.ok ? { price: price.value } : {}) },
  };
}

function wrong(at: number, said: string): ParseProblem {
  return { ok: false, at, words: said };
}
