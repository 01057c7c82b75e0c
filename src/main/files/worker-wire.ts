// What main and the worker with a file say to each other.
import type { FileChoices, FileProgress } from '../../core/port/files.ts';
import type { FateKind } from '../../core/shelf/import/fate.ts';
import type { ShelfText } from './shelf-file-text.ts';
import type { FileProblem, PortErrorCode } from '../../core/port/result.ts';

export type Ask =
  | { readonly do: 'open'; readonly name: string; readonly bytes: Uint8Array }
  | { readonly do: 'preview'; readonly choices: FileChoices }
  | {
      readonly do: 'page';
      readonly fate: FateKind | 'all';
      readonly from: number;
      readonly count: number;
      readonly reason: number | null;
    }
  | { readonly do: 'refused' }
  | { readonly do: 'write'; readonly preview: number }
  | ({ readonly do: 'take in' } & ShelfText)
  | { readonly do: 'table'; readonly as: 'csv' | 'xlsx' | 'json' };

export interface Question {
  readonly id: number;
  readonly ask: Ask;
}

export type Reply =
  | { readonly id: number; readonly ok: true; readonly value: unknown }
  /** `inner` is for the program's own report, where nobody foresaw what went wrong. */
  | {
      readonly id: number;
      readonly ok: false;
      readonly code: PortErrorCode;
      readonly detail: string;
      readonly problems: readonly FileProblem[];
      readonly inner: string | null;
    };

export interface WorkerStart {
  readonly database: string;
  readonly shared: SharedArrayBuffer;
}

const STAGES = ['idle', 'reading', 'judging', 'writing'] as const;
const AT = { stop: 0, stage: 1, done: 2, of: 3 } as const;

/** How far the worker is and whether it is to stop, in memory both sides see while either of them is busy. */
export class Gauge {
  readonly shared: SharedArrayBuffer;
  readonly #cells: Int32Array;

  constructor(shared = new SharedArrayBuffer(4 * Int32Array.BYTES_PER_ELEMENT)) {
    this.shared = shared;
    this.#cells = new Int32Array(shared);
  }

  set(stage: FileProgress['stage'], done: number, of: number): void {
    Atomics.store(this.#cells, AT.stage, STAGES.indexOf(stage));
    Atomics.store(this.#cells, AT.done, done);
    Atomics.store(this.#cells, AT.of, of);
  }

  read(): FileProgress {
    const stage = STAGES[Atomics.load(this.#cells, AT.stage)] ?? 'idle';
    return { stage, done: Atomics.load(this.#cells, AT.done), of: Atomics.load(this.#cells, AT.of) };
  }

  stop(stop: boolean): void {
    Atomics.store(this.#cells, AT.stop, stop ? 1 : 0);
  }

  get stopped(): boolean {
    return Atomics.load(this.#cells, AT.stop) === 1;
  }
}
