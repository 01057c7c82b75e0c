import { grouped } from '../grouped.ts';
import { lastReactant } from '../heat/last-reactant.ts';
import type { Operation } from '../route/route.ts';
import type { BenchInput, BenchLine, BenchSection } from './bench-section.ts';

/** Numbers about a charge that are no matter of the moment it goes in: they stand with those of the whole batch. */
const FOR_LATER: ReadonlySet<string> = new Set(['excess base', 'excess volume', 'excess salt', 'on the filter']);
/** Volumes of single stages, behind what decides. */
const LAST: ReadonlySet<string> = new Set(['stage', 'filter flask', 'on the filter']);
/** Lines that rest on an earlier section, whose reason they share. */
const POINTS_BACK: ReadonlySet<string> = new Set(['margin unknown']);
/** From this class on the technical limit, or more, is passed when cooling is lost (Stoessel 1993). */
const PASSES_LIMIT = 3;

/**
 * Puts every line where it is needed: a caution immediately before an operation, never among the numbers at the end;
 * what can wait behind them; the same thing, and the same reason, once. No caution is left out.
 */
export function placed(sections: readonly BenchSection[], of: Pick<BenchInput, 'step'>): readonly BenchSection[] {
  const reasons = new Map<string, BenchSection['kind']>();
  return sections.map((section) => ({
    ...section,
    lines: together(section.lines)
      .filter((line) => !isSaidAsGas(line, sections))
      .map(louder)
      .map((line) => at(line, section.kind, of.step.operations, lastReactant(of.step)?.id ?? null))
      .map((line) => reasonOnce(line, section.kind, reasons))
      .sort((one, other) => Number(LAST.has(one.code)) - Number(LAST.has(other.code))),
  }));
}

/** Where gases must be led is said once for all of one operation that go the same way. */
const OF_GASES: ReadonlySet<string> = new Set(['scrubber for acid', 'scrubber for base', 'suffocates', 'burns', 'poisons']);

function together(lines: readonly BenchLine[]): readonly BenchLine[] {
  const key = (line: BenchLine): string => `${line.code}/${line.operation}`;
  const groups = grouped(
    lines.filter((line) => OF_GASES.has(line.code)),
    key,
  );
  return lines.flatMap((line) => {
    const all = OF_GASES.has(line.code) ? (groups.get(key(line)) ?? []) : [line];
    if (all[0] !== line) return [];
    return [
      all.length === 1 ? line : { ...line, values: { ...line.values, gas: all.map((one) => one.values.gas).join(' and ') } },
    ];
  });
}

/** Carbon dioxide of a neutralisation, where the section of gases says it already. */
function isSaidAsGas({ code, operation }: BenchLine, sections: readonly BenchSection[]): boolean {
  if (code !== 'gas at most') return false;
  const gases = sections.find(({ kind }) => kind === 'gas')?.lines ?? [];
  return gases.some((one) => one.code === 'largest' && one.operation === operation && one.values.gas === 'carbon dioxide');
}

/** What a class of criticality means is a caution where it says that a limit is passed. */
function louder(line: BenchLine): BenchLine {
  if (line.code !== 'class') return line;
  const { shown } = line;
  const above = shown.kind === 'unknown' && shown.why.code === 'process above T_D24';
  return above || Number(line.values.class) >= PASSES_LIMIT ? { ...line, level: 'caution' } : line;
}

function at(line: BenchLine, kind: BenchSection['kind'], operations: readonly Operation[], reacts: string | null): BenchLine {
  if (FOR_LATER.has(line.code) && line.level === 'number') return { ...line, operation: null };
  if (line.level !== 'caution' || line.operation !== null) return line;
  const [first] = operations;
  const ofStage = operations.find((one) => one.stage === line.values.stage)?.id;
  const purified = operations.find((one) => one.stage === 'purification')?.id;
  // A recrystallisation that no operation names follows the last of them, and says what it is about.
  if (kind === 'recrystallise' && purified === undefined)
    return { ...line, operation: operations.at(-1)?.id ?? null, values: { ...line.values, after: 'yes' } };
  const place = kind === 'heat' ? reacts : kind === 'recrystallise' ? purified : ofStage;
  return { ...line, operation: place ?? first?.id ?? null };
}

/** A reason that stands under an earlier section is pointed to, not said again. */
function reasonOnce(line: BenchLine, kind: BenchSection['kind'], reasons: Map<string, BenchSection['kind']>): BenchLine {
  if (line.shown.kind !== 'unknown' || line.operation !== null) return line;
  const reason = JSON.stringify(line.shown.why);
  const said = reasons.get(reason);
  if (said !== undefined && said !== kind && POINTS_BACK.has(line.code))
    return { ...line, shown: { kind: 'unknown', why: { code: 'reason under', values: { section: said } } } };
  if (said === undefined) reasons.set(reason, kind);
  return line;
}
