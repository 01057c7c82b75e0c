import type { RunRecord } from '../port/runs.ts';
import type { Figure } from '../quantity/figure.ts';
import { type DecimalMark, formatAmount, formatSignificant, shownUnit } from '../quantity/format.ts';
import type { RunEntry } from '../run/entry.ts';
import { runBalanceLines } from '../run/balance-lines.ts';
import { cropLines } from '../run/crop-lines.ts';
import type { RunCharge, RunSheet } from '../run/run-sheet.ts';
import { type RunOutcome, runOutcome } from '../run/outcome.ts';
import { weighedText } from '../run/reading-text.ts';
import { type ChargeState, foldRun, type RunState } from '../run/state.ts';
import { otherStrength } from '../run/in-hand.ts';
import { runBalanceWords } from '../words/run-balance-words.ts';
import { entryText, runReportWords as words } from '../words/run-entry-words.ts';
import { sentence } from '../words/sentences.ts';
import { weighWords } from '../words/weigh-words.ts';
import type { Maybe } from '../words/why.ts';
import { rangeText, readingText } from './amounts.ts';
import type { RunReportPaper } from './paper.ts';

export interface ReportContext {
  readonly size: 'A4' | 'Letter';
  readonly mark: DecimalMark;
  /** A moment in UTC as the reader writes it, and its time of day. */
  readonly moment: (iso: string) => string;
  readonly time: (iso: string) => string;
  /** Yield over all steps, %; null where it is not known. */
  readonly cumulativePercent: number | null;
}

/** A record is worked out from readings of five and six digits: more than a plan deserves. */
const DIGITS = 5;

/** What a run's report says: charges as they were really weighed, what it came to, and every entry of the record. */
export function runReport(run: RunRecord, context: ReportContext): RunReportPaper {
  const { sheet } = run.start;
  const state = foldRun(sheet, run.entries);
  const factor = state.factor !== null && state.factor !== 1 ? formatSignificant(state.factor, 4, context.mark) : null;
  return {
    backweigh: 'paper',
    version: 1,
    kind: 'run report',
    size: context.size,
    title: words.title(sheet.sheet.id, run.id),
    plan: sheet.plan,
    route: sheet.route,
    asOf: sheet.asOf,
    sheet: sheet.sheet.id,
    step: sheet.sheet.title,
    facts: factsOf(run, context),
    scaled: factor === null ? '' : words.charges.scaled(factor),
    charges: state.charges.map((charge, at) => chargeRow(charge, at + 1, state, run, context)),
    outcome: outcomeLines(run, state, context),
    entries: entryLines(run, context),
  };
}

function factsOf(run: RunRecord, { moment }: ReportContext): RunReportPaper['facts'] {
  const { sheet, revision, started } = run.start;
  const checkers = run.entries.flatMap(({ entry }) => (entry.kind === 'charged' && entry.checkedBy ? [entry.checkedBy] : []));
  const people = words.facts.people(unique(run.entries.map((one) => one.entry.by)), unique(checkers));
  const facts = words.facts;
  return [
    { label: facts.batch, value: sheet.sheet.batchWords },
    { label: facts.plan, value: facts.planned(sheet.plan, revision) },
    { label: facts.route, value: sheet.route },
    { label: facts.started, value: moment(started) },
    { label: facts.finished, value: endOf(run, moment) },
    { label: facts.by, value: people },
    { label: facts.record, value: run.broken === null ? facts.whole(run.entries.length) : facts.broken(run.broken) },
  ];
}

/** When it was finished, and why where that was too early; an end that was taken out is none. */
function endOf(run: RunRecord, moment: (iso: string) => string): string {
  const { standing } = foldRun(run.start.sheet, run.entries);
  const end = standing.findLast((one) => one.entry.kind === 'finished');
  if (end?.entry.kind !== 'finished') return words.facts.notFinished;
  return end.entry.why === undefined ? moment(end.at) : words.facts.early(moment(end.at), end.entry.why);
}

