import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative } from 'node:path';
import { describe, onTestFinished } from 'vitest';
import type { Material } from '../../src/core/matter/material.ts';
import { NEAT } from '../../src/core/matter/form.ts';
import type { ProcedureInput, ProcedureName, ProcedureOutput, Topic } from '../../src/core/port/port.ts';
import type { PortResult } from '../../src/core/port/result.ts';
import type { ReferenceRows } from '../../src/core/reference-rows.ts';
import type { Clock } from '../../src/main/clock.ts';
import type { Context, HostAbilities } from '../../src/main/procedures/context.ts';
import { answer } from '../../src/main/procedures/index.ts';
import { programRoot } from '../../src/main/program-root.ts';
import { seedWorkbook } from '../../src/main/seed.ts';
import { type Keeper, openKeeper } from '../../src/main/store/keeper.ts';
import { readReferenceRows } from '../../src/main/tables.ts';

export const RESOURCES = join(programRoot(), 'resources');
export const BENZIL: Material = { name: 'benzil', formula: 'C14H10O2', cas: '134-81-6', synonyms: ['diphenylethanedione'] };

/** For what rests on POSIX files: renaming what is open, modes, signals. Left out on Windows, and said so. */
export function describeOnPosix(what: string, tests: () => void): void {
  if (process.platform === 'win32') console.log(`Left out on Windows, where files and signals behave otherwise: ${what}`);
  describe.skipIf(process.platform === 'win32')(what, tests);
}

/** A folder on the disk that goes when the test has ended. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'backweigh-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** A clock that moves on by one second with every question, so that moments are in order and known. */
export function steadyClock(start = '2027-02-25T09:00:00.000Z'): Clock {
  let time = Date.parse(start);
  return {
    now: () => {
      time += 1000;
      return new Date(time).toISOString();
    },
    today: () => new Date(time).toISOString().slice(0, 10),
  };
}

export interface Workbook {
  readonly folder: string;
  readonly keeper: Keeper;
  readonly context: Context;
  readonly told: Topic[];
  readonly reported: unknown[];
  /** Calls a procedure as a window would. */
  call<N extends ProcedureName>(name: N, input: ProcedureInput<N>): Promise<PortResult<ProcedureOutput<N>>>;
  /** The same where an answer is expected; a refusal fails the test with its words. */
  must<N extends ProcedureName>(name: N, input: ProcedureInput<N>): Promise<ProcedureOutput<N>>;
}

const NO_HOST: HostAbilities = {
  kind: 'browser',
  pdf: () => Promise.resolve(new TextEncoder().encode('%PDF-')),
  print: () => Promise.resolve('opened'),
};

let rows: ReferenceRows | null = null;

/** The real tables, read once. */
function readTables(): ReferenceRows {
  return (rows ??= readReferenceRows());
}

const ready = new Map<boolean, ReadonlyMap<string, Buffer>>();

/** The files of a workbook made and closed once, to be copied: making one anew for every test was half of what they took. */
function readyFiles(empty: boolean): ReadonlyMap<string, Buffer> {
  const made = ready.get(empty);
  if (made) return made;
  const folder = temporaryFolder();
  const clock = steadyClock('2027-02-25T08:00:00.000Z');
  openKeeper({ folder, clock, seed: seedOf(empty, clock), replaced: () => {} }).close();
  const paths = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((one) => one.isFile());
  const files = new Map(
    paths.map((one) => join(one.parentPath, one.name)).map((path) => [relative(folder, path), readFileSync(path)]),
  );
  ready.set(empty, files);
  return files;
}

function newFolder(empty: boolean): string {
  const folder = temporaryFolder();
  for (const [name, bytes] of readyFiles(empty)) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), bytes);
  }
  return folder;
}

function seedOf(empty: boolean, clock: Clock): (database: Parameters<typeof seedWorkbook>[0]) => void {
  return (database) => {
    if (!empty) seedWorkbook(database, RESOURCES, clock);
  };
}

/** A real workbook in a folder, with the ready example in it or empty. */
export function openBook({
  empty = false,
  folder = newFolder(empty),
  clock = steadyClock(),
  tables = readTables,
}: {
  readonly folder?: string;
  readonly empty?: boolean;
  readonly clock?: Clock;
  readonly tables?: () => ReferenceRows;
} = {}): Workbook {
  const seed = seedOf(empty, clock);
  const told: Topic[] = [];
  const keeper = openKeeper({ folder, clock, seed, replaced: () => told.push('program') });
  onTestFinished(keeper.close);
  const reported: unknown[] = [];
  const context: Context = {
    keeper,
    clock,
    host: NO_HOST,
    reference: tables,
    version: '0.0.0',
    dataFolder: folder,
    tell: (topic) => told.push(topic),
    report: (error) => reported.push(error),
  };
  const call = <N extends ProcedureName>(name: N, input: ProcedureInput<N>) =>
    answer(context, name, input) as Promise<PortResult<ProcedureOutput<N>>>;
  const must = async <N extends ProcedureName>(name: N, input: ProcedureInput<N>): Promise<ProcedureOutput<N>> => {
    const result = await call(name, input);
    if (!result.ok) throw new Error(`${name}: ${result.code}: ${result.detail}`);
    return result.value;
  };
  return { folder, keeper, context, told, reported, call, must };
}

/** A bottle as it is entered by hand. */
export function newBottle(more: Partial<ProcedureInput<'shelf.add'>> = {}): ProcedureInput<'shelf.add'> {
  return { material: BENZIL, form: NEAT, amount: 10, unit: 'g', ...more };
}
