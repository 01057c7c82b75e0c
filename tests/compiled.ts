import { join } from 'node:path';
import { programRoot } from '../src/main/program-root.ts';

/** Where Node keeps what it has compiled: tests start hundreds of processes and threads on the same modules. */
export const COMPILED: Readonly<Record<string, string>> = { NODE_COMPILE_CACHE: join(programRoot(), '.cache', 'node') };
