import type { RunRecord } from '../port/runs.ts';
import type { Figure } from '../quantity/figure.ts';
import { type DecimalMark, formatDecimals, formatSignificant, shownUnit } from '../quantity/format.ts';
import type { RunEntry } from '../run/entry.ts';
import { runOutcome } from '../run/outcome.ts';
import { weighedText } from '../run/reading-text.ts';
import { type ChargeState, foldRun, type RunState } from '../run/state.ts';
import { entryText, runReportWords as words } from '../words/run-entry-words.ts';
import { sentence } from '../words/sentences.ts';
import { weighWords } from '../words/weigh-words.ts';
import type { Maybe } from '../words/why.ts';
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
    charges: state.charges.map((charge, at) => chargeRow(charge, at + 1, state, context)),
    outcome: outcomeLines(run, state, context),
    entries: entryLines(run, context),
  };
}

function factsOf(run: RunRecord, { moment }: ReportContext): RunReportPaper['facts'] {
  const { sheet, revision, started } = run.start;
  const finished = run.entries.findLast((one) => one.entry.kind === 'finished');
  const people = [...new Set(run.entries.map((one) => one.entry.by))].join(', ');
  const facts = words.facts;
  return [
    { label: facts.batch, value: sheet.sheet.batchWords },
    { label: facts.plan, value: facts.planned(sheet.plan, revision) },
    { label: facts.route, value: sheet.route },
    { label: facts.started, value: moment(started) },
    { label: facts.finished, value: finished ? moment(finished.at) : facts.notFinished },
    { label: facts.by, value: people },
    { label: facts.record, value: run.broken === null ? facts.whole(run.entries.length) : facts.broken(run.broken) },
  ];
}

function chargeRow(
  { charge, target, parts }: ChargeState,
  number: number,
  state: RunState,
  { mark, time }: ReportContext,
): RunReportPaper['charges'][number] {
  const shown = (value: number): string => formatDecimals(value, charge.decimals, mark);
  const range =
    target.low !== null && target.high !== null ? `${shown(target.low)}–${shown(target.high)}` : words.charges.recorded;
  const written = state.standing.flatMap(({ at, entry }) =>
    entry.kind === 'charged' && entry.charge === charge.id ? [{ at, entry }] : [],
  );
  return {
    number,
    material: charge.name,
    target: target.target === null ? words.charges.noTarget : `${shown(target.target)} ${charge.unit}`,
    range,
    taken:
      parts.length === 0 ? [words.charges.notTaken] : parts.map((one) => `${weighedText(one.net, one.text, mark)} ${one.unit}`),
    from: parts.flatMap((one) => (one.bottle === null ? [] : [one.lot === '' ? one.bottle : `${one.bottle}, ${one.lot}`])),
    done: written.map(({ at, entry }) => `${time(at)} ${entry.by}`),
    remarks: parts.flatMap((one) => [
      ...(one.checkedBy === undefined ? [] : [words.charges.checked(one.checkedBy)]),
      ...(one.deviation === undefined ? [] : [words.charges.deviation(one.deviation)]),
    ]),
  };
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
    ...(outcome.crops.length < 2
      ? []
      : outcome.crops.map((one) => ({ label: weighWords.product.crop(one.crop), value: shown(one.contained) }))),
    { label: labels.expected, value: value(outcome.expected) },
    { label: labels.theory, value: value(outcome.theory) },
    { label: labels.basis, value: value(outcome.basisMoles) },
    { label: labels.in, value: value(outcome.balance.in) },
    { label: labels.rest, value: value(outcome.balance.rest) },
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
