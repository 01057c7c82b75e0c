import type * as z from 'zod/mini';
import type { Settings } from '../plan/settings.ts';
import type { ReferenceRows } from '../reference-rows.ts';
import type { Supplier } from '../shelf/pack.ts';
import type { BottleTest, Shelf } from '../shelf/shelf.ts';
import { buyInputs, type ExpiringBottle, type LotTrace, type OrderRow, type PackRow } from './buy.ts';
import { type BackupEntry, programInputs, type StartTrouble } from './program.ts';
import type { Acknowledged } from '../caution/acknowledgement.ts';
import { cautionInputs } from './cautions.ts';
import type { RouteUse } from '../run/route-use.ts';
import type { RouteMaterial } from '../shelf/import/route-materials.ts';
import type { PortResult } from './result.ts';
import { type BrokenRun, type RunRecord, type RunRow, runInputs } from './runs.ts';
import { type BottleEdit, type BottleRow, type LedgerLine, shelfInputs } from './shelf.ts';
import { type SessionState, sessionInputs } from './sessions.ts';
import {
  type FilePreview,
  type FileProgress,
  type FateRow,
  type FileWritten,
  fileInputs,
  type IntakeChange,
  type IntakeRow,
} from './files.ts';
import {
  type IssuedPaper,
  type PaperEntry,
  type PlanEntry,
  type PlanState,
  type RevisionEntry,
  type RouteEntry,
  type RoutePreview,
  type RouteRevision,
  workbookInputs,
} from './workbook.ts';

/** The one door between main and renderer: procedure name → input schema, and below the type of its answer. */
export const inputs = {
  ...shelfInputs,
  ...fileInputs,
  ...workbookInputs,
  ...runInputs,
  ...sessionInputs,
  ...cautionInputs,
  ...buyInputs,
  ...programInputs,
} as const;