const unique = (names: readonly string[]): string => [...new Set(names)].join(', ');

function chargeRow(
  own: ChargeState,
  number: number,
  state: RunState,
  { entries, start }: RunRecord,
  { mark, time }: ReportContext,
): RunReportPaper['charges'][number] {
  const { charge, target, parts } = own;
  const { low, high } = target;
  const beside = { ...charge, target: target.target ?? low ?? 0 };
  const range = low !== null && high !== null ? rangeText(low, high, beside, mark) : null;
  const written = state.standing.flatMap(({ number, at, entry }) =>
    entry.kind === 'charged' && entry.charge === charge.id ? [{ number, at, entry }] : [],
  );
  return {
    number,
    material: charge.name,
    target: target.target === null ? words.charges.noTarget : readingText(target.target, charge.unit, charge.decimals, mark),
    range: range ?? words.charges.recorded,
    taken:
      parts.length === 0 ? [words.charges.notTaken] : parts.map((one) => `${weighedText(one.net, one.text, mark)} ${one.unit}`),
    from: onceIfSame(
      parts.map(({ bottle, lot }) =>
        bottle === null && lot === '' ? noBottle(charge, start.sheet) : [bottle, lot].filter(Boolean).join(', '),
      ),
    ),
    done: written.flatMap(({ number: of, at, entry }) => {
      const checker = checkerOf(of, entry, entries);
      const unchecked = start.sheet.secondCheck ? [words.charges.unchecked] : [];
      return [`${time(at)} ${entry.by}`, ...(checker === undefined ? unchecked : [words.charges.checked(checker)])];
    }),
    remarks: [
      ...spilledWords(charge.id, entries, mark),
      ...written.flatMap(({ number: of }) => correctedWords(of, entries)),
      ...strengthWords(own, mark),
      ...parts.flatMap((one) => (one.deviation === undefined ? [] : [words.charges.deviation(one.deviation)])),
    ],
  };
}

/** Taken from another strength than planned, an amount outside the range may be right: its moles say. */
function strengthWords(own: ChargeState, mark: DecimalMark): readonly string[] {
  const other = otherStrength(own);
  if (!other) return [];
  const moles = (value: number): string => {
    const { text, unit } = formatAmount({ value, unit: 'mol', digits: 4 }, mark);
    return `${text} ${unit}`;
  };
  return [words.charges.otherStrength(moles(other.brought), moles(other.wanted))];
}

/** Where a charge comes from that comes from no bottle, as its sheet says: a make-up, a dish, the tap. */
function noBottle({ id, bottles }: RunCharge, { sheet }: RunSheet): string {
  const entry = sheet.stages.flatMap((stage) => stage.entries).find((one) => one.id === id);
  const sources = entry?.do === 'charge' ? entry.sources : [];
  return sources.length > bottles.length ? (sources.at(-1)?.words ?? '') : '';
}

/** One line for all parts where they come from the same; else one for each, beside what was taken. */
const onceIfSame = (lines: readonly string[]): string[] => {
  const different = new Set(lines);
  return different.size > 1 ? [...lines] : [...different].filter((line) => line !== '');
};

/** What of a charge was weighed and spilled: it is used up, and stands in no row of what was taken. */
function spilledWords(charge: string, entries: RunRecord['entries'], mark: DecimalMark): readonly string[] {
  return entries.flatMap(({ number, entry: was }) => {
    if (was.kind !== 'charged' || was.charge !== charge) return [];
    const last = entries.findLast(({ entry }) => entry.kind === 'correction' && entry.of === number);
    if (last?.entry.kind !== 'correction' || !last.entry.spilled) return [];
    return [words.charges.spilled(`${weighedText(was.net, was.text, mark)} ${was.unit}`, last.number, last.entry.reason)];
  });
}

