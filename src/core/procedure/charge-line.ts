import type { Form } from '../matter/form.ts';
import type { PlainRule, Stage } from '../route/route.ts';
import type { ParseProblem } from '../quantity/parse.ts';
import { chargeLineWords as words } from '../words/charge-line-words.ts';
import { neutraliseText } from '../words/routes-words.ts';
import { readNeutralise } from './read-neutralise.ts';
import { readPrinted } from './read-printed.ts';

/** A charge as a procedure prints it in one line: "68 % w/w nitric acid 35 mL", "ethanol 3 × 40 mL, wash". */
export interface ChargeLine {
  readonly ok: true;
  /** As typed, to be looked up. */
  readonly name: string;
  /** The amount with its strength, as `readPrinted` reads it. */
  readonly printed: string;
  /** "concentrated", "fuming", "glacial", "saturated": a strength that is only named. */
  readonly named: string | null;
  /** Of a solution whose strength is given; null for water. */
  readonly solvent: string | null;
  readonly stage: Stage | null;
  readonly temperature: { readonly from: number; readonly to: number } | null;
  readonly overMinutes: number | null;
  /** What stands behind the amount and is neither of these: "dropwise", "wash". */
  readonly note: string | null;
  /** Instead of an amount: "to neutralise, to pH 7", with the strength it is charged at. */
  readonly neutralises?: { readonly rule: PlainRule; readonly form: Form | null };
}

const NUMBER = String.raw`\d+(?:[.,]\d+)?`;
const STRENGTH = new RegExp(
  String.raw`(?<!\bto\s|[\d.,])(${NUMBER})\s*(?:%\s*\(?[wvm]\s*/\s*[wv]\)?|mol/L|mol\s?L⁻¹|mol/kg|g/L|M|N)(?=[\s,;)]|$)`,
);
const BARE_PERCENT = /(?<!mol\s|wt\s)\d\s*%(?!\s*(?:\(?[wvm]\s*\/|(?:in\s+)?excess|(?:by\s+weight\s+)?loading))/i;
const OVER = new RegExp(String.raw`[,;]?\s*\bover\s+(?:about\s+)?(${NUMBER})\s*(min(?:utes?)?|h(?:ours?|rs?)?)\b\.?`, 'i');
const DEGREES = String.raw`[-−]?\d+(?:[.,]\d+)?`;
const AT = new RegExp(String.raw`[,;]?\s*\bat\s+(${DEGREES})(?:\s*°?\s*C?\s*(?:-|–|to)\s*(${DEGREES}))?\s*°?\s*C\b`, 'i');
const NEUTRALISE = new RegExp(
  String.raw`(?:to\s+)?neutrali[sz]e\b\s*,?\s*(?:to\s+)?(?:pH\s*${NUMBER})?(?:\s*,?\s*(?:with\s+)?${NUMBER}\s*%\s*excess)?`,
  'i',
);
const NAMED = /^(conc\.?|concentrated|fuming|glacial|sat\.?|satd\.?|saturated)\s+/i;
/** The solvent of a solution whose strength is named: "2.5 M in hexane", "2 M HCl in diethyl ether". */
const SOLVENT = /\s+in\s+(\p{L}[^\d,;()]*?)(?=\s*(?:[\d,;()]|$))/u;
/** Units as older procedures print them: "20 g.", "50 cc.", "0.1 mole". */
const OLD_UNITS = /(?<=\d\s?)(?:(mg|kg|g|ml|mL|l|L|mol|mmol)\.|cc\.?|moles?)(?=[\s,;)]|$)/g;

/** Words that say when a charge belongs, with the stage they mean. */
const STAGE_WORDS: readonly { readonly pattern: RegExp; readonly stage: Stage }[] = [
  { pattern: /^reaction$/i, stage: 'reaction' },
  { pattern: /^quench/i, stage: 'quench' },
  { pattern: /^(?:work-?\s?up|wash|rins|extract|dry)/i, stage: 'work-up' },
  { pattern: /^(?:re-?)?crystalli[sz]|^purif|^elut/i, stage: 'purification' },
];

/**
 * Reads one line of a procedure: name before the amount or behind it ("35 mL of …"), a strength on either side, then
 * what else is said ("over 30 min", "at 0–5 °C", "wash").
 * @returns its parts, or the index of the character that is wrong and what is expected there.
 */