interface Outputs {
  /** `nearly`: names that were taken instead of words that nothing is spelled like. */
  'shelf.list': { readonly total: number; readonly rows: readonly BottleRow[]; readonly nearly: readonly string[] };
  'shelf.labelled': readonly string[];
  'shelf.places': readonly { readonly place: string; readonly bottles: number }[];
  'shelf.bottle': {
    readonly bottle: BottleRow;
    readonly ledger: readonly LedgerLine[];
    readonly tests: readonly BottleTest[];
    readonly edits: readonly BottleEdit[];
  };
  'shelf.add': { readonly id: string };
  'shelf.correct': { readonly id: string };
  'shelf.change': { readonly id: string };
  /** The entry that was written; null where nothing differed. */
  'shelf.changeMany': { readonly edit: number | null; readonly bottles: number };
  /** `left`: bottles that were changed again since and stay as they are. */
  'shelf.undoChange': { readonly edit: number; readonly bottles: number; readonly left: readonly string[] };
  'shelf.weigh': { readonly left: number; readonly line: number };
  'shelf.split': { readonly id: string; readonly left: number };
  'shelf.move': { readonly left: number; readonly line: number };
  'shelf.undo': { readonly left: number; readonly line: number };
  'shelf.test': { readonly id: string };
  'shelf.snapshot': Shelf;
  /** How many came in, and the labels of those that read alike but for it (at most ten groups). */
  'shelf.import': { readonly intake: number; readonly bottles: number; readonly twins: readonly (readonly string[])[] };
  'shelf.export': { readonly text: string };
  'files.open': { readonly file: number };
  'files.preview': FilePreview;
  'files.rows': { readonly total: number; readonly rows: readonly FateRow[] };
  'files.refused': { readonly text: string };
  'files.progress': FileProgress;
  'files.cancel': { readonly cancelled: boolean };
  'files.write': FileWritten;
  'files.close': { readonly closed: true };
  'files.taken': readonly IntakeRow[];
  'files.takeBack': IntakeChange;
  'files.bringBack': IntakeChange;
  'files.shelf': { readonly base64: string };
  'routes.list': readonly RouteEntry[];
  'routes.use': readonly (RouteUse & { readonly id: number })[];
  'routes.materials': readonly RouteMaterial[];
  'routes.read': RouteRevision;
  'routes.revisions': readonly RevisionEntry[];
  'routes.preview': RoutePreview;
  'routes.import': { readonly id: number };
  'routes.save': { readonly revision: number };
  'routes.hide': { readonly hidden: boolean };
  'routes.export': { readonly text: string };
  'plans.list': readonly PlanEntry[];
  'plans.read': PlanState;
  'plans.create': PlanState;
  'plans.save': { readonly state: number; readonly saved: string };
  'plans.states': readonly { readonly state: number; readonly words: string; readonly saved: string }[];
  'settings.read': Settings;
  'settings.save': { readonly saved: string };
  'papers.issue': { readonly id: number; readonly revision: number; readonly issued: string };
  'papers.read': IssuedPaper;
  'papers.list': readonly PaperEntry[];
  'papers.pdf': { readonly name: string; readonly base64: string };
  'papers.print': { readonly how: 'dialog' | 'opened' };
  'runs.start': { readonly id: number };
  /** What was written, and what the shelf did with it, in words; empty where there is nothing to say. */
  'runs.add': { readonly number: number; readonly bottle: string | null; readonly said: string };
  'runs.read': RunRecord;
  'runs.list': readonly RunRow[];
  'runs.check': readonly BrokenRun[];
  'runs.export': { readonly text: string };
  'sessions.list': readonly SessionState[];
  'sessions.create': SessionState;
  'sessions.save': SessionState;
  'cautions.acknowledge': Acknowledged;
  'cautions.acknowledged': readonly Acknowledged[];
  'packs.list': readonly PackRow[];
  'packs.add': { readonly id: number };
  'packs.remove': { readonly id: number };
  'suppliers.list': readonly Supplier[];
  'suppliers.set': { readonly name: string };
  'orders.list': readonly OrderRow[];
  'orders.place': { readonly ids: readonly number[] };
  'orders.receive': { readonly bottles: readonly string[] };
  'orders.cancel': { readonly id: number };
  'orders.undo': { readonly bottles: readonly string[] };
  'lots.trace': LotTrace;
  'lots.expiring': readonly ExpiringBottle[];
  'reference.read': ReferenceRows;
  'program.about': {
    readonly version: string;
    readonly host: 'electron' | 'browser';
    readonly today: string;
    readonly dataFolder: string;
    /** Whether the first look was had, or skipped. */
    readonly looked: boolean;
  };
  'program.looked': { readonly looked: true };
  'program.trouble': StartTrouble | null;
  'program.backups': readonly BackupEntry[];
  'program.backUp': BackupEntry;
  'program.restore': { readonly restored: string };
  'program.begin': { readonly begun: true };
  'program.check': { readonly sound: boolean; readonly found: readonly string[] };
}

export type ProcedureName = keyof typeof inputs;
export type ProcedureInput<N extends ProcedureName> = z.infer<(typeof inputs)[N]>;
export type ProcedureOutput<N extends ProcedureName> = Outputs[N];

/** Parts of the workbook whose change is told to every window. */
export const WORKBOOK_TOPICS = ['shelf', 'routes', 'plans', 'runs', 'sessions', 'cautions', 'settings', 'orders'] as const;
/** "program": the workbook as a whole was opened, closed or replaced, or the program was rebuilt: load the page again. */
export const TOPICS = [...WORKBOOK_TOPICS, 'program'] as const;
export type Topic = (typeof TOPICS)[number];

export interface Port {
  call<N extends ProcedureName>(name: N, input: ProcedureInput<N>): Promise<PortResult<ProcedureOutput<N>>>;
  /** Calls back after each change; the returned function ends it. */
  subscribe(topic: Topic, changed: () => void): () => void;
}
