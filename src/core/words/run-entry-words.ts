import { type DecimalMark, formatSignificant } from '../quantity/format.ts';
import { READ_FIRST } from '../run/state.ts';
import { weighedText } from '../run/reading-text.ts';
import type { Correctable, RunEntry } from '../run/entry.ts';
import type { RunSheet } from '../run/run-sheet.ts';

const number = (value: number, mark: DecimalMark): string => String(value).replace('.', mark).replace('-', '−');

/** An entry of a run's record as a sentence: on screen, and line by line in the report. */
export function entryText(entry: RunEntry, sheet: RunSheet, mark: DecimalMark): string {
  const at = (operation: string | null): string => (operation === null ? '' : ` (${nameOf(sheet, operation)})`);
  switch (entry.kind) {
    case 'started':
      return 'Run started.';
    case 'reading':
      return `${nameOf(sheet, entry.charge)}: ${readings[entry.what]} ${weighedText(entry.amount, entry.text, mark)} ${entry.unit}, not taken yet${typed(entry.text)}.`;
    case 'charged':
      return chargedText(entry, sheet, mark);
    case 'confirmed':
      if (entry.operation === READ_FIRST) return 'Head of the sheet read.';
      return `Confirmed: ${nameOf(sheet, entry.operation)}${entry.remark === undefined ? '' : `; ${entry.remark}`}.`;
    case 'temperature':
      return `${number(entry.celsius, mark)} °C${at(entry.operation)}${entry.remark === undefined ? '' : `; ${entry.remark}`}.`;
    case 'check':
      return `Check ${entry.passed ? 'met' : 'not met'}${at(entry.operation)}: ${entry.found}.`;
    case 'deviation':
      return `Deviation${at(entry.operation)}: ${entry.words}.`;
    case 'rescaled':
      return entry.factor === 1
        ? 'Targets left as planned.'
        : `Targets of what follows multiplied by ${formatSignificant(entry.factor, 4, mark)}.`;
    case 'product':
      return productText(entry, sheet, mark);
    case 'recovered':
      return recoveredText(entry, sheet, mark);
    case 'remark':
      return `Remark: ${entry.words}`;
    case 'file':
      return `File: ${entry.name}${entry.sha256 === undefined ? '' : `, SHA-256 ${entry.sha256}`}${entry.remark === undefined ? '' : `; ${entry.remark}`}.`;
    case 'acknowledged':
      return `Caution read${at(entry.operation)}: “${entry.words}”`;
    case 'paused':
      return 'Paused.';
    case 'resumed':
      return 'Gone on with.';
    case 'correction':
      if (entry.spilled) {
        return `Entry ${entry.of} was spilled: it is used up and does not count as charged. Reason: ${entry.reason}.`;
      }
      return entry.instead === null
        ? `Correction of entry ${entry.of}: it should not be there. Reason: ${entry.reason}.`
        : `Correction of entry ${entry.of}: ${insteadText(entry.instead, sheet, mark)} Reason: ${entry.reason}.`;
    case 'finished':
      return entry.why === undefined ? 'Run finished.' : `Run ended before its last operation: ${entry.why}.`;
  }
}

/** Who wrote an entry stands beside it; of a start put right it is what the correction says. */
function insteadText(instead: Correctable, sheet: RunSheet, mark: DecimalMark): string {
  return instead.kind === 'started' ? `Run started by ${instead.by}.` : entryText(instead, sheet, mark);
}

const readings = { net: 'net', tare: 'tare', gross: 'gross' } as const;

const typed = (text: string): string => (text === '' ? '' : ` (typed “${text}”)`);

function chargedText(entry: Extract<RunEntry, { kind: 'charged' }>, sheet: RunSheet, mark: DecimalMark): string {
  const parts = [
    `${nameOf(sheet, entry.charge)}: ${weighedText(entry.net, entry.text, mark)} ${entry.unit}${entry.complete && entry.portion === 1 ? '' : `, part ${entry.portion}`}`,
    tareText(entry, mark),
    fromText(entry),
    entry.text === '' ? '' : `typed “${entry.text}”`,
    entry.checkedBy === undefined ? '' : `checked by ${entry.checkedBy}`,
    entry.deviation === undefined ? '' : `deviation: ${entry.deviation}`,
  ];
  return `${parts.filter((one) => one !== '').join('; ')}.`;
}

