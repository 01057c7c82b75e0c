import type * as z from 'zod/mini';
import type { FileProblem } from '../port/result.ts';
import { schemaProblems } from '../words/file-problems.ts';

export type FileReading<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly FileProblem[] };

const DEEPEST = 60;

/**
 * Reads one of our JSON files: text → checked value, or every problem with its place. Nothing is half read.
 * `check` looks at what a schema cannot say (names that must exist, sums that must fit).
 */
export function readFile<T>(text: string, schema: z.ZodMiniType<T>, check: (value: T) => readonly FileProblem[]): FileReading<T> {
  let raw: unknown;
  try {
    raw = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    return {
      ok: false,
      problems: [{ at: '', words: `this is not JSON: ${error instanceof Error ? error.message : 'it cannot be read'}` }],
    };
  }
  if (tooDeep(raw, DEEPEST))
    return { ok: false, problems: [{ at: '', words: `the file is nested more than ${DEEPEST} levels deep` }] };
  const parsed = schema.safeParse(raw);
  if (!parsed.success) return { ok: false, problems: schemaProblems(parsed.error.issues, raw) };
  const problems = check(parsed.data);
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: parsed.data };
}

function tooDeep(value: unknown, left: number): boolean {
  if (value === null || typeof value !== 'object') return false;
  return left === 0 || Object.values(value).some((inner) => tooDeep(inner, left - 1));
}
