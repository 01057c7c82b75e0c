// Main's side of the file that is on its way to the shelf: one at a time, each in a worker of its own.
import { Worker } from 'node:worker_threads';
import type { FileChoices, FilePreview, FileProgress, FateRow, FileWritten } from '../../core/port/files.ts';
import type { FateKind } from '../../core/shelf/import/fate.ts';
import type { Keeper } from '../store/keeper.ts';
import { Refusal } from '../store/refusal.ts';
import { fileWords, refuse } from './limits.ts';
import type { ShelfTaken, ShelfText } from './shelf-file-text.ts';
import { type Ask, Gauge, type Question, type Reply, type WorkerStart } from './worker-wire.ts';

/** Beside this file, in the sources as in the built program. */
const SCRIPT = import.meta.url.endsWith('.ts') ? './table-worker.ts' : './table-worker.js';
/** MB. What a file makes of itself in memory beyond this ends its worker, not the program. */
const MEMORY = { maxOldGenerationSizeMb: 2048 };

/** A worker that answers one question after the other. */
class Helper {
  readonly gauge = new Gauge();
  readonly #worker: Worker;
  readonly #waiting = new Map<number, { readonly done: (value: unknown) => void; readonly failed: (error: unknown) => void }>();
  readonly #report: (error: unknown) => void;
  #asked = 0;

  constructor(database: string, report: (error: unknown) => void) {
    this.#report = report;
    const workerData: WorkerStart = { database, shared: this.gauge.shared };
    this.#worker = new Worker(new URL(SCRIPT, import.meta.url), { workerData, resourceLimits: MEMORY });
    this.#worker.unref();
    this.#worker.on('message', (reply: Reply) => this.#take(reply));
    this.#worker.on('error', (error) => this.#end(fileWords.broke, error));
    this.#worker.on('exit', () => this.#end(fileWords.cancelled));
  }

  /** The answer is what this question is answered with: both are of one file. */
  ask<T>(ask: Ask): Promise<T> {
    this.#asked += 1;
    const question: Question = { id: this.#asked, ask };
    return new Promise<T>((done, failed) => {
      this.#waiting.set(question.id, { done: (value) => done(value as T), failed });
      this.#worker.ref();
      // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread of Node, no window
      this.#worker.postMessage(question);
    });
  }

  end(): void {
    void this.#worker.terminate();
  }

  #take(reply: Reply): void {
    const waiting = this.#waiting.get(reply.id);
    this.#waiting.delete(reply.id);
    if (this.#waiting.size === 0) this.#worker.unref();
    if (reply.ok) return waiting?.done(reply.value);
    if (reply.inner !== null) this.#report(new Error(reply.inner));
    waiting?.failed(new Refusal(reply.code, reply.detail, reply.problems));
  }

  #end(words: string, error?: unknown): void {
    if (error !== undefined && !isMemory(error)) this.#report(error);
    for (const { failed } of this.#waiting.values()) failed(new Refusal('refused', words));
    this.#waiting.clear();
  }
}

function isMemory(error: unknown): boolean {
  return error instanceof Error && 'code' in error && error.code === 'ERR_WORKER_OUT_OF_MEMORY';
}

/** The file that is open at a workbook, and what is asked of it. */
export class FileDesk {
  readonly #keeper: Keeper;
  #open: { readonly file: number; readonly helper: Helper } | null = null;
  #files = 0;
  #writing: Promise<unknown> | null = null;

  constructor(keeper: Keeper) {
    this.#keeper = keeper;
  }

  /** Ends when nothing is being written. */
  async written(): Promise<void> {
    await this.#writing?.catch(() => undefined);
  }

  async open(name: string, bytes: Uint8Array, report: (error: unknown) => void): Promise<number> {
    if (this.#writing) refuse(fileWords.busy);
    this.#open?.helper.end();
    this.#files += 1;
    const helper = new Helper(this.#keeper.database().file, report);
    this.#open = { file: this.#files, helper };
    const file = this.#files;
    await helper.ask({ do: 'open', name, bytes });
    return file;
  }

  preview(file: number, choices: FileChoices): Promise<FilePreview> {
    const helper = this.#helper(file);
    helper.gauge.stop(false);
    return helper.ask({ do: 'preview', choices });
  }

  page(
    file: number,
    fate: FateKind | 'all',
    which: { readonly from: number; readonly count: number; readonly reason: number | null },
  ): Promise<{ readonly total: number; readonly rows: readonly FateRow[] }> {
    return this.#helper(file).ask({ do: 'page', fate, ...which });
  }

  refused(file: number): Promise<string> {
    return this.#helper(file).ask({ do: 'refused' });
  }

  progress(file: number): FileProgress {
    return this.#helper(file).gauge.read();
  }

  /** A file that is being read is let go of: its reader looks up only between rows. Anything else stops by itself. */
  cancel(file: number): boolean {
    const helper = this.#helper(file);
    const { stage } = helper.gauge.read();
    helper.gauge.stop(true);
    if (stage === 'reading') this.close(file);
    return stage !== 'idle';
  }

  async write(file: number, preview: number): Promise<FileWritten> {
    const helper = this.#helper(file);
    helper.gauge.stop(false);
    const done = await this.#alone(helper.ask<FileWritten>({ do: 'write', preview }));
    this.close(file);
    return done;
  }

  /** Takes the text of a shelf file in, by a helper of its own. */
  async takeIn(given: ShelfText, report: (error: unknown) => void): Promise<ShelfTaken> {
    const helper = new Helper(this.#keeper.database().file, report);
    try {
      return await this.#alone(helper.ask<ShelfTaken>({ do: 'take in', ...given }));
    } finally {
      helper.end();
    }
  }

  /** While this goes on, nothing else is written. */
  async #alone<T>(writing: Promise<T>): Promise<T> {
    this.#writing = writing;
    try {
      return await writing;
    } finally {
      this.#writing = null;
    }
  }

  close(file: number): void {
    if (this.#open?.file !== file) return;
    this.#open.helper.end();
    this.#open = null;
  }

  /** The shelf as a table, made by a helper of its own. */
  async table(as: 'csv' | 'xlsx' | 'json', report: (error: unknown) => void): Promise<Uint8Array> {
    const helper = new Helper(this.#keeper.database().file, report);
    try {
      return await helper.ask<Uint8Array>({ do: 'table', as });
    } finally {
      helper.end();
    }
  }

  #helper(file: number): Helper {
    return this.#open?.file === file ? this.#open.helper : refuse(fileWords.gone);
  }
}

const desks = new WeakMap<Keeper, FileDesk>();

/** The desk of a workbook. */
export function fileDesk(keeper: Keeper): FileDesk {
  const known = desks.get(keeper);
  if (known) return known;
  const made = new FileDesk(keeper);
  desks.set(keeper, made);
  return made;
}

/** Ends when no file is being written to the shelf; at once where none is. */
export async function shelfWritten(keeper: Keeper): Promise<void> {
  await desks.get(keeper)?.written();
}
