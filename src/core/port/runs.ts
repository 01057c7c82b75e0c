import * as z from 'zod/mini';
import { RunEntry, type Recorded } from '../run/entry.ts';
import { RunSheet } from '../run/run-sheet.ts';
import { Initials } from '../run/initials.ts';

const Id = z.int().check(z.gte(1), z.lte(2_000_000_000));

/** What a run was started with, and the plan it belongs to. The chain of its record begins with this. */
export interface RunStart {
  readonly plan: number;
  readonly revision: number;
  readonly route: number;
  readonly routeRevision: number;
  readonly started: string;
  readonly sheet: RunSheet;
}

export interface RunRecord {
  readonly id: number;
  readonly start: RunStart;
  readonly entries: readonly Recorded[];
  /**
   * Number of the first entry that was changed after it was written, 0 for the start; null where all is as written. Only
   * what comes before it is given.
   */
  readonly broken: number | null;
}

export interface BrokenRun {
  readonly id: number;
  /** As in RunRecord. */
  readonly entry: number;
  /** E.g. "2-1". */
  readonly sheet: string;
  /** The record is whole, but the ledger of this bottle no longer says what the entry wrote into it; '' where its line is gone. */
  readonly bottle?: string;
}

/** A run as it is listed; amounts as they stand now, null where they are not known yet. */
export interface RunRow {
  readonly id: number;
  readonly plan: number;
  readonly revision: number;
  readonly route: number;
  readonly step: string;
  readonly batch: number;
  /** E.g. "2-1", and the title of its step. */
  readonly sheet: string;
  readonly title: string;
  readonly started: string;
  /** Of the last entry. */
  readonly last: string;
  readonly phase: 'running' | 'paused' | 'finished';
  /** It ended before its last operation. */
  readonly early: boolean;
  readonly weighed: number;
  readonly charges: number;
  /** Contained basis really charged ÷ planned. */
  readonly basisFactor: number | null;
  /** Contained basis, g. */
  readonly basisGrams: number | null;
  /** Contained product, g. */
  readonly productGrams: number | null;
  /** % of theory against the real basis; uncorrected where an assay is missing. */
  readonly yieldPercent: number | null;
  readonly uncorrected: boolean;
  /** Over the runs that made its basis too, %. */
  readonly cumulativePercent: number | null;
  /** Labels of the bottles it filled. */
  readonly bottles: readonly string[];
}

export const runInputs = {
  /** Starts a run of a batch: the plan's state gets a revision, and the sheet is kept for ever. */
  'runs.start': z.strictObject({ planId: Id, state: z.int().check(z.gte(1)), sheet: RunSheet, by: Initials }),
  /**
   * Adds an entry; refused where `after` is no longer the newest. What is weighed is taken from its bottle and what is
   * made is put on the shelf in the same write. `adjust`: where a bottle's ledger says that it holds less, it is put right.
   */
  'runs.add': z.strictObject({
    id: Id,
    after: z.int().check(z.gte(0), z.lte(100_000)),
    entry: RunEntry,
    adjust: z.optional(z.boolean()),
  }),
  'runs.read': z.strictObject({ id: Id }),
  /** Runs of a route over all its plans, or of a plan; the newest first. */
  'runs.list': z.strictObject({ routeId: z.optional(Id), planId: z.optional(Id) }),
  /** Every run whose record was changed after it was written. */
  'runs.check': z.strictObject({}),
  'runs.export': z.strictObject({ id: Id }),
} as const;