/** From which bottle; or from what is on no shelf, as it was named. */
function fromText({ bottle, lot }: Extract<RunEntry, { kind: 'charged' }>): string {
  if (bottle === null) return lot === '' ? '' : `from ${lot}`;
  return `from ${bottle}${lot === '' ? '' : `, lot ${lot}`}`;
}

function productText(entry: Extract<RunEntry, { kind: 'product' }>, sheet: RunSheet, mark: DecimalMark): string {
  const what = `Product ${sheet.sheet.product}, crop ${entry.crop}`;
  return entry.grams === 0 ? `${what}: nothing was obtained.` : weighedOut(what, entry, mark);
}

const recoveredText = (entry: Extract<RunEntry, { kind: 'recovered' }>, sheet: RunSheet, mark: DecimalMark): string =>
  weighedOut(`Basis got back, ${sheet.basis.name}`, entry, mark);

/** What came out of the vessel and was weighed. */
function weighedOut(what: string, entry: Extract<RunEntry, { kind: 'product' | 'recovered' }>, mark: DecimalMark): string {
  const parts = [
    `${what}: ${weighedText(entry.grams, entry.text, mark)} g${entry.wet ? ', wet' : ''}`,
    tareText(entry, mark),
    entry.assayPercent === null ? 'assay not determined' : `assay ${number(entry.assayPercent, mark)} %`,
    entry.bottle === null ? '' : `in ${entry.bottle}`,
    entry.place,
  ];
  return `${parts.filter((one) => one !== '').join('; ')}.`;
}

function tareText(
  { tare, gross, text }: { readonly tare?: number | undefined; readonly gross?: number | undefined; readonly text: string },
  mark: DecimalMark,
): string {
  if (tare === undefined || gross === undefined) return '';
  return `tare ${weighedText(tare, text, mark)} g, gross ${weighedText(gross, text, mark)} g`;
}

/** What an operation of the sheet is called. */
function nameOf({ sheet, charges }: RunSheet, id: string): string {
  const charge = charges.find((one) => one.id === id);
  if (charge) return charge.name;
  const entry = sheet.stages.flatMap((stage) => stage.entries).find((one) => one.id === id);
  if (!entry || entry.do === 'charge') return id;
  return entry.do === 'hold' ? entry.until : `${entry.title.toLowerCase()} ${entry.takes}`;
}

/** What the run report says around its data. */
export const runReportWords = {
  title: (sheet: string, run: number) => `Report of run ${run}, sheet ${sheet}`,
  facts: {
    batch: 'batch',
    plan: 'plan',
    planned: (plan: string, revision: number) => `${plan}, revision ${revision}`,
    route: 'route',
    started: 'started',
    finished: 'finished',
    early: (moment: string, why: string) => `${moment}, before its last operation: ${why}`,
    notFinished: 'not finished',
    by: 'by',
    people: (by: string, checkers: string) => (checkers === '' ? by : `${by}; second check ${checkers}`),
    record: 'record',
    whole: (entries: number) => `${entries} entries, as they were written`,
    broken: (entry: number) =>
      entry === 0 ? 'changed after it was written, where it begins' : `changed after it was written, at entry ${entry}`,
  },
  charges: {
    title: 'Charges',
    columns: ['no.', 'material', 'target, range', 'taken', 'from', 'time, by'],
    notTaken: 'not taken',
    noTarget: 'unknown',
    otherStrength: (brought: string, wanted: string) =>
      `of another strength than planned: what was taken brings ${brought}, the target was for ${wanted}`,
    recorded: 'recorded',
    scaled: (factor: string) => `Targets after the basis are scaled by ${factor} to the basis as weighed.`,
    parts: (count: number) => `${count} parts`,
    checked: (by: string) => `checked by ${by}`,
    unchecked: 'no second check',
    deviation: (why: string) => `deviation: ${why}`,
    corrected: (entry: number, reason: string) => `corrected by entry ${entry}: ${reason}`,
    spilled: (amount: string, entry: number, reason: string) => `${amount} spilled, entry ${entry}: ${reason}`,
  },
  outcome: 'What it came to',
  entries: {
    title: 'Record',
    columns: ['no.', 'time', 'by', 'entry'],
    corrected: (text: string, by: string) => `${text} Corrected by entry ${by}.`,
  },
  end: (entries: number) => `${entries} of ${entries} entries`,
} as const;
