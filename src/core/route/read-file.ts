import type * as z from 'zod/mini';
import type { FileProblem } from '../port/result.ts';
import { schemaProblems } from '../words/file-problems.ts';
import { doubledNames } from './doubled-names.ts';

export type FileReading<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly FileProblem[] };

const DEEPEST = 60;
/** More problems than this help nobody. */
const MOST_LISTED = 200;

/**
 * Reads one of our JSON files: text → checked value, or every problem with its place. Nothing is half read.
 * `check` looks at what a schema cannot say (names that must exist, sums that must fit).
 */
export function readFile<T>(text: string, schema: z.ZodMiniType<T>, check: (value: T) => readonly FileProblem[]): FileReading<T> {
  const whole = (words: string): FileReading<T> => ({ ok: false, problems: [{ at: '', words }] });
  const json = text.replace(/^\uFEFF/, '');
  let raw: unknown;
  try {
    raw = JSON.parse(json);
  } catch (error) {
    return whole(notJson(error));
  }
  if (tooDeep(raw, DEEPEST)) return whole(`the file is nested more than ${DEEPEST} levels deep`);
  if (/"__proto__"\s*:/.test(json)) return whole('"__proto__" cannot be a name in a file');
  const parsed = checkedBy(schema, raw);
  if (parsed === null) return whole('the file has more problems than can be listed');
  const doubled = doubledNames(json).map(
    (at): FileProblem => ({ at, words: 'this name stands twice here; only one of them would be kept' }),
  );
  if (parsed.success) {
    const problems = [...doubled, ...check(parsed.data)];
    return problems.length > 0 ? { ok: false, problems: capped(problems) } : { ok: true, value: parsed.data };
  }
  return { ok: false, problems: capped([...doubled, ...schemaProblems(parsed.error.issues, raw), ...checkAnyway(check, raw)]) };
}

/** What the further checks find where the schema is broken elsewhere; nothing where they cannot be made. */
function checkAnyway<T>(check: (value: T) => readonly FileProblem[], raw: unknown): readonly FileProblem[] {
  try {
    return check(raw as T);
  } catch {
    return [];
  }
}

function capped(problems: readonly FileProblem[]): readonly FileProblem[] {
  if (problems.length <= MOST_LISTED) return problems;
  return [...problems.slice(0, MOST_LISTED), { at: '', words: `and ${problems.length - MOST_LISTED} more problems` }];
}

/** The reader's own message with its place, in words that do not need a programmer. */
function notJson(error: unknown): string {
  const message = error instanceof Error ? error.message : '';
  const place = /line (\d+) column (\d+)/.exec(message);
  return place
    ? `this is not JSON: something is wrong at line ${place[1]}, character ${place[2]}`
    : 'this is not JSON, or it is cut off';
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
