// The worker: reads a file, holds it against the shelf and writes it, while the window goes on. It opens the store for
// each of these alone, so that nothing of it is held in between.
import { parentPort, workerData } from 'node:worker_threads';
import type { FileProgress } from '../../core/port/files.ts';
import type { ReferenceRows } from '../../core/reference-rows.ts';
import { machineClock } from '../clock.ts';
import { indexed } from '../procedures/read-file.ts';
import { refusalOf } from '../procedures/refusal-of.ts';
import { type Database, openDatabase, openForReading } from '../store/database.ts';
import { readReferenceRows } from '../tables.ts';
import { FileSession } from './file-session.ts';
import { fileWords, refuse, type Watch } from './limits.ts';
import { shelfFileText, takeInText } from './shelf-file-text.ts';
import { shelfCsv, shelfXlsx } from './shelf-tables.ts';
import { type Ask, Gauge, type Question, type Reply, type WorkerStart } from './worker-wire.ts';

const { database: file, shared } = workerData as WorkerStart;
const gauge = new Gauge(shared);
let session: FileSession | null = null;
let rows: ReferenceRows | null = null;
const tables = (): ReferenceRows => (rows ??= readReferenceRows());

const TABLES = {
  csv: (database: Database) => Buffer.from(shelfCsv(database)),
  xlsx: shelfXlsx,
  json: (database: Database) => Buffer.from(shelfFileText(database)),
} as const;

parentPort?.on('message', ({ id, ask }: Question) => {
  void answer(ask).then(
    (value) => reply({ id, ok: true, value }),
    (error: unknown) => {
      const { code, message: detail, problems } = refusalOf(error);
      const inner = code === 'internal' ? (error instanceof Error ? (error.stack ?? error.message) : String(error)) : null;
      reply({ id, ok: false, code, detail, problems, inner });
    },
  );
});

function reply(said: Reply): void {
  gauge.set('idle', 0, 0);
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread of Node, no window
  parentPort?.postMessage(said);
}

async function answer(ask: Ask): Promise<unknown> {
  switch (ask.do) {
    case 'open':
      session = new FileSession(ask.name, ask.bytes, indexed(tables()), machineClock);
      return null;
    case 'preview':
      return reading((database) =>
        opened().preview(ask.choices, database, { reading: watch('reading'), judging: watch('judging') }),
      );
    case 'page':
      return opened().page(ask.fate, ask.from, ask.count, ask.reason);
    case 'refused':
      return opened().refused();
    case 'write':
      return writing((database) => opened().write(ask.preview, database, watch('writing')));
    case 'table':
      return reading((database) => TABLES[ask.as](database));
    case 'take in':
      return writing((database) => takeInText(ask, database, { tables, clock: machineClock }));
  }
}

function opened(): FileSession {
  return session ?? refuse(fileWords.gone);
}

async function reading<T>(work: (database: Database) => T | Promise<T>): Promise<T> {
  gauge.set('reading', 0, 0);
  const database = openForReading(file);
  try {
    return await work(database);
  } finally {
    database.close();
  }
}

async function writing<T>(work: (database: Database) => T | Promise<T>): Promise<T> {
  gauge.set('writing', 0, 0);
  const database = openDatabase(file);
  try {
    return await work(database);
  } finally {
    database.close();
  }
}

function watch(stage: FileProgress['stage']): Watch {
  return {
    step: (done, of) => {
      if (gauge.stopped) refuse(fileWords.cancelled);
      gauge.set(stage, done, of);
    },
  };
}
