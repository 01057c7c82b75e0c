import * as z from 'zod/mini';
import type { ScaleRun } from '../caution/scale-jump.ts';
import { type FileReading, readFile } from '../route/read-file.ts';
import { runFileWords as words } from '../words/run-file-words.ts';
import { brokenLink, type Hash } from './chain.ts';
import { RunEntry } from './entry.ts';
import { runOutcome } from './outcome.ts';
import { RunSheet } from './run-sheet.ts';
import { foldRun } from './state.ts';

const Link = z.string().check(z.maxLength(100));

/** A run record as the program exports it. */
const RunFile = z.object({
  backweigh: z.literal('run record'),
  version: z.literal(1),
  run: z.int().check(z.gte(1)),
  start: z.looseObject({ sheet: RunSheet }),
  link: Link,
  entries: z.array(z.object({ number: z.int(), at: z.string(), entry: RunEntry, link: Link })).check(z.maxLength(100_000)),
});

/**
 * Reads an exported run record as far as its scale goes: the step, whether it is finished, and the contained basis that
 * was weighed, g. Refused where it was changed after it was written. @param hash SHA-256, the machine's own.
 */
export function readRunFile(text: string, hash: Hash): FileReading<ScaleRun> {
  const reading = readFile(text, RunFile, () => []);
  if (!reading.ok) return reading;
  const { run, start, link, entries } = reading.value;
  const linked = entries.map(({ link: own, ...recorded }) => ({ recorded, link: own }));
  const broken = brokenLink(start, link, linked, hash);
  if (broken !== null) return { ok: false, problems: [{ at: '', words: words.broken(broken) }] };
  const { sheet } = start;
  const state = foldRun(
    sheet,
    linked.map(({ recorded }) => recorded),
  );
  const factor = runOutcome(sheet, state).basisFactor;
  const basisGrams = factor.ok ? factor.figure.value * sheet.basis.grams : null;
  return { ok: true, value: { id: run, step: sheet.step, phase: state.phase, early: state.early !== '', basisGrams } };
}
