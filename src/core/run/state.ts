import { unknown, type Why } from '../words/why.ts';
import type { Charged, Product, Recorded, Recovered, RunEntry } from './entry.ts';
import { shiftTarget, type Target } from './target.ts';
import type { Warning } from '../paper/sheet.ts';
import type { RunCharge, RunSheet } from './run-sheet.ts';

/** What stands on the balance, net, with the tare and gross it came from where they were weighed apart. */
export interface Weighing {
  readonly net: number;
  readonly unit: 'g' | 'mL';
  readonly text: string;
  readonly tare?: number;
  readonly gross?: number;
}

/** A charge as far as it has come. Amounts in the charge's own unit. */
export interface ChargeState {
  readonly charge: RunCharge;
  /** What is to be taken, from the basis as it was really weighed where that was chosen. */
  readonly target: Target;
  readonly parts: readonly Charged[];
  /** What has been taken so far; null where a part was weighed in another unit and no density is known. */
  readonly net: number | null;
  /** A tare that waits for its gross. */
  readonly tare: number | null;
  /** The last weighing that was not taken. */
  readonly reading: Weighing | null;
  /** The bottle of what was read last and not taken, as it was written; null where nothing says. */
  readonly readFrom: string | null;
  readonly complete: boolean;
  /** How strong what is in hand is, or a part before was, is not known: there is nothing to hold a weighing against. */
  readonly untold?: true;
  /** Its target is worked out for the strength of what is in hand, which is not the plan's. */
  readonly reworked?: true;
}

/** A run as its entries tell it, corrections applied. */
export interface RunState {
  readonly phase: 'running' | 'paused' | 'finished';
  /** Why it ended before its last operation; '' where it did not. */
  readonly early: string;
  readonly charges: readonly ChargeState[];
  /** Holds, removals and additions that were confirmed, by operation. */
  readonly confirmed: ReadonlySet<string>;
  /** Targets of what follows the basis are multiplied by it; null while nothing was said. */
  readonly factor: number | null;
  readonly products: readonly Product[];
  /** Basis that was got back. */
  readonly recovered: readonly Recovered[];
  /** What counts: entries as corrected, without those taken out, in the order they were written. */
  readonly standing: readonly Recorded[];
  /** Numbers of the entries that were corrected. */
  readonly corrected: ReadonlySet<number>;
}

/** Stands for the head of the sheet where an operation is confirmed: it was read before anything was weighed. */
export const READ_FIRST = 'sheet-read';

/** A record folded into how the run stands. Entries are taken as they are: they were looked at when they were written. */
export function foldRun(sheet: RunSheet, entries: readonly Recorded[]): RunState {
  const { standing, corrected } = standingEntries(entries);
  const of = <K extends RunEntry['kind']>(kind: K): readonly Extract<RunEntry, { kind: K }>[] =>
    standing.flatMap(({ entry }) => (entry.kind === kind ? [entry as Extract<RunEntry, { kind: K }>] : []));
  const factor = of('rescaled').at(-1)?.factor ?? null;
  return {
    phase: phaseOf(standing),
    early: of('finished').at(-1)?.why ?? '',
    charges: sheet.charges.map((charge) => chargeState(charge, standing, { factor, spilled: spilledOf(entries) })),
    confirmed: new Set(of('confirmed').map((one) => one.operation)),
    factor,
    products: of('product'),
    recovered: of('recovered'),
    standing,
    corrected,
  };
}

/** Entries with their corrections in their places; of several corrections of one entry the last counts. */
function standingEntries(entries: readonly Recorded[]): Pick<RunState, 'standing' | 'corrected'> {
  const instead = new Map<number, Recorded | null>();
  for (const { at, entry } of entries) {
    if (entry.kind !== 'correction') continue;
    instead.set(entry.of, entry.instead ? { number: entry.of, at, entry: entry.instead } : null);
  }
  const standing = entries.flatMap((one) => {
    if (one.entry.kind === 'correction') return [];
    const changed = instead.get(one.number);
    return changed === undefined ? [one] : changed === null ? [] : [changed];
  });
  return { standing, corrected: new Set(instead.keys()) };
}

function phaseOf(standing: readonly Recorded[]): RunState['phase'] {
  let phase: RunState['phase'] = 'running';
  for (const { entry } of standing) {
    if (entry.kind === 'finished') return 'finished';
    if (entry.kind === 'paused') phase = 'paused';
    if (entry.kind === 'resumed') phase = 'running';
  }
  return phase;
}