export function readChargeLine(typed: string): ChargeLine | ParseProblem {
  if (typed.trim() === '') return problem(0, words.empty);
  const text = withNewUnits(typed);
  const percent = BARE_PERCENT.exec(text);
  if (percent) return problem(percent.index, words.percentBasis);
  const over = OVER.exec(text);
  const at = AT.exec(text);
  const window = at ? windowOf(at[1] ?? '', at[2]) : null;
  if (window && window.from > window.to) return problem(at?.index ?? 0, words.window);
  const neutral = neutralising(text, over, at);
  if (neutral) return neutralisingLine(neutral, blanked(blanked(text, over), at), { window, over });
  const noteless = withoutNote(blanked(blanked(text, over), at));
  const strength = STRENGTH.exec(noteless.text);
  const solvent = strength ? SOLVENT.exec(noteless.text) : null;
  const bare = blanked(blanked(noteless.text, strength), solvent);
  const split = splitName(bare);
  if (!split.ok) return split;
  const second = /\(\s*[\d.,]+\s*(?:mg|kg|g|mL|ml|L|mol|mmol)\b/.exec(split.name);
  if (second) return problem(Math.max(0, text.indexOf(second[0])), words.oneCharge);
  const said = strength ? tidyStrength(strength[0]) : null;
  const named = NAMED.exec(split.name);
  const name = named ? split.name.slice(named[0].length) : split.name;
  const printed = said === null ? split.printed : `${split.printed} of ${said}`;
  const read = readPrinted(printed);
  if (!read.ok) return { ...read, at: strength?.index ?? 0 };
  return {
    ok: true,
    name,
    printed,
    named: named ? namedWord(named[1] ?? '') : null,
    solvent: solvent?.[1]?.trim() ?? null,
    stage: noteless.stage,
    temperature: window,
    overMinutes: over ? minutes(over[1] ?? '', over[2] ?? '') : null,
    note: noteless.note,
  };
}

/** "To neutralise" instead of an amount; beside an amount it is no more than a note. */
function neutralising(text: string, ...times: readonly (RegExpExecArray | null)[]): RegExpExecArray | null {
  const found = NEUTRALISE.exec(text);
  if (!found) return null;
  const rest = times.reduce((left, one) => blanked(left, one), blanked(text, found));
  return splitName(blanked(rest, STRENGTH.exec(rest))).ok ? null : found;
}

/** "15 % w/w sodium hydroxide to neutralise, to pH 7": what is in the pot decides the amount. */
function neutralisingLine(
  found: RegExpExecArray,
  text: string,
  { window, over }: { readonly window: ChargeLine['temperature']; readonly over: RegExpExecArray | null },
): ChargeLine | ParseProblem {
  const rule = readNeutralise(found[0]);
  if (!rule?.ok) return problem(found.index, rule?.words ?? words.amount);
  const noteless = withoutNote(blanked(text, found).replaceAll(/[,;]\s*(?=[,;]|\s*$)/g, (piece) => ' '.repeat(piece.length)));
  const strength = STRENGTH.exec(noteless.text);
  const solvent = strength ? SOLVENT.exec(noteless.text) : null;
  const name = trimmed(blanked(blanked(noteless.text, strength), solvent).trim());
  if (!/\p{L}/u.test(name)) return problem(0, words.name);
  const read = strength ? readPrinted(`1 g of ${tidyStrength(strength[0])}`) : null;
  if (read && !read.ok) return { ...read, at: strength?.index ?? 0 };
  const dissolvedIn = solvent?.[1]?.trim() ?? null;
  const form: Form | null = read?.strength
    ? { kind: 'solution', strength: read.strength, ...(dissolvedIn === null ? {} : { solvent: dissolvedIn }) }
    : null;
  return {
    ok: true,
    name,
    printed: neutraliseText(rule.rule),
    named: null,
    solvent: dissolvedIn,
    stage: noteless.stage,
    temperature: window,
    overMinutes: over ? minutes(over[1] ?? '', over[2] ?? '') : null,
    note: noteless.note,
    neutralises: { rule: rule.rule, form },
  };
}

/** The line with what was typed beside the name of its material as a note too. */
export function withSaid(line: ChargeLine, said: string | null): ChargeLine {
  if (said === null) return line;
  return { ...line, note: line.note === null ? said : `${said}, ${line.note}` };
}

/** The text with a found piece made blank, so that every other character keeps its place. */
function blanked(text: string, found: RegExpExecArray | null): string {
  if (!found) return text;
  return text.slice(0, found.index) + ' '.repeat(found[0].length) + text.slice(found.index + found[0].length);
}

const decimal = (text: string): number => Number(text.replace(',', '.').replace('−', '-'));

function windowOf(from: string, to: string | undefined): { readonly from: number; readonly to: number } {
  return { from: decimal(from), to: decimal(to ?? from) };
}

function minutes(value: string, unit: string): number {
  return decimal(value) * (unit.startsWith('h') || unit.startsWith('H') ? 60 : 1);
}

/** The same text, every character at its place, with older spellings of units in today's. */
function withNewUnits(text: string): string {
  return text.replaceAll(OLD_UNITS, (found, unit: string | undefined) =>
    (unit ?? (found.startsWith('c') ? 'mL' : 'mol')).padEnd(found.length),
  );
}

function namedWord(word: string): string {
  if (/^sat/i.test(word)) return 'saturated';
  return /^conc/i.test(word) ? 'concentrated' : word.toLowerCase();
}

/** A strength in the spelling the amounts' reader knows. */
function tidyStrength(text: string): string {
  const tidy = text
    .replaceAll(/[()\s]+/g, ' ')
    .replace(/\bm\s*\/\s*/, 'w/')
    .trim();
  const parts = /^([\d.,]+)\s*(.*)$/.exec(tidy);
  const unit = (parts?.[2] ?? '')
    .replaceAll(/\s*\/\s*/g, '/')
    .replace(/^M$/, 'mol/L')
    .replace('mol L⁻¹', 'mol/L');
  return `${parts?.[1] ?? ''} ${unit}`;
}

/** Words behind the last comma that hold no amount: a note, and the stage where they name one. */
function withoutNote(text: string): { readonly text: string; readonly note: string | null; readonly stage: Stage | null } {
  const tail = /[,;]\s*([^,;()\d]*[^\s,;()\d][^,;()\d]*)\s*$/.exec(text);
  const note = (tail?.[1] ?? '').trim();
  if (!tail || !/\p{L}{3}/u.test(note) || !/\d/.test(text.slice(0, tail.index))) return { text, note: null, stage: null };
  const earlier = withoutNote(text.slice(0, tail.index));
  const stage = STAGE_WORDS.find(({ pattern }) => pattern.test(note))?.stage ?? earlier.stage;
  const both = earlier.note === null ? note : `${earlier.note}, ${note}`;
  return { text: earlier.text, note: both, stage };
}

type Split = { readonly ok: true; readonly name: string; readonly printed: string } | ParseProblem;

/** The name and what is printed of it, whichever stands first. */
function splitName(text: string): Split {
  const first = amountFirst(text) ?? nameFirst(text, 0);
  if (first) return first;
  const number = /(?<=\p{L}[\s,:(]+)\d/u.exec(text);
  if (!number) return problem(text.trimEnd().length, words.amount);
  const read = readPrinted(text.slice(number.index));
  return read.ok ? problem(0, words.name) : problem(number.index + read.at, read.words);
}

function nameFirst(text: string, from: number): Split | null {
  for (const start of text.slice(from).matchAll(/(?<=[\s,:]|^)[(~\d]|(?<=\s)(?:about|ca\.?|to|up to)\s+\d/gi)) {
    const index = from + start.index;
    const name = trimmed(text.slice(from, index));
    if (!/\p{L}/u.test(name)) continue;
    const printed = tidied(text.slice(index));
    if (readPrinted(printed).ok) return { ok: true, name, printed };
  }
  return null;
}

/** "35 mL of nitric acid", "20.0 g (0.188 mol) of benzaldehyde", "20.0 g benzaldehyde (0.188 mol)". */
function amountFirst(text: string): Split | null {
  const ends = [...text.matchAll(/(?<=\S)(?=[\s,])/g)].map((match) => match.index).reverse();
  for (const end of ends) {
    const printed = tidied(text.slice(0, end));
    if (!readPrinted(printed).ok) continue;
    const rest = text.slice(end).replace(/^\s*,?\s*(?:of\s+)?/i, (lead) => ' '.repeat(lead.length));
    const more = nameFirst(rest, 0);
    const joined = more?.ok ? `${printed} ${more.printed}` : printed;
    if (more?.ok && readPrinted(joined).ok) return { ok: true, name: more.name, printed: joined };
    const name = trimmed(rest);
    if (/\p{L}/u.test(name)) return { ok: true, name, printed };
  }
  return null;
}

/** A name without the signs that part it from its amount. */
function trimmed(name: string): string {
  return name
    .replace(/^[\s,;:]+/, '')
    .replace(/(?:[\s,;:(]|\s(?:in|of))+$/, '')
    .replaceAll(/\s+/g, ' ');
}

/** A print without the gaps and commas that a strength or a time left behind. */
function tidied(text: string): string {
  return text
    .replaceAll(/\s+/g, ' ')
    .replaceAll(/(?:\s*,)+\s*(?=[,)]|$)/g, '')
    .replaceAll(/\(\s*,?\s*\)/g, '')
    .replaceAll(/\(\s*,\s*/g, '(')
    .replaceAll(/\s+\)/g, ')')
    .replace(/^[\s,]+/, '')
    .replace(/\s+of\s*$/, '')
    .trim();
}

function problem(at: number, said: string): ParseProblem {
  return { ok: false, at, words: said };
}
