import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { after } from './writers.ts';

/**
 * Starts a script of this folder, kills it after it has said `begun` so many times, and gives the whole lines it had said.
 * @param milliseconds from then to the blow.
 */
export async function killed<T>(
  script: string,
  args: readonly string[],
  { begun, times = 1, milliseconds }: { readonly begun: string; readonly times?: number; readonly milliseconds: number },
): Promise<readonly T[]> {
  const child = spawn(process.execPath, [join(import.meta.dirname, script), ...args], { stdio: ['ignore', 'pipe', 'inherit'] });
  let text = '';
  const saidSo = new Promise<void>((done) => {
    child.stdout.on('data', (part: Buffer) => {
      text += part.toString();
      if (text.split(begun).length > times) done();
    });
  });
  const ended = new Promise<void>((done) => child.on('close', () => done()));
  await Promise.race([saidSo, ended]);
  await after(milliseconds);
  child.kill('SIGKILL');
  await ended;
  const lines = text.split('\n').slice(0, -1);
  return lines.map((line) => JSON.parse(line) as T);
}
