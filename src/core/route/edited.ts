import type { FileProblem } from '../port/result.ts';
import { readRoute } from './read-route.ts';
import type { Route, Step } from './route.ts';

/** A route after an edit, or everything that speaks against it, each with its place in the route. */
export type Edited =
  | { readonly ok: true; readonly route: Route }
  | { readonly ok: false; readonly problems: readonly FileProblem[] };

/**
 * Holds an edited route against the route's own reader: what a file could not hold, an edit cannot make.
 * @returns the route, or every problem with its JSON pointer; nothing is half changed.
 */
export function checked(route: Route): Edited {
  const read = readRoute(JSON.stringify(route));
  return read.ok ? { ok: true, route } : { ok: false, problems: read.problems };
}

/** An edit refused in these words, at this place of the route ("" for the whole of it). */
export function refused(words: string, at = ''): Edited {
  return { ok: false, problems: [{ at, words }] };
}

/** One step changed, the rest as it was. A step that is not there changes nothing. */
export function withStep(route: Route, id: string, change: (step: Step) => Step): Route {
  return { ...route, steps: route.steps.map((step) => (step.id === id ? change(step) : step)) };
}

/** The same object with this entry, or without it where the value is undefined. */
export function put<T extends object, K extends keyof T>(of: T, key: K, value: T[K] | undefined): T {
  const { [key]: _, ...rest } = of;
  return value === undefined ? (rest as T) : { ...of, [key]: value };
}

/** Letters a key can hold; the rest of a name becomes hyphens. */
const LONGEST_KEY = 60;

/** A key made from a name that none of `taken` has: "benzyl alcohol" → "benzyl-alcohol", "benzyl-alcohol-2". */
export function freeKey(name: string, taken: readonly string[]): string {
  const plain = name
    .normalize('NFKD')
    .replaceAll(/[^\w.-]+/g, '-')
    .replaceAll(/^[^A-Za-z0-9]+|-+$/g, '')
    .slice(0, LONGEST_KEY)
    .toLowerCase();
  const key = plain === '' || plain === '__proto__' ? 'material' : plain;
  const known = new Set(taken);
  for (let number = 1; ; number += 1) {
    const one = number === 1 ? key : `${key}-${number}`;
    if (!known.has(one)) return one;
  }
}
