import { groupedDigits } from '../quantity/format.ts';
import { unknown, type Why } from '../words/why.ts';

/** How balances type what they show; from resources/tables/balance-text.json. */
export interface BalanceTexts {
  readonly forms: readonly { readonly form: string; readonly example: string }[];
  readonly stable: readonly string[];
  readonly unstable: readonly string[];
  readonly kinds: { readonly net: readonly string[]; readonly tare: readonly string[]; readonly gross: readonly string[] };
  readonly overload: readonly string[];
}

export type BalanceReading =
  | {
      readonly ok: true;
      readonly what: 'net' | 'tare' | 'gross';
      /** g or mL. */
      readonly amount: number;
      readonly unit: 'g' | 'mL';
      /** Decimals of the number in g or mL, as it was typed. */
      readonly decimals: number;
    }
  | { readonly ok: false; readonly why: Why };

interface Unit {
  readonly unit: 'g' | 'mL';
  readonly factor: number;
  /** Decimals that the factor adds. */
  readonly decimals: number;
}

const UNITS: Readonly<Record<string, Unit>> = {
  g: { unit: 'g', factor: 1, decimals: 0 },
  mg: { unit: 'g', factor: 1e-3, decimals: 3 },
  kg: { unit: 'g', factor: 1e3, decimals: -3 },
  ml: { unit: 'mL', factor: 1, decimals: 0 },
  l: { unit: 'mL', factor: 1e3, decimals: -3 },
  µl: { unit: 'mL', factor: 1e-3, decimals: 3 },
};

/** Longer than any line a balance types. */
const LONGEST = 60;
/** g or mL; what a record takes of one weighing. */
const MOST = 1e6;
const NUMBER = '\\d{1,9}(?:[.,]\\d{0,7})?';

/**
 * Reads one line as a balance types it, or as a person does: `+  12.345 g`, `12,345 g S`, `ST,+00012.34  g`. The comma
 * is a decimal comma: a balance never groups thousands. Without a unit the number is in the unit asked for.
 * @param asked unit of the target, g or mL.
 * @returns the reading in g or mL; or why it is not taken: still moving, overloaded, below zero, not understood.
 */
export function readBalanceText(text: string, asked: 'g' | 'mL', table: BalanceTexts): BalanceReading {
  const line = cleaned(text);
  const no = (...of: Parameters<typeof unknown>): BalanceReading => unknown(...of);
  if (line === '') return no('reading empty');
  if (line.length > LONGEST) return no('reading not understood', { text: `${line.slice(0, 30)}…` });
  if (/^[-+=_]{2,}$/.test(line) || isOne(line, table.overload)) return no('balance overloaded');
  for (const { form } of table.forms) {
    const found = patternOf(form, table).exec(line)?.groups;
    if (!found) continue;
    return readingOf(found, asked, table);
  }
  return no('reading not understood', { text: line });
}

/** Without control characters, in one spelling; the digit that a verified balance puts in brackets counts as any other. */
function cleaned(text: string): string {
  const plain = text.normalize('NFKC').replaceAll('μ', 'µ').replaceAll('−', '-');
  return plain
    .replaceAll(/\p{Cc}/gu, '')
    .replaceAll(/\[(\d)\]/g, '$1')
    .trim();
}

const patterns = new Map<string, RegExp>();

/** A form as a pattern; groups status, status2, kind, sign, number, unit. */
function patternOf(form: string, table: BalanceTexts): RegExp {
  const key = `${form} ${table.stable.join()} ${table.unstable.join()}`;
  const known = patterns.get(key);
  if (known) return known;
  const oneOf = (words: readonly string[]): string =>
    [...words]
      .sort((a, b) => b.length - a.length)
      .map(escaped)
      .join('|');
  const { net, tare, gross } = table.kinds;
  const pieces: Readonly<Record<string, string>> = {
    sign: '(?<sign>[+-]?)',
    number: `(?<number>${NUMBER})`,
    unit: '(?<unit>[kmµ]?[gl])(?!\\p{L})',
    status: `(?<status>${oneOf([...table.stable, ...table.unstable])})`,
    kind: `(?<kind>${oneOf([...net, ...tare, ...gross])})`,
  };
  let second = false;
  const body = form.replaceAll(/\{(\w+)\}|[^{}]/g, (piece: string, name: string | undefined) => {
    if (name === undefined) return `${escaped(piece)}\\s*`;
    const made = pieces[name] ?? '';
    if (name !== 'status') return `${made}\\s*`;
    const again = second;
    second = true;
    // Words stand apart: "S S 12 g" is two of them, "ST" is one; a mark such as "?" may stand before its number.
    return `${again ? made.replace('<status>', '<status2>') : made}(?!(?<=\\p{L})[\\p{L}\\d])\\s*`;
  });
  const made = new RegExp(`^${body}$`, 'iu');
  patterns.set(key, made);
  return made;
}

/** A text as it stands, inside a pattern. */
const escaped = (text: string): string => text.replaceAll(/[.*+?^${}()|[\]\\/]/g, '\\$&');

function readingOf(found: Readonly<Record<string, string | undefined>>, asked: 'g' | 'mL', table: BalanceTexts): BalanceReading {
  if ([found.status, found.status2].some((word) => word !== undefined && isOne(word, table.unstable))) {
    return unknown('balance unstable');
  }
  const written = (found.number ?? '').replace(',', '.');
  const unit = found.unit === undefined ? UNITS[asked.toLowerCase()] : UNITS[found.unit.toLowerCase()];
  const value = Number(written);
  if (!unit || !Number.isFinite(value)) return unknown('reading not understood', { text: found.number ?? '' });
  const what = kindOf(found.kind, table);
  if (found.sign === '-' && value !== 0) return unknown('reading below zero', { text: `−${found.number ?? ''}` });
  if (value === 0 && what !== 'tare') return unknown('reading is zero');
  const amount = value * unit.factor;
  if (amount > MOST)
    return unknown('reading too large', {
      text: `${groupedDigits(amount)} ${unit.unit}`,
      most: `${groupedDigits(MOST)} ${unit.unit}`,
    });
  const decimals = Math.max(0, (written.split('.')[1]?.length ?? 0) + unit.decimals);
  return { ok: true, what, amount: Number(amount.toFixed(Math.min(12, decimals))), unit: unit.unit, decimals };
}

function kindOf(word: string | undefined, { kinds }: BalanceTexts): 'net' | 'tare' | 'gross' {
  if (word === undefined) return 'net';
  if (isOne(word, kinds.tare)) return 'tare';
  return isOne(word, kinds.gross) ? 'gross' : 'net';
}

const isOne = (word: string, words: readonly string[]): boolean => words.includes(word.toUpperCase());
