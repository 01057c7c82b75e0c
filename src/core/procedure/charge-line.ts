import type { Form } from '../matter/form.ts';
import type { PlainRule, Stage, TemperatureWindow } from '../route/route.ts';
import type { ParseProblem } from '../quantity/parse.ts';
import { chargeLineWords as words } from '../words/charge-line-words.ts';
import { neutraliseText } from '../words/routes-words.ts';
import { type LineUntil, untilIn } from './line-until.ts';
import { type Conditions, conditionsIn } from './line-conditions.ts';
import { withoutNote, withoutVerb } from './line-notes.ts';
import {
  namedWord,
  normalIn,
  SOLVENT,
  STRENGTH,
  strengthIn,
  tidyStrength,
  withoutAsides,
  withoutNamed,
} from './line-strength.ts';
import { groupAsked, inPlainNumbers } from './plain-numbers.ts';
import { readNeutralise } from './read-neutralise.ts';
import { readPrinted } from './read-printed.ts';
import { blanked, tidyLine, withoutDensity } from './tidy-line.ts';

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
  readonly temperature: TemperatureWindow | null;
  readonly overMinutes: number | null;
  /** What stands behind the amount and is neither of these: "dropwise", "wash". */
  readonly note: string | null;
  /** The strength is given as a normality: as mol/L it holds where a mole has one equivalent. */
  readonly normal?: number;
  /** No amount, only a molarity: what a solvent is brought to. */
  readonly onlyConcentration?: boolean;
  /** The amount is an estimate: "until pH 8, at most 1.5 ×". */
  readonly until?: LineUntil;
  /** Instead of an amount: "to neutralise, to pH 7", with the strength it is charged at. */
  readonly neutralises?: { readonly rule: PlainRule; readonly form: Form | null };
}

const NUMBER = String.raw`\d+(?:[.,]\d+)?`;
const BARE_PERCENT = /(?<!mol\s|wt\s)\d\s*%(?!\s*(?:\(?[wvm]\s*\/|(?:in\s+)?excess|(?:by\s+weight\s+)?loading))/i;
const NEUTRALISE = new RegExp(
  String.raw`(?:to\s+)?neutrali[sz]e\b\s*,?\s*(?:to\s+)?(?:pH\s*${NUMBER})?(?:\s*,?\s*(?:with\s+)?${NUMBER}\s*%\s*excess)?`,
  'i',
);
/** Letters of a line: a long name with all its amounts; what is longer is a paragraph. */
const LONGEST = 400;
const DROPS = /\b(?:a few|\d+)\s*drops?\b/i;
/** An amount in what is left as the name: a second material, or what the first is dissolved in. */
const SECOND = /\(\s*[\d.,]+\s*(?:mg|kg|g|mL|ml|L|mol|mmol)\b/;
const DISSOLVED =
  /\d\s*(?:mg|kg|g|mL|ml|mol|mmol)\)?\s+(?:dissolved\s+)?in\s+(?!all\b)(?:[\d.,]+\s*(?:mL|ml|L)|\p{L}+)|\p{L}\d*\)?\s+(?:dissolved\s+)?in\s+[\d.,]+\s*(?:mL|ml|L)\b/u;
/** An amount that was left in the name: it would be lost there. */
const AMOUNT_IN_NAME = /(?<![\p{L}\d-])\d[\d.,]*\s*(?:mg|kg|g|µL|mL|ml|L|mmol|mol|equiv|eq)(?=[\s.,;)]|$)/u;

/**
 * Reads one line of a procedure: name before the amount or behind it ("35 mL of …"), a strength on either side, then
 * what else is said ("over 30 min", "at 0–5 °C", "wash").
 * @returns its parts, or the index of the character that is wrong and what is expected there.
 */
export function readChargeLine(typed: string): ChargeLine | ParseProblem {
  if (typed.trim() === '') return problem(0, words.empty);
  if (typed.length > LONGEST) return problem(LONGEST, words.tooLong(LONGEST));
  return inPlainNumbers(typed, readPlainLine);
}

