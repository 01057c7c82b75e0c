import { readCode } from '../code/code.ts';
import { parseNumberAlone } from '../quantity/parse.ts';
import { unknown, type Why } from '../words/why.ts';
import { type BalanceTexts, readBalanceText } from './balance-text.ts';
import type { Correctable, RunEntry } from './entry.ts';
import { areInitials } from './initials.ts';
import { readCelsius } from './weigh-line.ts';

/** What a typed line puts in the place of an entry. */
export type Corrected =
  | { readonly ok: true; readonly instead: Correctable }
  /** A weighing: what it takes and brings is worked out anew from these. */
  | { readonly ok: true; readonly weighed: { readonly amount: number; readonly unit: 'g' | 'mL'; readonly text: string } }
  /** It came from this bottle. */
  | { readonly ok: true; readonly label: string }
  /** A weighing that never reached the vessel. */
  | { readonly ok: true; readonly spilled: true }
  | { readonly ok: false; readonly why: Why };

/** Entries whose content can be put right; a pause, or an end that came too early, can only be taken out. */
export const CORRECTED_BY_TEXT: ReadonlySet<RunEntry['kind']> = new Set([
  'started',
  'reading',
  'charged',
  'temperature',
  'check',
  'deviation',
  'rescaled',
  'product',
  'recovered',
  'remark',
  'file',
] as const);

const no = (...of: Parameters<typeof unknown>): Corrected => unknown(...of);

/**
 * Reads what an entry should have said: an amount as the balance types it, or the label of another bottle, for a
 * weighing, or "spilled"; the initials of who began for the start; °C for a temperature; "met: …" or "not met: …" for a check; for a product its mass, "nothing", "assay 98 %",
 * "no assay", "wet", "dry", "crop 2" or "place …"; the words themselves for what is words.
 * @param entry as it counts now; its kind is one of CORRECTED_BY_TEXT.
 * @returns the whole entry, or for a weighing what it is worked out from; not ok with why.
 */
export function correctedEntry(entry: RunEntry, line: string, tables: BalanceTexts): Corrected {
  const words = line.trim().slice(0, LONGEST);
  switch (entry.kind) {
    case 'started':
      return areInitials(words) ? { ok: true, instead: { ...entry, by: words } } : no('initials not understood', { text: words });
    case 'temperature':
      return temperature(entry, words);
    case 'check':
      return check(entry, words);
    case 'remark':
      return { ok: true, instead: { ...entry, words } };
    case 'deviation':
      return { ok: true, instead: { ...entry, words } };
    case 'file': {
      // Another name is another file: its hash is not known.
      const { sha256: _of, ...kept } = entry;
      return { ok: true, instead: { ...kept, name: words } };
    }
    case 'rescaled': {
      const factor = parseNumberAlone(words);
      const fits = factor.ok && factor.value >= 0.001 && factor.value <= 1000;
      return fits ? { ok: true, instead: { ...entry, factor: factor.value } } : no('factor not understood', { text: words });
    }
    case 'product':
      return product(entry, words, tables);
    case 'recovered':
      return weighedOut(entry, words, tables);
    case 'reading': {
      const read = readBalanceText(words, entry.unit, tables);
      if (!read.ok) return read;
      return { ok: true, instead: { ...entry, amount: read.amount, unit: read.unit, text: words } };
    }
    case 'charged':
      return weighing(entry, words, tables);
    default:
      return no('entry not corrected', { number: 0, kind: entry.kind });
  }
}

/** What the schema takes of a short text. */
const LONGEST = 300;

type Of<K extends RunEntry['kind']> = Extract<RunEntry, { kind: K }>;

function temperature(entry: Of<'temperature'>, text: string): Corrected {
  const celsius = readCelsius(/C$/i.test(text) ? text.replace(/\s*°?\s*C$/i, ' °C') : `${text} °C`);
  return celsius === null ? no('temperature not understood', { text }) : { ok: true, instead: { ...entry, celsius } };
}

function check(entry: Of<'check'>, text: string): Corrected {
  const found = /^(not met|met)\s*[:,;]?\s*(.*)$/i.exec(text);
  if (!found) return { ok: true, instead: { ...entry, found: text } };
  const passed = found[1]?.toLowerCase() === 'met';
  const words = found[2]?.trim() ?? '';
  return { ok: true, instead: { ...entry, passed, found: words === '' ? entry.found : words } };
}

/** Weighed rightly, and lost on its way. */
const SPILLED = /^(spilled|spilt|lost)$/i;

function weighing(entry: Of<'charged'>, text: string, tables: BalanceTexts): Corrected {
  if (SPILLED.test(text)) return { ok: true, spilled: true };
  const code = readCode(text);
  if (code && !code.ok) return no('code misread');
  if (code?.code.kind === 'bottle') return { ok: true, label: code.code.label };
  const labelled = /^from\s+(\S.*)$/i.exec(text);
  if (labelled?.[1]) return { ok: true, label: labelled[1] };
  const read = readBalanceText(text, entry.unit, tables);
  return read.ok ? { ok: true, weighed: { amount: read.amount, unit: read.unit, text } } : read;
}

/** A run that gave nothing. */
const NOTHING = /^nothing$/i;

function product(entry: Of<'product'>, text: string, tables: BalanceTexts): Corrected {
  const crop = /^crop\s+(\d{1,2})$/i.exec(text);
  if (crop?.[1] && Number(crop[1]) >= 1 && Number(crop[1]) <= 20)
    return { ok: true, instead: { ...entry, crop: Number(crop[1]) } };
  if (NOTHING.test(text)) return { ok: true, instead: { ...entry, grams: 0, text, assayPercent: null, wet: false } };
  return weighedOut(entry, text, tables);
}

/** Of a product, or of basis got back: its mass, "assay 98 %", "no assay", "wet", "dry" or "place …". */
function weighedOut(entry: Of<'product' | 'recovered'>, text: string, tables: BalanceTexts): Corrected {
  const put = (more: Partial<Pick<typeof entry, 'assayPercent' | 'wet' | 'place'>>): Corrected => ({
    ok: true,
    instead: { ...entry, ...more },
  });
  const assay = /^assay\s+(.+?)\s*%?(?:\s*w\/w)?$/i.exec(text);
  if (assay?.[1]) {
    const percent = parseNumberAlone(assay[1]);
    const fits = percent.ok && percent.value > 0 && percent.value <= 100;
    return fits ? put({ assayPercent: percent.value }) : no('assay not understood', { text: assay[1] });
  }
  if (/^no assay$/i.test(text)) return put({ assayPercent: null });
  if (/^(wet|dry)$/i.test(text)) return put({ wet: text.toLowerCase() === 'wet' });
  const place = /^place\s+(\S.*)$/i.exec(text);
  if (place?.[1]) return put({ place: place[1] });
  const read = readBalanceText(text, 'g', tables);
  if (!read.ok) return read;
  const none = entry.kind === 'recovered' && !(read.amount > 0);
  if (none || read.unit !== 'g' || read.what !== 'net') return no('product mass not understood', { text });
  const { tare: _tare, gross: _gross, ...kept } = entry;
  return { ok: true, instead: { ...kept, grams: read.amount, text } };
}
