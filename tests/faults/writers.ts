import { type ChildProcess, spawn } from 'node:child_process';
import { join } from 'node:path';

/** What a writer said it was told had been saved. */
export interface Said {
  readonly opened?: boolean;
  readonly trouble?: unknown;
  readonly bottle?: string;
  readonly left?: number;
  readonly state?: number;
  readonly words?: string;
  readonly paper?: number;
  readonly revision?: number;
  readonly title?: string;
  readonly run?: number;
  readonly entry?: number;
  readonly kind?: string;
  readonly conflict?: number;
  readonly failed?: string;
}

export interface Writer {
  readonly process: ChildProcess;
  /** Resolves with the first whole line. */
  readonly begun: Promise<void>;
  /** Resolves when so many whole lines were said, or with the end. */
  heard(lines: number): Promise<void>;
  /** Resolves with everything said, after the end. A last line that was cut off does not count. */
  readonly said: Promise<readonly Said[]>;
  readonly code: Promise<number | null>;
}

export function startWriter(folder: string, name: string, most: number): Writer {
  const file = join(import.meta.dirname, 'writer.ts');
  const child = spawn(process.execPath, [file, folder, name, String(most)], { stdio: ['ignore', 'pipe', 'inherit'] });
  let text = '';
  child.stdout.on('data', (chunk: Buffer) => {
    text += chunk.toString();
  });
  const heard = (lines: number): Promise<void> =>
    new Promise<void>((done) => {
      const look = (): void => {
        if (text.split('\n').length > lines) done();
      };
      child.stdout.on('data', look);
      child.once('exit', () => done());
      look();
    });
  const begun = heard(1);
  const code = new Promise<number | null>((done) => child.once('exit', done));
  const ended = new Promise<void>((done) => child.stdout.once('end', () => done()));
  const said = Promise.all([code, ended]).then(() =>
    text
      .split('\n')
      .slice(0, -1)
      .map((line) => JSON.parse(line) as Said),
  );
  return { process: child, begun, heard, said, code };
}

/** 0 to 1, evenly over any number of rounds and never twice the same: where in its stretch the blow of a round falls. */
export const spread = (round: number): number => (round * 0.618_034) % 1;

export function after(milliseconds: number): Promise<void> {
  return new Promise((done) => setTimeout(done, milliseconds));
}