/** Charges of which something was spilled, as it stands now. */
function spilledOf(entries: readonly Recorded[]): ReadonlySet<string> {
  const spilled = new Map<number, boolean>();
  for (const { entry } of entries) if (entry.kind === 'correction') spilled.set(entry.of, entry.spilled ?? false);
  return new Set(
    entries.flatMap(({ number, entry }) => (spilled.get(number) === true && entry.kind === 'charged' ? [entry.charge] : [])),
  );
}

interface Folding {
  readonly factor: number | null;
  readonly spilled: ReadonlySet<string>;
}

function chargeState(charge: RunCharge, standing: readonly Recorded[], { factor, spilled }: Folding): ChargeState {
  const parts: Charged[] = [];
  let tare: number | null = null;
  let reading: ChargeState['reading'] = null;
  let readFrom: string | null = null;
  for (const { entry } of standing) {
    if (entry.kind === 'charged' && entry.charge === charge.id) {
      parts.push(entry);
      tare = null;
      reading = null;
      readFrom = null;
    } else if (entry.kind === 'reading' && entry.charge === charge.id) {
      const { what, amount, unit, text } = entry;
      readFrom = entry.bottle ?? null;
      if (what === 'net') reading = { net: amount, unit, text };
      else if (what === 'tare') {
        // A new weighing: what was refused before it is not taken by mistake for what this one gives.
        tare = amount;
        reading = null;
      } else if (tare !== null) reading = { net: less(amount, tare), unit, text, tare, gross: amount };
    }
  }
  const amounts = parts.map((part) => inUnitOf(charge, part.net, part.unit));
  const known = amounts.filter((one) => one !== null);
  const last = parts.at(-1);
  // A portion spilled when others had followed it lacks, though the last one was taken.
  const lacks = spilled.has(charge.id) && parts.length < (last?.portion ?? 0);
  return {
    charge,
    target: shiftTarget(charge, factor ?? 1),
    parts,
    net: known.length < amounts.length ? null : known.reduce((sum, one) => sum + one, 0),
    tare,
    reading,
    readFrom,
    complete: (last?.complete ?? false) && !lacks,
  };
}

/** Gross less tare, without the noise of binary arithmetic. */
export function less(gross: number, tare: number): number {
  return Number((gross - tare).toFixed(7));
}

/** An amount in the unit its charge is planned in; null where that needs a density that is not known. */
export function inUnitOf(
  charge: Pick<RunCharge, 'unit' | 'gramsPerMillilitre'>,
  amount: number,
  unit: 'g' | 'mL',
): number | null {
  if (unit === charge.unit) return amount;
  if (charge.gramsPerMillilitre === null) return null;
  return unit === 'g' ? amount / charge.gramsPerMillilitre : amount * charge.gramsPerMillilitre;
}

const AFTER_THE_END: ReadonlySet<RunEntry['kind']> = new Set([
  'product',
  'recovered',
  'remark',
  'file',
  'correction',
  'check',
] as const);

/** Why an entry cannot be written after those before it; null where it can. */
export function whyNotWritten(sheet: RunSheet, entries: readonly Recorded[], entry: RunEntry): Why | null {
  const refuse = (...of: Parameters<typeof unknown>): Why => unknown(...of).why;
  if (entries.length === 0) return entry.kind === 'started' ? null : refuse('run not started');
  if (entry.kind === 'started') return refuse('run started already');
  const state = foldRun(sheet, entries);
  if (state.phase === 'finished' && !AFTER_THE_END.has(entry.kind)) return refuse('run finished');
  if (entry.kind === 'resumed') return state.phase === 'paused' ? null : refuse('run not paused');
  if (entry.kind === 'correction') return whyNotCorrected(sheet, entries, entry);
  if (state.phase === 'paused' && entry.kind !== 'remark') return refuse('run paused');
  return whyNotSensible(sheet, state, entry);
}

/** It was so, or it was not: a pause or an end that was wrong is taken out. Of the start only who began can be wrong. */
const ONLY_TAKEN_OUT: ReadonlySet<RunEntry['kind']> = new Set(['paused', 'resumed', 'finished', 'correction'] as const);

function whyNotCorrected(
  sheet: RunSheet,
  entries: readonly Recorded[],
  { of, instead, spilled }: Extract<RunEntry, { kind: 'correction' }>,
): Why | null {
  const found = entries.find((one) => one.number === of);
  if (!found) return unknown('no such entry', { number: of }).why;
  const { kind } = found.entry;
  if (spilled) {
    // What was taken out already is back in its bottle: it cannot have been spilled as well.
    const stands = standingEntries(entries).standing.some((one) => one.number === of);
    return stands && instead === null && kind === 'charged' ? null : unknown('entry not corrected', { number: of, kind }).why;
  }
  if (instead === null ? kind === 'started' || kind === 'correction' : ONLY_TAKEN_OUT.has(kind)) {
    return unknown('entry not corrected', { number: of, kind }).why;
  }
  if (!instead) return null;
  if (instead.kind !== kind) return unknown('correction of another kind', { number: of, kind, instead: instead.kind }).why;
  const without = foldRun(
    sheet,
    entries.filter((one) => one.number < of),
  );
  return whyNotSensible(sheet, without, instead);
}

