import type { BenchLine, BenchSection, SectionCode } from '../bench/bench-section.ts';
import { type DecimalMark, formatAmount } from '../quantity/format.ts';
import { additionWords } from './addition-words.ts';
import { heatWords } from './heat-words.ts';
import { recrystalliseWords } from './recrystallise-words.ts';
import { gasWords } from './gas-words.ts';
import { neutraliseWords } from './neutralise-words.ts';
import type { SectionWords } from './section-words.ts';
import { sentence } from './sentences.ts';
import { vesselSectionWords } from './vessel-section-words.ts';

const SECTIONS: Partial<Readonly<Record<SectionCode, SectionWords>>> = {
  heat: heatWords,
  addition: additionWords,
  recrystallise: recrystalliseWords,
  neutralise: neutraliseWords,
  gas: gasWords,
  vessel: vesselSectionWords,
};

export const benchNumberWords = {
  heading: 'Bench numbers',
  perBatch: 'for one batch',
  screening:
    'Screening figures. What they leave out can hurt: measure, ask, and follow local rules; the responsible, licensed person decides.',
  unknown: 'not known',
  notKnown: 'Not known:',
  /** Of a later sheet of the same papers. */
  asOn: (sheet: string) => `as on sheet ${sheet}.`,
  numbersAsOn: (sheet: string) => `As on sheet ${sheet}, printed with this one; cautions stand before their operations here too.`,
  assumed: 'Assumed:',
  /** How a plot is to be read. */
  plotted: 'Shaded: where it is known. Dashed: an estimate.',
  asTable: 'As a table',
};

/** The words of a section. @throws where a section has none: each has, and a test sees to it. */
export function sectionWords(code: SectionCode): SectionWords {
  const words = SECTIONS[code];
  if (!words) throw new Error(`a section of bench numbers needs words (got ${code})`);
  return words;
}

/** What a line says before its figure. */
export function lineLabel(section: SectionCode, line: BenchLine): string {
  const { title, lines } = sectionWords(section);
  const label = lines[line.code]?.(line.values) ?? line.code;
  return line.values.after === undefined ? label : `${title}, after this: ${label}`;
}

/** Why a line has no figure. */
export function lineWhy(line: BenchLine): string {
  if (line.shown.kind !== 'unknown') return '';
  return sentence(line.shown.why);
}

/** A line as one piece of text: for paper and terminal. */
export function lineText(section: SectionCode, line: BenchLine, mark: DecimalMark = '.'): string {
  const label = lineLabel(section, line);
  const { shown } = line;
  if (shown.kind === 'words') return label;
  if (shown.kind === 'unknown') return `${label}: ${benchNumberWords.unknown}. ${lineWhy(line)}`.trim();
  if (shown.kind === 'figure') return `${label}: ${figureText(shown.figure, mark)}`;
  return `${label}: ${figureText(shown.from, mark)} → ${figureText(shown.to, mark)}`;
}

/** Two lines that are one amount, by mass and by volume: the second stands in brackets behind the first. */
const BY_VOLUME: Readonly<Record<string, string>> = {
  mass: 'volume',
  'on hand': 'on hand volume',
  'excess base': 'excess volume',
};

/**
 * Lines of one place as texts, for paper and terminal: an amount by mass with its volume in one, and what is not known
 * for the same reason together with it.
 */
export function linesText(
  section: SectionCode,
  lines: readonly BenchLine[],
  mark: DecimalMark = '.',
): readonly { readonly level: BenchLine['level']; readonly code: string; readonly words: string }[] {
  const done = new Set<BenchLine>();
  return lines.flatMap((line) => {
    if (done.has(line)) return [];
    const { shown, level, code } = line;
    const paired = lines.find((one) => one.code === BY_VOLUME[code] && one.operation === line.operation && !done.has(one));
    if (paired && shown.kind === 'figure' && paired.shown.kind === 'figure') {
      done.add(paired);
      return [{ level, code, words: `${lineText(section, line, mark)} (${figureText(paired.shown.figure, mark)})` }];
    }
    const alike = shown.kind === 'unknown' ? lines.filter((one) => one.level === level && sameReason(one, line)) : [line];
    for (const one of alike) done.add(one);
    return [{ level, code, words: alike.length > 1 ? unknownText(section, alike) : lineText(section, line, mark) }];
  });
}

function sameReason(one: BenchLine, other: BenchLine): boolean {
  if (one.shown.kind !== 'unknown' || other.shown.kind !== 'unknown') return false;
  return JSON.stringify(one.shown.why) === JSON.stringify(other.shown.why);
}

/** A label inside a sentence; "pH …" and names with capitals of their own stay as they are. */
function lowered(label: string): string {
  return /^[A-Z][a-z]/.test(label) ? label.charAt(0).toLowerCase() + label.slice(1) : label;
}

/** What a line says before its figure, inside a sentence. */
export function loweredLabel(section: SectionCode, line: BenchLine): string {
  return lowered(lineLabel(section, line));
}

/** "Not known: one thing; another. Why." */
function unknownText(section: SectionCode, lines: readonly BenchLine[]): string {
  const [first] = lines;
  const labels = lines.map((line) => loweredLabel(section, line)).join('; ');
  return `${benchNumberWords.notKnown} ${labels}. ${first ? lineWhy(first) : ''}`.trim();
}

/** What a section rests on, as one text; empty where it rests on nothing. */
export function assumptionsText({ kind, assumptions }: BenchSection): string {
  const words = sectionWords(kind).assumptions;
  return assumptions.map((one) => words[one] ?? one).join(' ');
}

function figureText(figure: Parameters<typeof formatAmount>[0], mark: DecimalMark): string {
  const { text, unit } = formatAmount(figure, mark);
  return unit === '' ? text : `${text}\u00a0${unit}`;
}
