import { mainWords } from '../../core/words/main-words.ts';

const DEEPEST = 60;
/** NUL, and halves of a surrogate pair: SQLite and UTF-8 would not give them back as they came. */
// oxlint-disable-next-line no-control-regex
const BAD_TEXT = /\u0000|\p{Surrogate}/u;

/**
 * Why a value cannot be kept as JSON and read back the same; null where it can. Walks without recursion, so that a
 * hostile depth cannot exhaust the stack, and never calls anything the value brings along.
 */
export function plainProblem(value: unknown): string | null {
  const waiting: { readonly one: unknown; readonly depth: number }[] = [{ one: value, depth: 0 }];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    const { one, depth } = next;
    if (depth > DEEPEST) return mainWords.tooDeep(DEEPEST);
    if (typeof one === 'string') {
      if (BAD_TEXT.test(one)) return mainWords.badText;
    } else if (typeof one === 'number') {
      if (!Number.isFinite(one)) return mainWords.notPlain;
    } else if (typeof one === 'object' && one !== null) {
      if (!isPlain(one)) return mainWords.notPlain;
      for (const [key, inner] of Object.entries(one)) {
        if (BAD_TEXT.test(key) || key === '__proto__') return mainWords.badText;
        if (inner !== undefined) waiting.push({ one: inner, depth: depth + 1 });
      }
    } else if (one !== null && typeof one !== 'boolean') return mainWords.notPlain;
  }
  return null;
}

function isPlain(one: object): boolean {
  if (Array.isArray(one)) return Object.keys(one).length === one.length;
  const made: unknown = Object.getPrototypeOf(one);
  if (made !== Object.prototype && made !== null) return false;
  return Object.values(Object.getOwnPropertyDescriptors(one)).every((property) => 'value' in property);
}
