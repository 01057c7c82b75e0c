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
  return sectionWords(section).lines[line.code]?.(line.values) ?? line.code;
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

/** What a section rests on, as one text; empty where it rests on nothing. */
export function assumptionsText({ kind, assumptions }: BenchSection): string {
  const words = sectionWords(kind).assumptions;
  return assumptions.map((one) => words[one] ?? one).join(' ');
}

function figureText(figure: Parameters<typeof formatAmount>[0], mark: DecimalMark): string {
  const { text, unit } = formatAmount(figure, mark);
  return unit === '' ? text : `${text}\u00a0${unit}`;
}
