// Times of a file of twenty thousand rows on its way to the shelf and out again: node tests/bench/files.ts [bottles there]
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Papa from 'papaparse';
import { indexReference } from '../../src/core/reference.ts';
import { machineClock } from '../../src/main/clock.ts';
import { FileSession } from '../../src/main/files/file-session.ts';
import { UNWATCHED } from '../../src/main/files/limits.ts';
import { shelfCsv, shelfXlsx } from '../../src/main/files/shelf-tables.ts';
import { bringBackIntake, takeBackIntake } from '../../src/main/store/intakes.ts';
import { openDatabase } from '../../src/main/store/database.ts';
import { readReferenceRows } from '../../src/main/tables.ts';
import { MANY_HEADINGS, manyRows } from '../main/many-bottles.ts';

const ROWS = 20_000;
const there = Number(process.argv[2] ?? 0);
const tables = readReferenceRows();
const reference = indexReference(tables);
const folder = mkdtempSync(join(tmpdir(), 'backweigh-bench-'));
const database = openDatabase(join(folder, 'bench.db'));
const watch = { reading: UNWATCHED, judging: UNWATCHED };

async function timed<T>(what: string, work: () => T | Promise<T>): Promise<T> {
  const began = performance.now();
  const before = process.cpuUsage();
  const made = await work();
  const { user, system } = process.cpuUsage(before);
  const times = [performance.now() - began, (user + system) / 1000].map((one) => one.toFixed(0).padStart(7));
  console.log(`${what.padEnd(44)} ${times[0]} ms, ${times[1]} ms of it worked`);
  return made;
}

async function takeIn(what: string, bytes: Uint8Array): Promise<void> {
  const session = new FileSession('bench', bytes, reference, machineClock);
  const preview = await timed(`${what}: read and previewed`, () => session.preview({}, database, watch));
  if (preview.at !== 'table') throw new Error('no table');
  await timed(`${what}: previewed again, another mapping`, () => session.preview({ mapping: preview.mapping }, database, watch));
  const again = await session.preview({}, database, watch);
  if (again.at !== 'table' || again.counts.new === 0) return;
  const { intake } = await timed(`${what}: written`, () => session.write(again.preview, database));
  if (preview.counts.new > ROWS) return;
  const at = machineClock.now();
  await timed(`${what}: taken back`, () => database.write(() => takeBackIntake(database, intake, at)));
  await timed(`${what}: brought back`, () => database.write(() => bringBackIntake(database, intake, at)));
}

const csv = (rows: number, seed: number, label: string): Uint8Array =>
  Buffer.from(
    Papa.unparse([MANY_HEADINGS, ...manyRows(rows, tables, seed).map(([name = '', ...rest]) => [`${label}${name}`, ...rest])]),
  );

if (there > 0) await takeIn(`${there} bottles to begin with`, csv(there, 2, 'T'));
await takeIn(`${ROWS} rows, CSV`, csv(ROWS, 1, ''));
const out = await timed('the shelf as CSV', () => shelfCsv(database));
const workbook = await timed('the shelf as a workbook', () => shelfXlsx(database));
await takeIn('its own CSV', Buffer.from(out));
await takeIn('its own workbook', workbook);
database.close();
rmSync(folder, { recursive: true });