function readPlainLine(typed: string): ChargeLine | ParseProblem {
  const group = groupAsked(typed);
  if (group) return problem(group.at, words.grouped(group.joined, group.apart));
  const whole = tidyLine(typed);
  const until = NEUTRALISE.test(whole) ? null : untilIn(whole);
  if (until && !until.ok) return until;
  const text = until?.text ?? whole;
  const drops = DROPS.exec(text);
  if (drops) return problem(drops.index, words.drops);
  const percent = BARE_PERCENT.exec(text);
  if (percent) return problem(percent.index, words.percentBasis);
  const conditions = conditionsIn(text);
  if (!conditions.ok) return conditions;
  const dissolved = DISSOLVED.exec(conditions.text);
  if (dissolved) return problem(dissolved.index + dissolved[0].search(/\s+(?:dissolved\s+)?in\s/) + 1, words.oneCharge);
  const neutral = neutralising(conditions.text);
  if (neutral) return neutralisingLine(neutral, conditions);
  const dense = withoutDensity(conditions.text);
  const asides = withoutAsides(dense.text);
  const noteless = withoutNote(asides.text);
  const verbless = withoutVerb(noteless.text);
  const strength = strengthIn(verbless.text);
  const solvent = strength ? SOLVENT.exec(verbless.text) : null;
  const bare = blanked(blanked(verbless.text, strength), solvent);
  const found = splitName(bare);
  const split = found.ok ? found : (aloneIn(bare, strength, solvent) ?? found);
  if (!split.ok) return split;
  const second = SECOND.exec(split.name);
  if (second) return problem(Math.max(0, text.indexOf(second[0])), words.oneCharge);
  const named = withoutNamed(split.name);
  const unread = AMOUNT_IN_NAME.exec(named.name) ?? unclosed(named.name);
  if (unread) return unreadIn(text, unread[0]);
  const inBracket = asides.said.map(namedWord).find((one) => one !== null) ?? null;
  const word = named.word ?? inBracket;
  const printed = [
    strength === null || split.alone ? split.printed : `${split.printed} of ${tidyStrength(strength[0])}`,
    dense.density === null ? '' : `d ${dense.density}`,
  ]
    .filter((one) => one !== '')
    .join(', ');
  const read = readPrinted(printed);
  if (!read.ok) return { ...read, at: strength?.index ?? 0 };
  const inWhat = /(?<=\S\s)in\s+\p{L}/u.exec(named.name);
  // "7.0 g NaNO2 in THF (20 mL)": the volume is that of another material.
  if (inWhat && read.millilitres && (read.grams ?? read.moles))
    return problem(Math.max(0, text.indexOf(inWhat[0])), words.oneCharge);
  const normal = strength === null ? null : normalIn(strength[0]);
  const said = [verbless.note, ...asides.said.filter((one) => namedWord(one) === null), noteless.note, ...conditions.said];
  return {
    ok: true,
    name: asides.parts === null ? named.name : `${named.name} ${asides.parts}`,
    printed,
    named: word,
    solvent: solvent?.[1]?.trim() ?? null,
    stage: noteless.stage ?? verbless.stage,
    temperature: conditions.temperature,
    overMinutes: conditions.overMinutes,
    note: said.filter((one) => one !== null).join(', ') || null,
    ...(normal === null ? {} : { normal }),
    ...(split.alone ? { onlyConcentration: true } : {}),
    ...(until ? { until: until.until } : {}),
  };
}

/** What is wrong with a piece that was left in the name: its figures, else that it stands apart from the other amounts. */
function unreadIn(text: string, piece: string): ParseProblem {
  const at = Math.max(0, text.indexOf(piece));
  const read = /^\s*\d/.test(piece) ? readPrinted(piece) : null;
  return read === null || read.ok || read.at === 0 ? problem(at, words.notRead(piece.trim())) : problem(at + read.at, read.words);
}

/** "toluene (0.2 M)": a molarity and no amount is that of what the solvent holds in the end. */
function aloneIn(text: string, strength: RegExpExecArray | null, solvent: RegExpExecArray | null): Split | null {
  const molar = strength === null ? null : /^([\d.,]+) mol\/L$/.exec(tidyStrength(strength[0]));
  const name = trimmed(text.replaceAll(/[()]/g, ' '));
  if (!molar || solvent || normalIn(strength?.[0] ?? '') !== null || !isName(name) || /\d\s*%/.test(name)) return null;
  return { ok: true, name, printed: `to ${molar[1] ?? ''} mol/L`, alone: true };
}

/** A bracket in a name that is not closed, or not opened. */
function unclosed(name: string): RegExpExecArray | null {
  const count = (sign: string): number => name.split(sign).length - 1;
  return count('(') === count(')') ? null : /[()].*$/.exec(name);
}

