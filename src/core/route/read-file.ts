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
  if (text.includes('"__proto__"')) return { ok: false, problems: [{ at: '', words: '"__proto__" cannot be a name in a file' }] };
  if (tooDeep(raw, DEEPEST))
    return { ok: false, problems: [{ at: '', words: `the file is nested more than ${DEEPEST} levels deep` }] };
  const parsed = checkedBy(schema, raw);
  if (parsed === null) return { ok: false, problems: [{ at: '', words: 'the file has more problems than can be listed' }] };
  if (!parsed.success) return { ok: false, problems: schemaProblems(parsed.error.issues, raw) };
  const problems = check(parsed.data);
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: parsed.data };
}

/** The schema's verdict; null where a file is so large and so wrong that the checker itself gives up. */
function checkedBy<T>(schema: z.ZodMiniType<T>, raw: unknown): ReturnType<typeof schema.safeParse> | null {
  try {
    return schema.safeParse(raw);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

function tooDeep(value: unknown, left: number): boolean {
  if (value === null || typeof value !== 'object') return false;
  return left === 0 || Object.values(value).some((inner) => tooDeep(inner, left - 1));
}
