import * as z from 'zod/mini';
import type { FateKind } from '../shelf/import/fate.ts';
import { FIELD_NAMES } from '../shelf/import/fields.ts';

/** Encodings a text may be read in where it does not say itself. */
export const Encoding = z.enum(['utf-8', 'utf-16le', 'utf-16be', 'windows-1252', 'windows-1250', 'macintosh']);
export type Encoding = z.infer<typeof Encoding>;
export const Separator = z.enum([',', ';', '\t', '|']);
export type Separator = z.infer<typeof Separator>;

/** Largest file that is taken, bytes; and most columns of it. */
export const LARGEST_TABLE_FILE = 40_000_000;
export const MOST_COLUMNS = 200;

const ColumnUse = z.strictObject({
  field: z.enum(FIELD_NAMES),
  unit: z.optional(z.string().check(z.maxLength(20))),
  decimal: z.optional(z.enum(['point', 'comma'])),
  dates: z.optional(z.enum(['day', 'month'])),
});

/** How a file is to be read, as far as the person has said so; what is left out is guessed anew. */
export const FileChoices = z.strictObject({
  encoding: z.optional(Encoding),
  separator: z.optional(Separator),
  sheet: z.optional(z.int().check(z.gte(0), z.lte(1000))),
  /** Row with the headings, counted from 1; 0 where there are none and the first row is a bottle already. */
  headingRow: z.optional(z.int().check(z.gte(0), z.lte(1000))),
  mapping: z.optional(z.array(z.nullable(ColumnUse)).check(z.maxLength(MOST_COLUMNS))),
  /** Rows that are on the shelf already without a label to tell are taken in as further bottles. */
  takeDuplicates: z.optional(z.boolean()),
});
export type FileChoices = z.infer<typeof FileChoices>;

const Id = z.int().check(z.gte(1));

export const fileInputs = {
  /** Hands over a file; it stays open in main until it is written, closed or another one is opened. */
  'files.open': z.strictObject({
    name: z.string().check(z.minLength(1), z.maxLength(300)),
    base64: z.string().check(z.maxLength(Math.ceil(LARGEST_TABLE_FILE / 3) * 4)),
  }),
  'files.preview': z.strictObject({ file: Id, choices: FileChoices }),
  'files.rows': z.strictObject({
    file: Id,
    fate: z.enum(['all', 'new', 'update', 'duplicate', 'refused']),
    from: z.int().check(z.gte(0), z.lte(1_000_000)),
    count: z.int().check(z.gte(1), z.lte(200)),
    /** Only the rows refused for this one of the preview's reasons. */
    reason: z.optional(z.int().check(z.gte(0), z.lte(1000))),
  }),
  /** The refused rows as they stand in the file, with the reasons, as a CSV file. */
  'files.refused': z.strictObject({ file: Id }),
  'files.progress': z.strictObject({ file: Id }),
  'files.cancel': z.strictObject({ file: Id }),
  /** Writes what the preview with this number showed, all of it or nothing. */
  'files.write': z.strictObject({ file: Id, preview: z.int().check(z.gte(1)) }),
  'files.close': z.strictObject({ file: Id }),
  /** Files that were taken onto the shelf, the newest first. */
  'files.taken': z.strictObject({}),
  /** Takes back all that came of a file, by counter-entries; what was used or changed since stays. */
  'files.takeBack': z.strictObject({ intake: Id }),
  'files.bringBack': z.strictObject({ intake: Id }),
  /** The whole shelf: as a table, a workbook, or a shelf file. */
  'files.shelf': z.strictObject({ as: z.enum(['csv', 'xlsx', 'json']) }),
} as const;

/** A file as it was read and what would become of its rows. */
export type FilePreview =
  /** It does not say how it is encoded: which sample reads right? */
  | {
      readonly at: 'encoding';
      readonly proposed: Encoding;
      readonly samples: readonly { readonly encoding: Encoding; readonly lines: readonly string[] }[];
    }
  | {
      readonly at: 'table';
      readonly preview: number;
      readonly format: 'csv' | 'xlsx';
      readonly encoding: Encoding | null;
      readonly separator: Separator | null;
      readonly sheets: readonly string[];
      readonly sheet: number;
      readonly headingRow: number;
      readonly mapping: NonNullable<FileChoices['mapping']>;
      /** The headings and the first cells below each of them. */
      readonly columns: readonly { readonly heading: string; readonly cells: readonly string[] }[];
      /** Headed exactly as our own files are: every cell is taken as it stands. */
      readonly own: boolean;
      readonly takeDuplicates: boolean;
      /** Duplicates that no label tells: they may be further bottles. */
      readonly unlabelled: number;
      readonly counts: Readonly<Record<FateKind, number>>;
      /** Why rows are refused, the reason of most rows first. */
      readonly reasons: readonly RefusalReason[];
    };

/** One reason for which rows are refused, as it is said of the first of them. */
export interface RefusalReason {
  /** The column it is about; '' where it is about the row. */
  readonly column: string;
  readonly words: string;
  readonly rows: number;
}

/** One row of a preview. */
export interface FateRow {
  /** Of the file, as a person counts its rows. */
  readonly number: number;
  readonly fate: FateKind;
  readonly label: string;
  readonly name: string;
  readonly form: string;
  readonly left: string;
  readonly place: string;
  readonly says: readonly string[];
  readonly problems: readonly { readonly column: string; readonly value: string; readonly words: string }[];
}

export interface FileProgress {
  readonly stage: 'idle' | 'reading' | 'judging' | 'writing';
  readonly done: number;
  readonly of: number;
}

/** A file that was taken onto the shelf. */
export interface IntakeRow {
  readonly id: number;
  readonly file: string;
  readonly at: string;
  /** Bottles that came, and bottles there before that were changed. */
  readonly added: number;
  readonly updated: number;
  /** Whether it counts: false where it was taken back. */
  readonly isIn: boolean;
  /** When it was written, taken back or brought back last. */
  readonly lastAt: string;
}

/** What taking a file back, or bringing it back, came to. */
export interface IntakeChange {
  readonly bottles: number;
  /** Entries on bottles that were there before. */
  readonly changed: number;
  /** Labels of bottles that were used or changed since, and stay as they are. */
  readonly left: readonly string[];
}

export interface FileWritten {
  /** Number of the intake: it is taken back by it. */
  readonly intake: number;
  readonly added: number;
  readonly updated: number;
  readonly leftOut: number;
}