/** "To neutralise" instead of an amount; beside an amount it is no more than a note. */
function neutralising(text: string): RegExpExecArray | null {
  const found = NEUTRALISE.exec(text);
  if (!found) return null;
  const rest = blanked(text, found);
  return splitName(blanked(rest, STRENGTH.exec(rest))).ok ? null : found;
}

/** "15 % w/w sodium hydroxide to neutralise, to pH 7": what is in the pot decides the amount. */
function neutralisingLine(
  found: RegExpExecArray,
  { text, temperature, overMinutes, said }: Conditions,
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
  const normal = strength === null ? null : normalIn(strength[0]);
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
    temperature,
    overMinutes,
    note: [noteless.note, ...said].filter((one) => one !== null).join(', ') || null,
    neutralises: { rule: rule.rule, form },
    ...(normal === null ? {} : { normal }),
  };
}

/** The line with what was typed beside the name of its material as a note too. */
export function withSaid(line: ChargeLine, said: string | null): ChargeLine {
  if (said === null) return line;
  return { ...line, note: line.note === null ? said : `${said}, ${line.note}` };
}

type Split = { readonly ok: true; readonly name: string; readonly printed: string; readonly alone?: boolean } | ParseProblem;

/** The name and what is printed of it, whichever stands first. */
function splitName(text: string): Split {
  const first = amountFirst(text) ?? nameFirst(text, 0);
  if (first) return first;
  const number = /(?<=\p{L}[\s,:(]+)\d/u.exec(text);
  const leading = numberProblem(text);
  if (leading) return leading;
  if (!number) return problem(text.trimEnd().length, words.amount);
  const read = readPrinted(text.slice(number.index));
  return read.ok ? problem(0, words.name) : problem(number.index + read.at, read.words);
}

/** What is wrong with the figures that a line begins with; null where they are a number. */
function numberProblem(text: string): ParseProblem | null {
  const lead = /^[\s(]*/.exec(text)?.[0].length ?? 0;
  const figures = /^\d[\d.,]*/.exec(text.slice(lead))?.[0] ?? '';
  const read = figures === '' ? null : readPrinted(`${figures.replace(/[.,]$/, '')} g`);
  return read && !read.ok && read.at < figures.length ? problem(lead + read.at, read.words) : null;
}

function nameFirst(text: string, from: number): Split | null {
  for (const start of text.slice(from).matchAll(/(?<=[\s:]|(?<!\d),|^)[(~\d]|(?<=\s)(?:about|ca\.?|to|up to)\s+\d/gi)) {
    const index = from + start.index;
    const name = trimmed(text.slice(from, index));
    if (!isName(name)) continue;
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
    const joined = more?.ok
      ? [`${printed} ${more.printed}`, `${printed}, ${more.printed}`].find((both) => readPrinted(both).ok)
      : undefined;
    if (more?.ok && joined !== undefined) return { ok: true, name: more.name, printed: joined };
    const name = trimmed(rest);
    if (isName(name)) return { ok: true, name, printed };
  }
  return null;
}

/** The sign of "2 × 25 mL" is no name. */
function isName(text: string): boolean {
  return /\p{L}/u.test(text.replace(/^\d+\s*[x×*]\s*$/i, '')) && !/\s\d+\s*[x×*]$/i.test(text);
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
  const flat = text.replaceAll(/\s+/g, ' ').replaceAll(/(?<=\d ?(?:mg|kg|g|µL|mL|ml|L|mmol|mol)) (?=\d)/g, ', ');
  return closed(flat)
    .replaceAll(/(?:\s*[,;])+\s*(?=[,;)]|$)/g, '')
    .replaceAll(/\s+(?=,)/g, '')
    .replaceAll(/\(\s*,?\s*\)/g, '')
    .replaceAll(/\(\s*(?:[,;]\s*)?/g, '(')
    .replaceAll(/\s+\)/g, ')')
    .replace(/^[\s,]+/, '')
    .replace(/\s+of\s*$/, '')
    .trim();
}

/** A bracket whose other half went with the strength is taken away too. */
function closed(text: string): string {
  const open = text.split('(').length - text.split(')').length;
  if (open > 0) return text.replace('(', ' ');
  return open < 0 ? text.replace(/\)(?=[^)]*$)/, ' ') : text;
}

function problem(at: number, said: string): ParseProblem {
  return { ok: false, at, words: said };
}
