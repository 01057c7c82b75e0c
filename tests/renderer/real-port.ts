import { execFileSync } from 'node:child_process';
import type { Port, ProcedureInput, ProcedureName, ProcedureOutput, Topic } from '../../src/core/port/port.ts';
import type { PortResult } from '../../src/core/port/result.ts';
import { indexReference } from '../../src/core/reference.ts';
import { type ReferenceRows } from '../../src/core/reference-rows.ts';
import { programRoot } from '../../src/main/program-root.ts';
import { openBook, type Workbook } from '../main/workbook-fixture.ts';

type Answer<N extends ProcedureName> = PortResult<ProcedureOutput<N>>;

/** A window's port onto a real workbook with the ready example, whose answers a test can replace. */
export interface RealPort extends Port {
  readonly book: Workbook;
  readonly calls: { readonly name: ProcedureName; readonly input: unknown }[];
  /** Answers a procedure differently from now on; null gives it back to the workbook. */
  instead(name: ProcedureName, answer: ((input: never) => unknown) | null): void;
  /** Tells the window that something changed in main. */
  tell(topic: Topic): void;
}

/** The real tables, read by a Node of its own: the page's URL in this test's surroundings is not Node's. */
function readTables(): ReferenceRows {
  const script = "process.stdout.write(JSON.stringify((await import('./src/main/tables.ts')).readReferenceRows()))";
  const options = { cwd: programRoot(), encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 } as const;
  return JSON.parse(execFileSync(process.execPath, ['--input-type=module', '-e', script], options));
}

/** Kept for the worker's next file, which has this module anew. */
const kept = globalThis as { backweighTables?: ReferenceRows };

export const REFERENCE = indexReference((kept.backweighTables ??= readTables()));

export function realPort(): RealPort {
  const book = openBook({ tables: () => REFERENCE.rows });
  const calls: { name: ProcedureName; input: unknown }[] = [];
  const replaced = new Map<ProcedureName, (input: never) => unknown>();
  const listeners = new Map<Topic, Set<() => void>>();
  return {
    book,
    calls,
    instead: (name, answer) => {
      if (answer) replaced.set(name, answer);
      else replaced.delete(name);
    },
    tell: (topic) => listeners.get(topic)?.forEach((changed) => changed()),
    async call<N extends ProcedureName>(name: N, input: ProcedureInput<N>): Promise<Answer<N>> {
      calls.push({ name, input });
      const other = replaced.get(name);
      if (other) return (await other(input as never)) as Answer<N>;
      if (name === 'reference.read') return { ok: true, value: REFERENCE.rows } as Answer<N>;
      return book.call(name, input);
    },
    subscribe: (topic, changed) => {
      const known = listeners.get(topic) ?? new Set();
      listeners.set(topic, known.add(changed));
      return () => known.delete(changed);
    },
  };
}
