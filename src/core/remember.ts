/**
 * Remembers what a pure function of two values gave, for as long as both live. The answer depends on nothing else,
 * so remembering changes how fast it comes and nothing more; a plan asks for the same densities at every keystroke.
 */
export function remember<A extends WeakKey, B extends WeakKey, T>(work: (a: A, b: B) => T): (a: A, b: B) => T {
  const known = new WeakMap<A, WeakMap<B, T>>();
  return (a, b) => {
    let inner = known.get(a);
    if (!inner) known.set(a, (inner = new WeakMap()));
    let found = inner.get(b);
    if (found === undefined) inner.set(b, (found = work(a, b)));
    return found;
  };
}

/**
 * The same for one value and all that stands beside it, of which only the last is kept: for what seldom changes from one
 * keystroke to the next, like the forms a step's charges are taken in. Each is compared with what it was, by identity; a
 * list by its members.
 */
export function rememberLast<A extends WeakKey, O extends readonly unknown[], T>(
  work: (of: A, ...others: O) => T,
): (of: A, ...others: O) => T {
  const last = new WeakMap<A, { readonly others: O; readonly found: T }>();
  return (of, ...others) => {
    const known = last.get(of);
    if (known?.others.length === others.length && others.every((one, at) => isSame(one, known.others[at]))) return known.found;
    const found = work(of, ...others);
    last.set(of, { others, found });
    return found;
  };
}

function isSame(one: unknown, other: unknown): boolean {
  if (one === other) return true;
  return Array.isArray(one) && Array.isArray(other) && one.length === other.length && one.every((item, at) => item === other[at]);
}

/** The same for three values. */
export function rememberOfThree<A extends WeakKey, B extends WeakKey, C extends WeakKey, T>(
  work: (a: A, b: B, c: C) => T,
): (a: A, b: B, c: C) => T {
  const known = remember((_a: A, _b: B) => new WeakMap<C, { readonly found: T }>());
  return (a, b, c) => {
    const inner = known(a, b);
    let kept = inner.get(c);
    if (kept === undefined) inner.set(c, (kept = { found: work(a, b, c) }));
    return kept.found;
  };
}
