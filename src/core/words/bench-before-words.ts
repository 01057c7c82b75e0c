import type { BenchLine } from '../bench/bench-section.ts';
import type { Before } from '../caution/bench-before.ts';
import { worstFirst } from '../caution/by-harm.ts';
import type { DecimalMark } from '../quantity/format.ts';
import type { Notice } from './notice.ts';
import { benchNumberWords, linesText, lineWhy, loweredLabel } from './bench-number-words.ts';

type Text = ReturnType<typeof linesText>[number];

/**
 * Bench numbers before one operation as texts, over all sections: each that is known a line; all that is not known one
 * line that names the things and then says why, so that what comes off or boils does not drown among them. What is a
 * caution stays one.
 */
export function beforeText(before: readonly Before[], mark: DecimalMark = '.'): readonly Text[] {
  const known = before.flatMap(({ kind, lines }) =>
    linesText(
      kind,
      lines.filter((line) => !isUnknown(line)),
      mark,
    ),
  );
  const gathered = (['caution', 'number'] as const).flatMap((level) => notKnown(before, level, mark));
  return [...known, ...gathered];
}

/** Something that is said before an operation; `number`: no caution. */
export interface SaidBefore {
  readonly level: Notice['level'] | 'number';
  readonly code: string;
  readonly words: string;
}

/**
 * All that is said before one operation: what was found and the bench numbers that are cautions together, the worst
 * first, then the other numbers. Nothing twice.
 */
export function allBefore(
  notices: readonly Notice[],
  before: readonly Before[],
  say: (notice: Notice) => string,
  mark: DecimalMark = '.',
): readonly SaidBefore[] {
  const told = notices.map((notice) => ({ level: notice.level, code: notice.code, words: say(notice) }));
  const texts = beforeText(before, mark);
  const cautions = texts.flatMap(({ level, code, words }) => (level === 'caution' ? [{ level, code, words }] : []));
  const all = [...worstFirst([...told, ...cautions]), ...texts.filter(({ level }) => level === 'number')];
  return all.filter((one, at) => one.words !== '' && all.findIndex((other) => other.words === one.words) === at);
}

function notKnown(before: readonly Before[], level: BenchLine['level'], mark: DecimalMark): readonly Text[] {
  const own = before.map(({ kind, lines }) => ({ kind, lines: lines.filter((line) => isUnknown(line) && line.level === level) }));
  const texts = own.flatMap(({ kind, lines }) => linesText(kind, lines, mark));
  const [first, ...others] = texts;
  if (!first || others.length === 0) return texts;
  const labels = own.flatMap(({ kind, lines }) => lines.map((line) => loweredLabel(kind, line)));
  const reasons = own.flatMap(({ lines }) => lines.map(lineWhy));
  const said = [...new Set(reasons)].filter((one) => one !== '').join(' ');
  return [{ ...first, words: `${benchNumberWords.notKnown} ${[...new Set(labels)].join('; ')}. ${said}`.trim() }];
}

const isUnknown = ({ shown }: BenchLine): boolean => shown.kind === 'unknown';