/** What an entry says must belong to this run: its charges, its operations, one dry weighing for each crop. */
function whyNotSensible(sheet: RunSheet, state: RunState, entry: RunEntry): Why | null {
  switch (entry.kind) {
    case 'reading':
    case 'charged':
      return whyNotWeighed(state, entry);
    case 'confirmed':
      if (entry.operation !== READ_FIRST && !operationsOf(sheet).has(entry.operation))
        return unknown('no such operation', { operation: entry.operation }).why;
      return state.confirmed.has(entry.operation) ? unknown('confirmed already').why : null;
    case 'temperature':
    case 'check':
    case 'deviation':
      if (entry.operation === null || operationsOf(sheet).has(entry.operation)) return null;
      return unknown('no such operation', { operation: entry.operation }).why;
    case 'acknowledged':
      return cautionsOfSheet(sheet, entry.operation).includes(entry.words) ? null : unknown('no such caution').why;
    case 'product':
      return whyNotNet(entry) ?? whyNotCrop(state, entry);
    case 'recovered':
      return whyNotNet(entry);
    default:
      return null;
  }
}

type Weighed = Extract<RunEntry, { kind: 'reading' | 'charged' }>;

function whyNotWeighed(state: RunState, entry: Weighed): Why | null {
  const found = state.charges.find((one) => one.charge.id === entry.charge);
  if (!found) return unknown('no such operation', { operation: entry.charge }).why;
  if (found.complete) return unknown('charge complete', { material: found.charge.name }).why;
  if (entry.portion !== found.parts.length + 1) {
    return unknown('portion out of turn', { portion: entry.portion, next: found.parts.length + 1 }).why;
  }
  if (entry.kind === 'reading') return null;
  const { tare, gross, net } = entry;
  if (tare === undefined || gross === undefined) return null;
  return Math.abs(gross - tare - net) > 5e-7 ? unknown('net is not gross less tare', { tare, gross, net }).why : null;
}

function whyNotNet({ tare, gross, grams }: Product | Recovered): Why | null {
  if (tare === undefined || gross === undefined || Math.abs(gross - tare - grams) <= 5e-7) return null;
  return unknown('net is not gross less tare', { tare, gross, net: grams }).why;
}

function whyNotCrop(state: RunState, { crop, wet }: Product): Why | null {
  const dried = state.products.some((one) => one.crop === crop && !one.wet);
  return dried ? unknown(wet ? 'crop dry already' : 'crop weighed already', { crop }).why : null;
}

/** Who has read a caution of an operation, or with null of the head of the sheet; oldest first. */
export function readOf(
  { standing }: Pick<RunState, 'standing'>,
  operation: string | null,
  words: string,
): readonly Recorded<Extract<RunEntry, { kind: 'acknowledged' }>>[] {
  return standing.flatMap(({ number, at, entry }) =>
    entry.kind === 'acknowledged' && entry.operation === operation && entry.words === words ? [{ number, at, entry }] : [],
  );
}

/** What the head of a sheet says before anything is done: of the step, its equation and gases, and of what is made up. */
export function headCautions(sheet: RunSheet['sheet']): readonly Warning[] {
  const caution = (words: string): Warning => ({ kind: 'caution', words });
  const equation = sheet.equationProblem === '' ? [] : [caution(sheet.equationProblem)];
  const all = [...equation, ...sheet.before, ...sheet.gases.map(caution), ...sheet.makeUps.flatMap((one) => one.before)];
  return all.filter((one, at) => all.findIndex((other) => other.words === one.words) === at);
}

/** What the sheet says before an operation; with null, at its head. */
export function cautionsOfSheet({ sheet }: RunSheet, operation: string | null): readonly string[] {
  if (operation === null) return headCautions(sheet).map((one) => one.words);
  const entries = sheet.stages.flatMap((stage) => stage.entries);
  return entries.filter((one) => one.id === operation).flatMap((one) => one.before.map((warning) => warning.words));
}

/** Every operation of the sheet, by id. */
export function operationsOf(sheet: RunSheet): ReadonlySet<string> {
  return new Set(sheet.sheet.stages.flatMap((stage) => stage.entries.map((entry) => entry.id)));
}