/** Who looked at a weighing as it counts now: nobody, where it was put right to another amount or bottle since. */
function checkerOf(of: number, entry: Extract<RunEntry, { kind: 'charged' }>, entries: RunRecord['entries']): string | undefined {
  const seen = entries.find(({ number }) => number === of)?.entry;
  const same = seen?.kind === 'charged' && seen.net === entry.net && seen.bottle === entry.bottle;
  return same ? entry.checkedBy : undefined;
}

/** That a weighing was corrected: by which entry, and why. */
function correctedWords(of: number, entries: RunRecord['entries']): readonly string[] {
  const last = entries.findLast(({ entry }) => entry.kind === 'correction' && entry.of === of);
  return last?.entry.kind === 'correction' ? [words.charges.corrected(last.number, last.entry.reason)] : [];
}

function outcomeLines(run: RunRecord, state: RunState, { mark, cumulativePercent }: ReportContext): RunReportPaper['outcome'] {
  const outcome = runOutcome(run.start.sheet, state);
  const labels = weighWords.outcome;
  const shown = (one: Figure): string => {
    const { unit, factor } = shownUnit(one.value, one.unit);
    return `${formatSignificant(one.value * factor, DIGITS, mark)} ${unit}`;
  };
  const value = (one: Maybe<'g' | 'mol' | '%'>): string => (one.ok ? shown(one.figure) : sentence(one.why));
  const percent = (one: number): string => `${formatSignificant(one, 4, mark)} %`;
  const corrected = !outcome.yield.ok || outcome.yield.figure.label === 'yield';
  const yields = outcome.yield.ok ? percent(outcome.yield.figure.value) : sentence(outcome.yield.why);
  return [
    { label: corrected ? labels.yield : labels.uncorrected, value: yields },
    { label: labels.planned, value: percent(run.start.sheet.product.yieldPercent) },
    ...(cumulativePercent === null ? [] : [{ label: labels.cumulative, value: percent(cumulativePercent) }]),
    { label: labels.product, value: value(outcome.product) },
    ...cropLines(outcome).map((one) => ({ label: one.label, value: shown(one.figure) })),
    { label: labels.expected, value: value(outcome.expected) },
    { label: labels.theory, value: value(outcome.theory) },
    { label: labels.basis, value: value(outcome.basisMoles) },
    ...recoveryLines(outcome, value, percent),
    ...runBalanceLines(outcome.balance).map((one) => ({
      label: `${runBalanceWords.title}: ${one.label}`,
      value: value(one.value),
    })),
  ];
}

/** Basis that was got back, apart from the yield; nothing where none was. */
function recoveryLines(
  { recovery, overWhole }: RunOutcome,
  value: (one: Maybe<'g' | 'mol' | '%'>) => string,
  percent: (one: number) => string,
): RunReportPaper['outcome'] {
  if (!recovery) return [];
  const labels = weighWords.outcome;
  return [
    { label: labels.recovered, value: value({ ok: true, figure: recovery.contained }) },
    { label: labels.recovery, value: recovery.percent.ok ? percent(recovery.percent.figure.value) : value(recovery.percent) },
    ...(overWhole ? [{ label: labels.overWhole, value: '' }] : []),
  ];
}

/** Every entry as it was written; what was corrected is struck and names its correction. */
function entryLines(run: RunRecord, { mark, moment }: ReportContext): RunReportPaper['entries'] {
  const { sheet } = run.start;
  const corrections = new Map<number, string>();
  for (const { number, entry } of run.entries) if (entry.kind === 'correction') corrections.set(entry.of, String(number));
  return run.entries.map(({ number, at, entry }: { number: number; at: string; entry: RunEntry }) => {
    const by = corrections.get(number);
    const text = entryText(entry, sheet, mark);
    return {
      number,
      at: moment(at),
      by: entry.by,
      words: by === undefined ? text : words.entries.corrected(text, by),
      struck: by !== undefined,
    };
  });
}
