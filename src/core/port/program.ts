import * as z from 'zod/mini';

/** A safety copy of the whole workbook. */
export interface BackupEntry {
  readonly name: string;
  /** ISO moment in UTC. */
  readonly made: string;
  readonly reason: 'daily' | 'before a new version' | 'by hand';
  readonly bytes: number;
}

/** Why the workbook is not open, in words for the start-up screen. */
export interface StartTrouble {
  readonly kind: 'damaged' | 'newer' | 'missing' | 'not ours' | 'network share' | 'not writable';
  readonly title: string;
  readonly paragraphs: readonly string[];
  /** Where the file or its folder lies. */
  readonly lies: string;
  /** Newest first; empty where none exists or none may be used. */
  readonly backups: readonly BackupEntry[];
  /** Whether an empty workbook may be started beside what was set aside. */
  readonly mayBegin: boolean;
}

export const programInputs = {
  'program.about': z.strictObject({}),
  /** The first look was had, or skipped: it does not come again by itself. */
  'program.looked': z.strictObject({}),
  /** Null while the workbook is open. */
  'program.trouble': z.strictObject({}),
  'program.backups': z.strictObject({}),
  /** Makes a backup now. */
  'program.backUp': z.strictObject({}),
  /** Puts a backup in the place of the workbook; the present one is set aside, never deleted. */
  'program.restore': z.strictObject({ name: z.string().check(z.maxLength(200)) }),
  /** Starts an empty workbook where the present one is damaged or missing. */
  'program.begin': z.strictObject({}),
  /** Compares every page, index and sum; can take a while on a large workbook. */
  'program.check': z.strictObject({}),
} as const;
