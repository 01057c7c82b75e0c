import { signal } from '@preact/signals';
import type { Port, ProcedureInput, ProcedureName, ProcedureOutput, Topic } from '../../core/port/port.ts';
import type { PortResult } from '../../core/port/result.ts';
import type { ConnectionState } from '../port-client.ts';

/** Whether the program behind the window answers. */
export const connection = signal<ConnectionState>('open');

let current: Port | null = null;

/** Sets the port every store speaks through; called once at start, and by tests. */
export function connectPort(port: Port): void {
  current = port;
}

/** Calls a procedure of the port; every trouble comes back as a result, never as a throw. */
export async function call<N extends ProcedureName>(name: N, input: ProcedureInput<N>): Promise<PortResult<ProcedureOutput<N>>> {
  if (!current) return { ok: false, code: 'not here', detail: 'no connection' };
  try {
    return await current.call(name, input);
  } catch (trouble) {
    return { ok: false, code: 'internal', detail: trouble instanceof Error ? trouble.message : String(trouble) };
  }
}

/** Listens to a topic; the returned function ends it. */
export function subscribe(topic: Topic, changed: () => void): () => void {
  return current ? current.subscribe(topic, changed) : () => {};
}
